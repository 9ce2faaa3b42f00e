package guard

import (
	"cmp"
	"maps"
	"slices"
	"testing"

	"ripen/bot/words/guard/guardtest"
)

func draftOf(d guardtest.Draft) Draft { return Draft{d.Body, d.Keep, d.Day()} }

// A draft says what it says.
func TestCheck_drafts(t *testing.T) {
	for _, set := range guardtest.Sets {
		for _, d := range guardtest.Drafts(set) {
			if err := Check(draftOf(d), d.Text()); err != nil {
				t.Errorf("%s: %v", d.ID, err)
			}
		}
	}
}

// Of the answers that say what their drafts say, at least nine in ten pass.
func TestCheck_faithful(t *testing.T) {
	for _, set := range guardtest.Sets {
		t.Run(set.String(), func(t *testing.T) { t.Parallel(); faithful(t, set) })
	}
}

func faithful(t *testing.T, set guardtest.Set) {
	passed, all := map[string]int{}, map[string]int{}
	for _, a := range guardtest.Faithful(set) {
		all[a.Kind]++
		err := Check(draftOf(a.Draft), a.Text)
		if err == nil {
			passed[a.Kind]++
		} else if set == guardtest.Development || testing.Verbose() {
			t.Logf("%s, %s: %v", a.Draft.ID, a.Kind, err)
		}
	}
	p, n := 0, 0
	for _, kind := range slices.Sorted(maps.Keys(all)) {
		t.Logf("%s, %s: %d of %d pass", set, kind, passed[kind], all[kind])
		p, n = p+passed[kind], n+all[kind]
	}
	if 10*p < 9*n {
		t.Errorf("%s: %d of %d pass, want nine in ten", set, p, n)
	}
}

// Of the altered answers none passes.
func TestCheck_altered(t *testing.T) {
	for _, set := range guardtest.Sets {
		t.Run(set.String(), func(t *testing.T) { t.Parallel(); altered(t, set) })
	}
}

func altered(t *testing.T, set guardtest.Set) {
	bases := 0
	for _, a := range guardtest.Bases(set) {
		if Check(draftOf(a.Draft), a.Text) == nil {
			bases++
		}
	}
	all := guardtest.Altered(set)
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
		t.Errorf("%s: %d of %q pass", set, passed[k], k)
	}
	t.Logf("%s: %d altered answers of %d texts, of which %d pass as they are", set, len(all), len(guardtest.Bases(set)), bases)
}
