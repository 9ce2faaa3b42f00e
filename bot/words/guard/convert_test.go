package guard

import (
	"testing"

	"ripen/bot/words/guard/guardtest"
)

// Quantities pass in another unit if they are right there, and not if they are wrong, by
// whichever mistake.
func TestCheck_converted(t *testing.T) {
	read := remembering()
	count := map[string]int{}
	for _, set := range guardtest.Sets {
		for _, base := range guardtest.Bases(set) {
			c := claims(base.Draft.Body)
			for _, right := range []bool{true, false} {
				for _, a := range guardtest.Converted(base, right) {
					count[a.Kind]++
					err := verdict(draftOf(a.Draft), a.Text, func() []claim { return c }, read)
					if right && err != nil {
						t.Errorf("%s, %s is refused: %v: %s", a.Draft.ID, a.Kind, err, a.Text)
					}
					if !right && err == nil {
						t.Errorf("%s, %s passes: %s", a.Draft.ID, a.Kind, a.Text)
					}
				}
			}
		}
	}
	t.Log(count)
	for _, kind := range []string{"temperature", "temperature difference", "temperature a day", "volume", "weight", "hardness", "days"} {
		if count["right "+kind] < 4 || count["wrong "+kind] < 10 {
			t.Errorf("%d right and %d wrong of %s, want more", count["right "+kind], count["wrong "+kind], kind)
		}
	}
}
