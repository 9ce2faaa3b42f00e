package post

import "strings"

// why an amount is no reading of this tank now.
const (
	leftTap    = "it seems to be other water than the tank's"
	leftPerson = "it seems to be about somebody else's tank"
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
	left   string // why it is no reading, "" if it may be one
	dose   string // the same if the amount turns out to be of ammonia or of nothing
	temp   string // the same for a temperature
	habit  string // the same for all but a temperature: "I keep it at 26C"
	doubt  string // why it is doubtful
	either bool   // it can be a dose or a reading of ammonia
	was    bool   // told in the past tense
	old    bool   // from a named time before now
	rank   float64
	mark   *mark // day, date, weekday or clock
	tank   *mark // one of several tanks
	paren  bool
}

// scene is what holds at a point of the text.
type scene struct {
	tap, person, want, dose, dosed, proc, set, habit bool
	seen                                             bool // a name or an amount since want, tap or person began
	ext                                              bool // want goes on past its clause
	own                                              bool // the tank was named just now
	doseAt, wantAt, openAt                           int  // pieces where they began
}

// wish begins a goal, a limit or a supposition at piece k.
func (s *scene) wish(k int) { s.want, s.seen, s.ext, s.wantAt = true, false, false, k }

// reset ends the scene at a sentence's end.
func (s *scene) reset() { *s = scene{} }

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
	var s scene
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
		case sOpen:
			s.openAt = k
		case sClose:
			if s.openAt > 0 && s.wantAt > s.openAt {
				s.want, s.ext = false, false
			}
			s.openAt = 0
		case sComma, sAnd, sArrow, sPipe:
			s.clause()
		case sMark:
			if q.mark.class == markNow && q.mark.key > 0 {
				s.proc, s.ext = false, false
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
				if h := headOf(ps, k); h.tap || h.want || h.person {
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
	h.tap, h.want = ps[k].cue == cueTap, ps[k].cue == cueWant
	return h
}

// plainDose reports whether nothing unknown stands between the dosing and the
// amount at k, or "to" right before it.
func (s *scene) plainDose(ps []piece, k int) bool {
	if ps[k-1].cue == cueTo {
		return true
	}
	for j := s.doseAt + 1; j < k; j++ {
		if ps[j].sort == sFiller && ps[j].cue == noCue {
			return false
		}
	}
	return true
}

// isHeading reports whether the line at k has no amount and ends in a colon, or
// begins with a word for the tank.
func isHeading(ps []piece, k int) bool {
	if ps[k].cue == cueOwn || ps[k].cue == cueTank || ps[k].cue == cueMe && k+1 < len(ps) && ps[k+1].cue == cueTank {
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

// direct reports whether only free words stand between pieces a and b.
func direct(ps []piece, a, b int) bool {
	for j := a + 1; j < b; j++ {
		if ps[j].sort != sFree && ps[j].sort != sMeasure {
			return false
		}
	}
	return true
}

// listen takes in the cue of the word at k.
func listen(ps []piece, k int, s *scene, out []sense, lineStart int) {
	q := &ps[k]
	switch q.cue {
	case noCue:
		if q.sort == sFiller && s.dose && !(k+1 < len(ps) && ps[k+1].sort == sLabel && ps[k+1].kind == Ammonia) {
			s.dose = false
		}
	case cueDose:
		s.dose, s.dosed, s.doseAt = true, true, k
	case cueIs, cueWas:
		switch q.word {
		case "at", "around", "has", "have", "had", "been", "being", "got", "hit", "reached", "measure", "stay":
			return
		}
		s.dose, s.dosed, s.proc, s.set = false, false, false, false
		if s.ext {
			s.want, s.ext = false, false
		}
	case cueWant:
		s.wish(k)
	case cueIf:
		if k == 0 || ps[k-1].cue != cueSure && !(k > 1 && ps[k-2].cue == cueSure) {
			s.wish(k)
		}
	case cueKeep:
		if j := k + 1; j < len(ps) {
			w := ps[j].word
			if ps[j].sort == sLabel || w == "it" || w == "them" || w == "the" || w == "my" || w == "your" || w == "at" || ps[j].sort == sAmount && (ps[j].amt.under || ps[j].amt.low != ps[j].amt.high) {
				if b := ps[max(k-1, 0)].word; b == "i" || b == "we" || b == "ive" {
					s.habit = true
				} else {
					s.wish(k)
				}
			}
		}
	case cueWhen:
		if whenever(ps, k) {
			s.wish(k)
		}
	case cueProc:
		s.proc = true
	case cuePerson:
		s.person, s.seen = true, false
	case cueTheir:
		for j := k + 1; j < len(ps) && j <= k+3; j++ {
			if ps[j].sort == sLabel || ps[j].cue == cueTank || ps[j].cue == cueTest && ps[j].word != "test" || ps[j].cue == cueOwn || ps[j].word == "levels" || ps[j].word == "water" || ps[j].word == "readings" {
				s.person, s.seen = true, false
			}
			if ps[j].sort != sFiller && ps[j].sort != sFree {
				break
			}
		}
	case cueTap:
		tapWater(ps, k, s, out, lineStart)
	case cueOwn, cueTank:
		if k > 0 && (ps[k-1].cue == cueTheir || ps[k-1].cue == cuePerson || ps[k-1].cue == cueTap) || k > 1 && (ps[k-2].cue == cuePerson || ps[k-2].cue == cueTheir) {
			return
		}
		s.tap, s.person, s.own = false, false, true
	case cueMe:
		s.person = false
		if s.ext {
			s.want, s.ext = false, false
		}
	case cueSet:
		s.set = true
	}
}

// tapWater tells "my tap water has 0.5" and "0.5 in my tap" from "filled with
// tap water".
func tapWater(ps []piece, k int, s *scene, out []sense, lineStart int) {
	b := k - 1
	for b >= 0 && (ps[b].word == "my" || ps[b].word == "the" || ps[b].word == "our" || ps[b].word == "a" || ps[b].word == "some") {
		b--
	}
	before := ""
	if b >= 0 && ps[b].sort != sLine {
		before, _, _ = strings.Cut(ps[b].word, " ")
	}
	within := strings.HasPrefix(ps[k].word, "out of") || strings.HasPrefix(ps[k].word, "from") || strings.HasPrefix(ps[k].word, "straight")
	if within {
		b = k
	}
	if within || before == "in" || before == "from" || before == "of" || before == "for" || before == "out" {
		for j := b - 1; j >= lineStart && j > b-12; j-- {
			switch ps[j].sort {
			case sAmount:
				if out[j].left == "" {
					out[j].left = leftTap
				}
			case sLabel:
				s.tap, s.seen = true, true
			case sComma, sStop, sAsk, sSemi, sBut:
				return
			}
		}
		return
	}
	if b >= 0 && ps[b].cue == cueTest {
		s.tap, s.seen = true, true
		return
	}
	if k+1 >= len(ps) || before == "with" || before == "using" || before == "to" || before == "use" || before == "used" {
		return
	}
	n := &ps[k+1]
	if n.sort == sLabel || n.sort == sAmount || n.sort == sLink || n.sort == sDash || n.cue == cueIs || n.cue == cueWas || n.cue == cueTest || n.word == "contains" || n.word == "already" || n.sort == sOpen {
		s.tap, s.seen = true, false
	}
}

// whenever reports whether "when", "once" begins a supposition: a test and a
// verb of the present follow.
func whenever(ps []piece, k int) bool {
	named := false
	for j := k + 1; j < len(ps) && j < k+8; j++ {
		q := &ps[j]
		switch {
		case q.sort == sLabel || q.word == "it" || q.word == "they" || q.word == "its" || q.word == "both":
			named = true
			if q.word == "its" {
				return true
			}
		case q.sort == sAnd || q.sort == sSlash:
		case named && q.sort == sAmount:
			return ps[k].word != "when"
		case named:
			switch q.word {
			case "is", "are", "hits", "hit", "reaches", "reach", "gets", "get", "drops", "drop", "goes", "go", "reads", "read", "falls", "fall", "rises", "starts", "start", "has", "have", "shows", "down", "below", "at", "to":
				return true
			case "finally", "both", "actually", "stay", "stays":
			default:
				return false
			}
		case q.sort != sFree && q.cue != cueTheir:
			return false
		}
	}
	return false
}

// judge sets what the scene says about the amount at k.
func judge(ps []piece, k int, s, heading *scene, out *sense) {
	switch {
	case out.left != "":
	case s.tap || heading.tap:
		out.left = leftTap
	case s.person:
		out.left = leftPerson
	case s.want || heading.want:
		out.left = leftWant
	case s.proc && !(k > 0 && ps[k-1].cue == cueTo):
		out.left = leftProc
	}
	if out.left == "" && k > 0 && ps[k-1].word == "by" {
		for j := k - 2; j >= max(0, k-5); j-- {
			if ps[j].cue == cueChange {
				out.left = leftDelta
			}
		}
	}
	if s.dose || s.dosed && k > 0 && ps[k-1].cue == cueTo { // "dosed the usual stuff to 2 ppm"
		out.dose = leftDose
		if !s.plainDose(ps, k) {
			out.dose, out.either = "", true
		}
		if s.dose && direct(ps, s.doseAt, k) && !(k > 0 && ps[k-1].sort == sLabel && ps[k-1].kind != Ammonia) {
			out.left = leftDose
		}
	}
	if s.set {
		out.temp = leftSet
	}
	if s.habit {
		out.habit = leftWant
	}
	passive(ps, k, out)
	if a := ps[k].amt; k > 0 && ps[k-1].cue == cueChange && !strings.HasSuffix(ps[k-1].word, "to") && a.change == 0 && a.word == notWord && a.low > 0 && a.low == a.high && !a.over && !(k+1 < len(ps) && ps[k+1].cue == cueTo) {
		out.doubt = "it can be the change or the value after it; write just what the test shows now"
	}
	if negated(ps, k) {
		out.doubt = "a \"not\" stands before it; write just what the test shows"
	}
}

// negated reports whether a "not" right before the amount at k denies it: "not
// 0 yet", or anywhere in the clause before a bound: "won't go below 0.25".
func negated(ps []piece, k int) bool {
	bounded := ps[k].amt != nil && (ps[k].amt.under || ps[k].amt.over)
	for j := k - 1; j >= max(0, k-8); j-- {
		q := &ps[j]
		switch {
		case q.sort == sComma || q.sort == sStop || q.sort == sAnd || q.sort == sLine || q.sort == sSemi || q.sort == sBut || q.sort == sAmount:
			return false
		case q.cue == cueNot && bounded:
			return true
		case q.cue == cueNot:
			w := q.word
			return w == "not" || w == "isnt" || w == "arent" || w == "never" || w == "aint" || w == "cant be"
		case bounded:
		case q.word == "quite" || q.word == "yet" || q.word == "at" || q.word == "even" || q.word == "exactly" || q.word == "really" || q.word == "fully":
		default:
			return false
		}
	}
	return false
}

// passive finds "2 ppm ammonia was added", "2 ppm is processed", "2 ppm gone".
func passive(ps []piece, k int, out *sense) {
	named := k > 0 && (ps[k-1].sort == sLabel || k > 1 && ps[k-2].sort == sLabel && (ps[k-1].sort == sLink || ps[k-1].sort == sFree || ps[k-1].sort == sDash))
	was := false
	for j := k + 1; j < len(ps) && j < k+6; j++ {
		q := &ps[j]
		switch {
		case q.sort == sAmount:
			if q.amt.word == goneWord && !named && ps[k].amt.low > 0 {
				out.left = leftProc
			}
			return
		case q.cue == cueDose && (q.word == "added" || q.word == "dosed" || q.word == "dose" || q.word == "dosing" || q.word == "doses"), q.cue == cueProc:
			end := j+1 >= len(ps) || ps[j+1].sort != sFiller && ps[j+1].sort != sFree && ps[j+1].sort != sMeasure || ps[j+1].cue == cueEvery || ps[j+1].cue == cueSince || ps[j+1].word == "in"
			if was || !named && end {
				out.dose = leftDose
				if q.cue == cueProc {
					out.left = leftProc
				}
			}
			return
		case q.word == "was" || q.word == "were" || q.word == "been" || q.word == "being" || q.word == "gets" || q.word == "is":
			was = true
		case q.sort == sLabel && (named || q.kind != Ammonia):
			return
		case q.sort == sLabel || q.sort == sFree && q.cue != cueMe:
		default:
			return
		}
	}
}
