package post

import (
	"slices"
	"strings"
)

// why an amount is no reading of this tank now.
const (
	leftTap    = "it seems to be other water than the tank's"
	leftPerson = "it seems to be about somebody else's tank"
	leftOther  = "it is of another tank than the new one"
	leftWant   = "it reads as a goal, a limit or a supposition, not as a reading"
	leftDose   = "it reads as a dose, not as a reading"
	leftProc   = "it reads as what the tank clears, not as a reading"
	leftDelta  = "it reads as a change by so much, not as a reading"
	leftSet    = "it reads as a setting or another place's temperature"
	leftDrops  = "it counts drops, which mean something else in every kit"
	leftOld    = "it is older than the newest readings in the post"
)

// sense is what the words around an amount say about it.
type sense struct {
	left     string // why it is no reading, "" if it may be one
	dose     string // the same if the amount turns out to be of ammonia or of nothing
	temp     string // the same for a temperature
	habit    string // the same for all but a temperature: "I keep it at 26C"
	doubt    string // why it is doubtful
	either   bool   // it can be a dose or a reading of ammonia
	was      bool   // told in the past tense
	old      bool   // from a named time before now
	rank     float64
	mark     *mark // day, date, weekday or clock
	tank     *mark // one of several tanks
	paren    bool
	fix      bool    // puts an earlier amount right
	denies   *amount // the one that it puts right, if the post says which
	others   int     // words of its sentence that mean nothing here
	run      int     // tests named in the run of plain sentences around it
	sentence int     // where it begins
	again    bool    // its sentence tells of a test done again
}

// scene is what holds at a point of the text.
type scene struct {
	tap, person, want, dose, dosed, proc, set, habit bool
	seen                                             bool    // a name or an amount since want, tap or person began
	ext                                              bool    // want goes on past its clause
	own                                              bool    // the tank was named just now
	beside                                           bool    // the post tells of a new tank somewhere
	doseAt, wantAt, openAt                           int     // pieces where they began
	cond                                             bool    // the wish is an "if", which goes on past "and"
	outer                                            [2]bool // tap and person before the bracket
}

// wish begins a goal, a limit or a supposition at piece k.
func (s *scene) wish(k int) { s.want, s.seen, s.ext, s.cond, s.wantAt = true, false, false, false, k }

// reset ends the scene at a sentence's end.
func (s *scene) reset() { *s = scene{beside: s.beside} }

// clause ends what holds for a clause only.
func (s *scene) clause() {
	s.dose, s.dosed, s.proc, s.set, s.habit = false, false, false, false, false
	if !s.seen {
		s.want, s.tap, s.person = false, false, false
	}
	s.ext = s.want
}

// look fills in the senses of the amounts in pieces from the cues around them.
func look(ps []piece) []sense {
	out := make([]sense, len(ps))
	s := scene{beside: slices.ContainsFunc(ps, func(q piece) bool { return newTank[q.word] })}
	heading := scene{}
	lineStart, headAt := 0, 0
	for k := range ps {
		q := &ps[k]
		switch q.sort {
		case sLine:
			s.reset()
			if k > 0 && ps[k-1].sort == sLine || k+1 < len(ps) && isHeading(ps, k+1) || hasAmount(ps[headAt:k]) && headAt == lineStart {
				heading.reset()
			}
			lineStart = k + 1
		case sStop, sAsk, sSemi:
			s.reset()
		case sBut:
			s.reset()
		case sLink:
			if k > 1 && (ps[k-2].sort == sStop || ps[k-2].sort == sSemi) && ps[k-1].cue != noCue { // "Want: pH 6.5. Have: pH 7.5"
				heading = headOf(ps, k-1)
			}
		case sOpen:
			s.openAt, s.outer = k, [2]bool{s.tap, s.person}
		case sClose:
			if s.openAt > 0 { // "pH 7.6 (tap 7.8), nitrate 20"
				s.tap, s.person = s.outer[0], s.outer[1]
			}
			if s.openAt > 0 && s.wantAt > s.openAt {
				s.want, s.ext = false, false
			}
			s.openAt = 0
		case sComma, sAnd, sArrow, sPipe:
			s.clause()
			if q.sort == sAnd && s.cond {
				s.ext = false
			}
		case sMark:
			if q.mark.class == markNow && q.mark.key > 0 {
				s.proc, s.ext = false, false
				if k > 0 && ps[k-1].sort == sStop { // "Plan: dose to 2. Right now 1."
					heading.want = false
				}
				if s.seen {
					s.want = false
				}
			}
		case sLabel:
			if s.dose && q.kind != Ammonia && !direct(ps, s.doseAt, k) {
				s.dose = false
			}
			s.seen = true
		case sAmount:
			judge(ps, k, &s, &heading, &out[k])
			s.seen = true
			if q.amt.change >= 0 {
				s.dose, s.dosed = false, false
			}
		case sMeasure:
			if counts := unitWords[q.word]; counts == counted {
				s.dose = false
			}
		case sFiller, sFree:
			if listen(ps, k, &s, out, lineStart); s.own {
				s.own, heading.tap, heading.person = false, false, false
			}
			if k == lineStart || k == lineStart+1 && ps[lineStart].sort != sFiller {
				if h := headOf(ps, k); h.tap || h.want || h.person || h.dose {
					heading, headAt = h, lineStart
				}
			}
		}
	}
	ask(ps, out)
	return out
}

// headOf tells whether the word at k heads its line: "Tap: ...", "Goal - ...".
func headOf(ps []piece, k int) (h scene) {
	j := k + 1
	for j < len(ps) && (ps[j].sort == sFree || ps[j].sort == sFiller) && j < k+4 {
		j++
	}
	if j < len(ps) && ps[j].sort != sLink && ps[j].sort != sDash && ps[j].sort != sLine && ps[j].sort != sPipe {
		return h
	}
	if j < len(ps) && ps[j].sort == sDash && j > k+1 {
		return h
	}
	h.dose = doseLog(ps, k)
	h.tap, h.want = ps[k].cue == cueTap, ps[k].cue == cueWant && !strings.HasPrefix(ps[k].word, "how ") // "How long: 4 weeks"
	return h
}

// doseLog reports whether the line at k is "dosing log" or the like and nothing else, so that the
// lines below are doses.
func doseLog(ps []piece, k int) bool {
	if ps[k].cue != cueDose || k > 0 && ps[k-1].sort != sLine {
		return false
	}
	for j := k + 1; j < len(ps); j++ {
		switch w := ps[j].word; {
		case ps[j].sort == sLine:
			return j > k+1 || ps[k].word == "doses"
		case w != "log" && w != "diary" && w != "record" && w != "schedule" && w != "history" && ps[j].sort != sLink:
			return false
		}
	}
	return false
}

// isHeading reports whether the line at k has no amount and ends in a colon, or
// begins with a word for the tank.
func isHeading(ps []piece, k int) bool {
	if ps[k].sort == sMark && ps[k].mark.class == markVessel || ps[k].cue == cueOwn || ps[k].cue == cueTank || ps[k].cue == cueMe && k+1 < len(ps) && ps[k+1].cue == cueTank {
		return true
	}
	for j := k; j < len(ps) && j < k+12; j++ {
		switch ps[j].sort {
		case sAmount, sLabel:
			return false
		case sLine:
			return j > k && ps[j-1].sort == sLink
		}
	}
	return false
}
