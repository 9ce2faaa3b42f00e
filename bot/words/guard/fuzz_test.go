package guard

import (
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// A digit that is changed in what passed makes it refused, wherever it stands.
func FuzzCheck_digit(f *testing.F) {
	bases := append(guardtest.Bases(guardtest.Development), guardtest.Bases(guardtest.Held)...)
	for i := range bases {
		f.Add(uint(i), uint(7*i), uint(i))
	}
	f.Fuzz(func(t *testing.T, which, where, by uint) {
		base := bases[which%uint(len(bases))]
		var digits []int
		for i, r := range base.Text {
			if r >= '0' && r <= '9' {
				digits = append(digits, i)
			}
		}
		if len(digits) == 0 {
			return
		}
		text, at := []byte(base.Text), digits[where%uint(len(digits))]
		text[at] = '0' + (text[at]-'0'+byte(1+by%9))%10
		if Check(draftOf(base.Draft), base.Text) == nil && Check(draftOf(base.Draft), string(text)) == nil {
			t.Errorf("%s passes with another digit at %d: %s", base.Draft.ID, at, text)
		}
	})
}

// Whatever text comes, as an answer or as a draft, there is a verdict; and a draft never
// passes with a word more.
func FuzzCheck_text(f *testing.F) {
	for _, set := range guardtest.Sets {
		for _, base := range guardtest.Bases(set) {
			for i, a := range guardtest.Altered(base) {
				if i%97 == 0 {
					f.Add(a.Text, a.Draft.Body)
				}
			}
		}
	}
	f.Fuzz(func(t *testing.T, answer, body string) {
		_ = Check(Draft{Body: body}, answer)
		if Check(Draft{Body: body}, body+" Add 12345 fish.") == nil {
			t.Errorf("passes with a sentence more: %q", body)
		}
	})
}
