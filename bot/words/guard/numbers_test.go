package guard

import (
	"regexp"
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// Of the changes below, every so many are tried; 1 tries all, in minutes.
const stride = 7

// Two numbers of a draft in each other's place are refused, whichever they are.
func TestCheck_swappedNumbers(t *testing.T) {
	tried, read := 0, remembering()
	for _, set := range guardtest.Sets {
		for _, d := range guardtest.Drafts(set) {
			c := claims(d.Body)
			at := regexp.MustCompile(`\d+(\.\d+)?`).FindAllStringIndex(d.Body, -1)
			for i := range at {
				for j := i + 1; j < len(at); j++ {
					a, b := d.Body[at[i][0]:at[i][1]], d.Body[at[j][0]:at[j][1]]
					if tried++; a == b || tried%(4*stride) > 0 {
						continue
					}
					text := d.Body[:at[i][0]] + b + d.Body[at[i][1]:at[j][0]] + a + d.Body[at[j][1]:]
					if verdict(draftOf(d), d.With(text), func() []claim { return c }, read) == nil {
						t.Errorf("%s passes with %s and %s swapped: %s", d.ID, a, b, text)
					}
				}
			}
		}
	}
}

// Another digit anywhere in an answer that passes makes it refused.
func TestCheck_otherDigit(t *testing.T) {
	tried, read := 0, remembering()
	for _, set := range guardtest.Sets {
		for _, a := range guardtest.Faithful(set) {
			if Check(draftOf(a.Draft), a.Text) != nil {
				continue
			}
			c := claims(a.Draft.Body)
			for i, r := range a.Text {
				if r < '0' || r > '9' {
					continue
				}
				if tried++; tried%stride > 0 {
					continue
				}
				text := []byte(a.Text)
				text[i] = '0' + (text[i]-'0'+byte(1+tried%9))%10
				if verdict(draftOf(a.Draft), string(text), func() []claim { return c }, read) == nil {
					t.Errorf("%s passes with another digit at %d: %s", a.Draft.ID, i, text)
				}
			}
		}
	}
}
