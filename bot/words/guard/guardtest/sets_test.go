package guardtest

import "testing"

// What is written for the guard must exist in number before it is worth a mark.
func TestFaithful(t *testing.T) {
	count := map[string]int{}
	for _, set := range Sets {
		for _, a := range Faithful(set) {
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

func TestAltered(t *testing.T) {
	count := map[string]int{}
	total := 0
	for _, set := range Sets {
		for _, base := range Bases(set) {
			for _, a := range Altered(base) {
				count[a.Kind]++
				total++
			}
		}
		t.Log(count, total)
	}
	for _, set := range [][]anAttack{numberAttacks, meaningAttacks, adviceAttacks, characterAttacks, wordAttacks} {
		for _, a := range set {
			if count[a.kind] < 2 {
				t.Errorf("%d answers with %q, want some", count[a.kind], a.kind)
			}
		}
	}
	if total < 400 {
		t.Errorf("%d altered answers, want at least 400", total)
	}
}
