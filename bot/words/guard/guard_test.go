package guard

import (
	"flag"
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
	p, n := 0, 0
	for _, set := range guardtest.Sets {
		passed, all := map[string]int{}, map[string]int{}
		for _, a := range guardtest.Faithful(set) {
			all[a.Kind]++
			if err := Check(draftOf(a.Draft), a.Text); err == nil {
				passed[a.Kind]++
			} else {
				t.Logf("%s, %s: %v", a.Draft.ID, a.Kind, err)
			}
		}
		for _, kind := range slices.Sorted(maps.Keys(all)) {
			t.Logf("%s, %s: %d of %d pass", set, kind, passed[kind], all[kind])
			p, n = p+passed[kind], n+all[kind]
		}
	}
	t.Logf("%d of %d pass, %.0f %%", p, n, 100*float64(p)/float64(n))
	if 10*p < 9*n {
		t.Errorf("%d of %d pass, want nine in ten", p, n)
	}
}

// every is how many altered answers go by for one that is looked at.
var every = flag.Int("every", 6, "look at one altered answer in so many; all take minutes")

// Of the altered answers none passes, of whichever text that passes they are made.
func TestCheck_altered(t *testing.T) {
	for _, set := range guardtest.Sets {
		t.Run(set.String(), func(t *testing.T) { t.Parallel(); altered(t, set) })
	}
}

// remembering reads texts whose lines are mostly the same.
func remembering() func(string) []token {
	known := map[string][]token{}
	return func(s string) []token {
		return each(s, func(line string) []token {
			if _, ok := known[line]; !ok {
				known[line] = lineTokens(line)
			}
			return known[line]
		})
	}
}

func altered(t *testing.T, set guardtest.Set) {
	read, claimed := remembering(), map[string][]claim{}
	passes := func(a guardtest.Answer) bool {
		if claimed[a.Draft.ID] == nil {
			claimed[a.Draft.ID] = claims(a.Draft.Body)
		}
		return verdict(draftOf(a.Draft), a.Text, func() []claim { return claimed[a.Draft.ID] }, read) == nil
	}
	bases := guardtest.Bases(set)
	for _, a := range bases {
		if !passes(a) {
			t.Errorf("%s: a base does not pass, so nothing follows from what is made of it: %s", a.Draft.ID, a.Text)
		}
	}
	for _, a := range guardtest.Faithful(set) {
		if a.Kind == "by hand" && passes(a) {
			bases = append(bases, a)
		}
	}
	kinds, all := map[string]bool{}, 0
	for _, base := range bases {
		for _, a := range guardtest.Altered(base) {
			kinds[a.Kind] = true
			if all++; all%*every > 0 || testing.Short() && all%(10**every) > 0 {
				continue
			}
			if passes(a) {
				t.Errorf("%s, %s passes: %s", a.Draft.ID, a.Kind, a.Text)
			}
		}
	}
	t.Logf("%s: one in %d of %d altered answers of %d kinds, made of %d texts that pass", set, *every, all, len(kinds), len(bases))
}
