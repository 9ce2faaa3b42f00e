package guardtest

import "testing"

// What is written for the guard must exist in number before it is worth a mark.
func TestFaithful(t *testing.T) {
	count := map[string]int{}
	for _, held := range []bool{false, true} {
		for _, a := range Faithful(held) {
			count[a.Kind]++
			if a.Text == a.Draft.Text() {
				t.Errorf("%s: the same words: %s", a.Draft.ID, a.Text)
			}
			t.Logf("%s %s\n%s\n", a.Draft.ID, a.Kind, a.Text)
		}
	}
	if count["by hand"] < 60 || count["by hand"]+count["template"] < 200 {
		t.Errorf("%v, want 200, 60 of them by hand", count)
	}
}
