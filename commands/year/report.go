package year

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Report says what the year came to.
func (y *Year) Report() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d members, seed %d: %d lines in %s, %d refused", y.Members, y.Seed, y.Lines, y.Took.Round(time.Second/10), y.refusals())
	if y.First != "" {
		fmt.Fprintf(&b, " (the first: %s)", y.First)
	}
	slow := slices.Sorted(slices.Values(y.Slow))
	fmt.Fprintf(&b, "\n- weekly summaries: %d, wrong in %d ways %v\n", len(y.Posts), len(y.Wrong), y.Wrong[:min(len(y.Wrong), 5)])
	if n := len(slow); n > 0 {
		fmt.Fprintf(&b, "- /club slow: median %s, 99 of 100 within %s\n", slow[n/2].Round(time.Millisecond), slow[n*99/100].Round(time.Millisecond))
	}
	fmt.Fprintf(&b, "- record: %s\n", strings.ReplaceAll(y.Recorded, "\n", "\n  "))
	if len(y.Learnt) > 0 {
		b.WriteString(worthTable(WorthOf(y.Taught)) + y.lessonTable())
	}
	return b.String()
}

func (y *Year) refusals() (n int) {
	for _, k := range y.Refused {
		n += k
	}
	return n
}
