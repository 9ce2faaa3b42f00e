package year

import (
	"fmt"
	"strings"
	"time"

	"ripen/engine/pool"
	"ripen/engine/study"
)

// Lesson is what was learnt by some time.
type Lesson struct {
	At    time.Time
	Prior pool.Prior
}

// toCome is how many tanks what was learnt is held against.
const toCome = 300

// lessonTable tells by how many nats what was learnt by some days of the year foretells what
// tanks truly begin with, better than the general prior does: tanks of the same club that nothing was
// learnt from.
func (y *Year) lessonTable() string {
	if !y.Of.Own || len(y.Learnt) == 0 {
		return ""
	}
	tanks := make([]study.Kept, toCome)
	for i := range tanks {
		tanks[i] = y.Of.Member(y.Members + i)
	}
	var b strings.Builder
	b.WriteString("\nWhat was learnt, in nats for each tank to come:\n\n| day of the year | from tanks, done | used | believed of ammonia, nitrite oxidisers | nats |\n| --- | --- | --- | --- | --- |\n")
	for _, day := range []int{100, 150, 200, 270, 365} {
		var last pool.Prior
		for _, l := range y.Learnt {
			if !l.At.After(newYear.AddDate(0, 0, day)) {
				last = l.Prior
			}
		}
		nats := make([]float64, len(tanks))
		for i, k := range tanks {
			nats[i] = last.Worth(&k.Told.Setup, k.Seeds)
		}
		m, se := meanOf(nats)
		used := last.Level
		if used == pool.None {
			used = "no"
		}
		fmt.Fprintf(&b, "| %d | %d, %d | %s | %.2f ± %.2f, %.2f ± %.2f | %.2f ± %.2f |\n", day, last.Tanks, last.Done, used,
			last.Club[0].Mean, last.Club[0].SD, last.Club[1].Mean, last.Club[1].SD, m, se)
	}
	return b.String()
}
