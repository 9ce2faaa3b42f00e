package guard

import (
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// A pattern that is passed over has no match.
func TestIdiomatic(t *testing.T) {
	for _, set := range guardtest.Sets {
		for _, a := range guardtest.Faithful(set) {
			slow, quick := fold(a.Text), idiomatic(fold(a.Text))
			for _, i := range idioms {
				slow = i.pattern.ReplaceAllString(slow, i.plain)
			}
			if slow != quick {
				t.Errorf("with all patterns %q, else %q", slow, quick)
			}
		}
	}
}
