package post

import (
	"bufio"
	"fmt"
	"os"
	"strings"
	"testing"
)

func TestProbe(t *testing.T) {
	f, err := os.Open(os.Getenv("PROBE"))
	if err != nil {
		t.Skip("no probe")
	}
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		r := Read(strings.NewReplacer(`\n`, "\n", `\t`, "\t").Replace(sc.Text()), Options{})
		var b strings.Builder
		for _, f := range r.Found {
			fmt.Fprintf(&b, "%v=%s  ", f.Kind, told(f))
		}
		if r.Day != nil {
			fmt.Fprintf(&b, "day=%v ", *r.Day)
		}
		for _, d := range r.Doubtful {
			fmt.Fprintf(&b, "\n      ? %q %.60s", d.Text, d.Reason)
		}
		for _, d := range r.Left {
			fmt.Fprintf(&b, "\n      - %q %.40s", d.Text, d.Reason)
		}
		fmt.Printf("%s\n    => %s\n", sc.Text(), b.String())
	}
}
