package post

import (
	"slices"
	"strings"
)

// Event is something done to the tank that a post tells of. It is no reading, and
// has a command of its own.
type Event struct {
	What   string `json:"what"`   // as for /log: dose, water-change
	Amount string `json:"amount"` // as written, without blanks
}

// maxEvents is the number of events up to which a post tells of what was done
// lately; with more it is a diary.
const maxEvents = 2

// events finds water changes told in percent and doses of ammonia, done and not
// planned.
func (r *reader) events(ps []piece, senses []sense) {
	from := 0
	for k := 0; k <= len(ps); k++ {
		if k < len(ps) && ps[k].sort != sStop && ps[k].sort != sAsk && ps[k].sort != sLine && ps[k].sort != sSemi {
			continue
		}
		if k == len(ps) || ps[k].sort != sAsk {
			r.done(ps[from:k], senses[from:k])
		}
		from = k + 1
	}
	if len(r.result.Events) > maxEvents {
		r.result.Events = nil
	}
}

// done adds the events of one sentence.
func (r *reader) done(s []piece, senses []sense) {
	changed, dosed := false, false
	for k := range s {
		q := &s[k]
		if q.cue == cueWant || q.cue == cueIf || q.cue == cueKeep || q.cue == cueAsk && q.word != "did" || q.cue == cuePerson || general(s, k) {
			return
		}
		changed = changed || changeWord[q.word]
		dosed = dosed || q.word == "dosed" || q.word == "redosed"
	}
	for k := range s {
		q := &s[k]
		text := strings.ReplaceAll(r.src.text[q.from:q.to], " ", "")
		switch {
		case changed && q.sort == sMeasure && strings.HasSuffix(text, "%"):
			r.happened(Event{"water-change", text})
		case dosed && q.sort == sAmount && q.amt.unit == ppm && q.amt.low > 0 && q.amt.low == q.amt.high && q.amt.odd == "" && (senses[k].left == leftDose || senses[k].dose != ""):
			r.happened(Event{"dose", text})
		}
	}
}

func (r *reader) happened(e Event) {
	if !slices.Contains(r.result.Events, e) {
		r.result.Events = append(r.result.Events, e)
	}
}

var changeWord = wordSet(`changed, did, swapped, replaced, water change, wc, pwc, waterchange, water changes`)
