package post

import "math/bits"

// leftAside is why an amount is no reading: the post lists what it read, and this
// stands in a sentence about something else.
const leftAside = "it stands apart from the readings that the post lists, with another value"

// weigh tells of each amount how plainly its sentence reports tests: how many of
// its words mean nothing here, and how many tests the run of plain sentences
// around it names. A list of readings is what a post is about; a sentence full
// of other words beside it tells of something else more often than it corrects.
func weigh(ps []piece, senses []sense) {
	var run []int // amounts of the run of plain sentences so far
	tests := uint(0)
	end := func() {
		for _, k := range run {
			senses[k].run = bits.OnesCount(tests)
		}
		run, tests = nil, 0
	}
	from := 0
	for k := 0; k <= len(ps); k++ {
		if k < len(ps) && ps[k].sort != sStop && ps[k].sort != sAsk && ps[k].sort != sSemi && ps[k].sort != sLine {
			continue
		}
		s := sentenceOf(ps[from:k])
		switch {
		case s.amounts == 0 && s.others == 0 && s.named == 0:
			if k > from || from > 1 && ps[from-1].sort == sLine && ps[from-2].sort == sLine { // a sentence without tests, an empty line
				end()
			}
		case s.others > 2 || s.others > 0 && bits.OnesCount(s.named) < 3:
			end()
		}
		if s.amounts > 0 {
			tests |= s.named
		}
		for j := from; j < k; j++ {
			if ps[j].sort == sAmount {
				senses[j].others, senses[j].again, senses[j].sentence = s.others, s.again, from+1
				run = append(run, j)
			}
		}
		if s.others > 2 || s.others > 0 && bits.OnesCount(s.named) < 3 {
			end()
		}
		from = k + 1
	}
	end()
}

// toldIn is what a sentence holds.
type toldIn struct {
	others, amounts int
	named           uint // a bit for each test
	again           bool // it tells of a test done again
}

// againWords tell of a test of the same water that may put an earlier one right.
var againWords = wordSet(`again, retest, retested, retesting, redid, redo, recheck, rechecked, actually, correction, second, twice, instead, really, sorry, too, also, as well, shop, shops, store, stores, lfs, wife, husband, partner, kit, strip, strips, meter, probe, card, light, daylight,
	look, looked, closer, later, test, tested, tests, measure, measured, checked, just, now, darker, lighter, typing, typed, update, updated, then, since, still, today, hour, hours, minutes, other test, another test, this time`)

func sentenceOf(ps []piece) (s toldIn) {
	for k := range ps {
		switch q := &ps[k]; q.sort {
		case sFiller:
			if q.cue == noCue || q.cue == cuePerson || q.cue == cueTheir {
				s.others++
			}
		case sAmount:
			s.amounts++
		case sMeasure:
			s.others++
		case sLabel:
			if q.kind < other {
				s.named |= 1 << q.kind
			}
		}
		s.again = s.again || againWords[ps[k].word] || ps[k].cue == cueFix
	}
	return s
}

// fromList drops the sentences about something else that give another value of a
// test than the list of readings does, with all that they say.
func (r *reader) fromList(xs []reading) []reading {
	var list [other]*reading // the first of each test in a list
	for i := range xs {
		if x := &xs[i]; x.row == 0 && x.sense.run >= 3 && list[x.kind] == nil {
			list[x.kind] = x
		}
	}
	aside := map[int]bool{}
	for i := range xs {
		y := &xs[i]
		if x := list[y.kind]; x != nil && y.row == 0 && y.sense.beside() && !r.same(y.kind, x.amt, y.amt) {
			aside[y.sense.sentence] = true
		}
	}
	in, out := split(xs, func(x *reading) bool { return x.row > 0 || !aside[x.sense.sentence] })
	for i := range out {
		r.leave(&out[i], leftAside)
	}
	return in
}

// beside reports whether a sentence tells of other things than tests, and of none
// done again.
func (s *sense) beside() bool { return s.others > 0 && s.run < 3 && !s.again && !s.fix }

// anew reports whether a sentence apart from the list of l tells of a test done
// again, so that its past tense makes it no older.
func (s *sense) anew(l *sense) bool {
	return s.again && s.others > 0 && s.run < 3 && l.run >= 3 && s.sentence != l.sentence
}
