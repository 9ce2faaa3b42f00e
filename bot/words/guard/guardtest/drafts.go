// Package guardtest makes what the guard of words is checked on: drafts of the engine,
// faithful answers in other words, and altered ones. It knows nothing of the guard.
//
// Each comes in sets: one to build the guard with, one that was held back, of other drafts
// in other words, a late one that was written when the guard stood, a last one, of
// faithful answers only, when it knew these, three fresh ones, of other
// drafts, that were written before it saw any of them, and two more, each when it
// knew those before.
package guardtest

import (
	"encoding/json"
	"slices"
	"strings"
	"time"

	"ripen/testdata"
)

// Draft is an answer of the engine as it is given to the guard.
type Draft struct {
	ID    string   `json:"id"`
	Kind  string   `json:"kind"`
	Today string   `json:"today"` // a date
	Body  string   `json:"body"`
	Keep  []string `json:"keep"`

	Set Set `json:"-"`
}

// Set is one of the sets.
type Set int

// The sets.
const (
	Development Set = iota
	Held
	Late
	Last // answers to drafts of the others
	FreshA
	FreshB // answers to the drafts of FreshA
	FreshC // as well
	FreshD // answers to the drafts of the first three
	FreshE // answers to the drafts of FreshA once more
)

// Sets are all of them.
var Sets = []Set{Development, Held, Late, Last, FreshA, FreshB, FreshC, FreshD, FreshE}

// String returns the set's name.
func (s Set) String() string {
	return [...]string{"development", "held back", "late", "last", "fresh A", "fresh B", "fresh C", "fresh D", "fresh E"}[s]
}

// Text returns the draft with its warnings.
func (d Draft) Text() string { return d.With(d.Body) }

// With returns other words for the body with the draft's warnings.
func (d Draft) With(body string) string {
	if len(d.Keep) == 0 {
		return body
	}
	return body + "\n\n" + strings.Join(d.Keep, " ")
}

// Day returns the day on which the draft was made.
func (d Draft) Day() time.Time {
	day, err := time.Parse(time.DateOnly, d.Today)
	if err != nil {
		panic("guardtest: " + err.Error())
	}
	return day
}

// Answer is other words for a draft.
type Answer struct {
	Draft Draft
	Kind  string // how it was made
	Text  string
}

// development names the drafts that the guard is built with.
var development = map[string]bool{
	"ada-outlook-1": true, "ada-why-1": true, "ben-outlook-1": true, "ben-why-1": true, "cleo-outlook-1": true, "cleo-why-1": true,
	"eve-outlook-1": true, "eve-why-1": true, "finn-outlook-1": true, "finn-why-1": true, "hana-outlook-1": true, "hana-why-1": true,
}

// Drafts returns the drafts of a set.
func Drafts(set Set) []Draft {
	text := testdata.Drafts
	switch set {
	case Late:
		text = testdata.LateDrafts
	case FreshA:
		text = testdata.FreshDrafts
	case Last, FreshB, FreshC, FreshD, FreshE:
		return nil
	}
	var all []Draft
	for d := json.NewDecoder(strings.NewReader(text)); d.More(); {
		one := Draft{Set: set}
		if err := d.Decode(&one); err != nil {
			panic("guardtest: drafts: " + err.Error())
		}
		if set >= Late || development[one.ID] == (set == Development) {
			all = append(all, one)
		}
	}
	return all
}

// Faithful returns answers of a set that say what their drafts say: those written by hand
// and, of the first two, those of the templates.
func Faithful(set Set) []Answer {
	drafts := map[string]Draft{}
	var all []Answer
	for _, d := range Drafts(set) {
		drafts[d.ID] = d
		if set >= Late {
			continue
		}
		seen := []string{d.Body}
		for style := range styles {
			if body := restyle(d, style); !slices.Contains(seen, body) {
				seen = append(seen, body)
				all = append(all, Answer{d, "template", d.With(body)})
			}
		}
	}
	switch set {
	case Last, FreshD:
		for _, d := range slices.Concat(Drafts(Development), Drafts(Held), Drafts(Late)) {
			drafts[d.ID] = d
		}
	case FreshB, FreshC, FreshE:
		for _, d := range Drafts(FreshA) {
			drafts[d.ID] = d
		}
	}
	text := [...]string{
		testdata.FaithfulDev, testdata.FaithfulHeld, testdata.FaithfulLate, testdata.FaithfulLast,
		testdata.FaithfulFreshA, testdata.FaithfulFreshB, testdata.FaithfulFreshC, testdata.FaithfulFreshD, testdata.FaithfulFreshE,
	}[set]
	for _, part := range strings.Split(text, "\n## ")[1:] {
		id, body, _ := strings.Cut(part, "\n")
		d, ok := drafts[id]
		if !ok {
			panic("guardtest: no draft " + id + " in this set")
		}
		all = append(all, Answer{d, "by hand", d.With(strings.TrimSpace(body))})
	}
	return all
}
