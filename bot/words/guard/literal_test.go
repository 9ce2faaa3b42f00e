package guard

import (
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// A pattern that is passed over has no match.
func TestIdiomatic(t *testing.T) {
	for _, set := range guardtest.Sets {
		for n, a := range guardtest.Faithful(set) {
			if n%5 > 0 {
				continue // all take a while
			}
			slow, quick := fold(a.Text), idiomatic(fold(a.Text))
			for _, i := range idioms {
				slow = spaces.ReplaceAllString(i.pattern.ReplaceAllString(slow, i.plain), " ")
			}
			if slow != quick {
				t.Errorf("with all patterns %q, else %q", slow, quick)
			}
		}
	}
}
