package guard

import (
	"cmp"
	"maps"
	"slices"
	"testing"

	"ripen/bot/words/guard/guardtest"
)

func draftOf(d guardtest.Draft) Draft { return Draft{d.Body, d.Keep, d.Day()} }

var halves = []struct {
	name string
	held bool
}{{"development", false}, {"held back", true}}

// A draft says what it says.
func TestCheck_drafts(t *testing.T) {
	for _, half := range halves {
		for _, d := range guardtest.Drafts(half.held) {
			if err := Check(draftOf(d), d.Text()); err != nil {
				t.Errorf("%s: %v", d.ID, err)
			}
		}
	}
}

// Of the answers that say what their drafts say, at least nine in ten pass.
func TestCheck_faithful(t *testing.T) {
	for _, half := range halves {
		t.Run(half.name, func(t *testing.T) { t.Parallel(); faithful(t, half.name, half.held) })
	}
}

func faithful(t *testing.T, name string, held bool) {
	passed, all := map[string]int{}, map[string]int{}
	for _, a := range guardtest.Faithful(held) {
		all[a.Kind]++
		err := Check(draftOf(a.Draft), a.Text)
		if err == nil {
			passed[a.Kind]++
		} else if !held || testing.Verbose() {
			t.Logf("%s, %s: %v", a.Draft.ID, a.Kind, err)
		}
	}
	p, n := 0, 0
	for _, kind := range slices.Sorted(maps.Keys(all)) {
		t.Logf("%s, %s: %d of %d pass", name, kind, passed[kind], all[kind])
		p, n = p+passed[kind], n+all[kind]
	}
	if 10*p < 9*n {
		t.Errorf("%s: %d of %d pass, want nine in ten", name, p, n)
	}
}

// Of the altered answers none passes.
func TestCheck_altered(t *testing.T) {
	for _, half := range halves {
		t.Run(half.name, func(t *testing.T) { t.Parallel(); altered(t, half.name, half.held) })
	}
}

func altered(t *testing.T, name string, held bool) {
	bases := 0
	for _, a := range guardtest.Bases(held) {
		if Check(draftOf(a.Draft), a.Text) == nil {
			bases++
		}
	}
	all := guardtest.Altered(held)
	passed := map[string]int{}
	for _, a := range all {
		if Check(draftOf(a.Draft), a.Text) == nil {
			if passed[a.Kind]++; passed[a.Kind] <= 3 {
				t.Errorf("%s, %s passes: %s", a.Draft.ID, a.Kind, a.Text)
			}
		}
	}
	kinds := slices.SortedFunc(maps.Keys(passed), func(x, y string) int { return cmp.Compare(passed[y], passed[x]) })
	for _, k := range kinds {
		t.Errorf("%s: %d of %q pass", name, passed[k], k)
	}
	t.Logf("%s: %d altered answers of %d texts, of which %d pass as they are", name, len(all), len(guardtest.Bases(held)), bases)
}
