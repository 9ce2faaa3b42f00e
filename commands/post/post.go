// Package post takes water-test readings out of ordinary forum prose.
//
// A post goes through these steps, each in the file of its name; the files in
// brackets help it:
//
//	clean    markup, quotes and odd characters out, positions kept (markup, tags, fold)
//	token    words, numbers, signs
//	piece    names of tests, amounts, points in time, cues (lexicon, label, value, when, event, colour)
//	table    tables are bound by their columns (cells, tablerow)
//	topic    sentences that speak of tests named before get their names
//	context  which amounts are doses, goals, other water, asked about (cues, tap, general, judge, ask)
//	times    which amounts are older, by dates, headings and tense (clause, headings, tense)
//	plain    which sentences list readings, and which tell of something else
//	bind     which amount belongs to which name: the cheapest reading of the row (gap, moves, rival, alone, scale)
//	settle   the newest value of each test, its unit and range, the doubts (sets, check)
//
// What is plain is understood without a question, what is not is quoted back
// with the reason. Nothing is guessed silently.
package post

import "slices"

import "ripen/store"

// Kind is what a reading measures.
type Kind int

// The kinds of readings. Concentrations are mg/L on the kit's own scale.
const (
	Ammonia  Kind = iota // total ammonia
	Nitrite              // nitrite
	Nitrate              // nitrate
	PH                   // pH
	KH                   // carbonate hardness, German degrees
	Temp                 // temperature, degrees Celsius
	Chlorine             // chlorine
	other                // known, but none of ours: GH, phosphate, salinity ...
)

// String returns the name of the kind in the command book.
func (k Kind) String() string {
	return [...]string{"ammonia", "nitrite", "nitrate", "ph", "kh_dkh", "temp_c", "chlorine", "other"}[k]
}

// Options says what bare numbers mean for this member. The zero value means
// metric, as for a new member.
type Options struct {
	Temp  string // "C" or "F"
	KH    string // "dKH", "ppm" (as CaCO3) or "meq"
	Scale string // "ion" or "n"
}

func (o Options) filled() Options {
	if o.Temp == "" {
		o.Temp = store.Metric.Temp
	}
	if o.KH == "" {
		o.KH = store.Metric.KH
	}
	if o.Scale == "" {
		o.Scale = store.Metric.Scale
	}
	return o
}

// Found is one reading that was understood.
type Found struct {
	Kind      Kind
	Low, High float64 // equal, or the two steps that the reading lies between
	Over      bool    // the chart topped out: at least Low
	AsN       bool    // on the nitrogen scale
	Typed     string  // the amount as written
}

// Doubt is a snippet of the post as written, with a reason in plain words.
type Doubt struct {
	Text, Reason string
}

// Result is what a post says.
type Result struct {
	Found    []Found  // in the order of Kind, at most one of each
	Doubtful []Doubt  // what the member should say again, in the order of the post
	Left     []Doubt  // numbers of tests left out as no reading of now, and why: doses, goals, older values
	Events   []Event  // what was done to the tank
	Day      *float64 // "Day 12", if the post says so
	Date     *Date    // the date or weekday of all readings, if the post says so
}

// Read takes the readings out of a post. It never fails: what cannot be
// understood is either no reading or a Doubt. The same text and options give
// the same result, in time proportional to the length of the text.
func Read(text string, o Options) Result {
	o = o.filled()
	src := clean(text)
	p := &reader{src: src, opt: o, allPPM: allPPM.MatchString(src.text)}
	p.read()
	if at := allGoals.FindStringIndex(src.text); at != nil && !slices.ContainsFunc(p.chosen, func(x reading) bool { return x.from > at[0] }) {
		p.result = goals(p.result)
	}
	return p.result
}
