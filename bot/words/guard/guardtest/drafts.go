// Package guardtest makes what the guard of words is checked on: drafts of the engine,
// faithful answers in other words, and altered ones. It knows nothing of the guard.
//
// Each comes in two halves: one to build the guard with, and one that is held back, of
// other drafts in other words.
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

	Held bool `json:"-"` // is of the half that is held back
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

// Drafts returns the drafts of one half.
func Drafts(held bool) []Draft {
	var all []Draft
	for d := json.NewDecoder(strings.NewReader(testdata.Drafts)); d.More(); {
		var one Draft
		if err := d.Decode(&one); err != nil {
			panic("guardtest: drafts.jsonl: " + err.Error())
		}
		if one.Held = !development[one.ID]; one.Held == held {
			all = append(all, one)
		}
	}
	return all
}

// Faithful returns answers of one half that say what their drafts say: those written by
// hand, and those of the templates.
func Faithful(held bool) []Answer {
	drafts := map[string]Draft{}
	var all []Answer
	for _, d := range Drafts(held) {
		drafts[d.ID] = d
		seen := []string{d.Body}
		for style := range styles {
			if body := restyle(d, style); !slices.Contains(seen, body) {
				seen = append(seen, body)
				all = append(all, Answer{d, "template", d.With(body)})
			}
		}
	}
	text := testdata.FaithfulDev
	if held {
		text = testdata.FaithfulHeld
	}
	for _, part := range strings.Split(text, "\n## ")[1:] {
		id, body, _ := strings.Cut(part, "\n")
		d, ok := drafts[id]
		if !ok {
			panic("guardtest: no draft " + id + " in this half")
		}
		all = append(all, Answer{d, "by hand", d.With(strings.TrimSpace(body))})
	}
	return all
}
