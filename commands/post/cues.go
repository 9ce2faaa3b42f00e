package post

import "strings"

// listen takes in the cue of the word at k.
func listen(ps []piece, k int, s *scene, out []sense, lineStart int) {
	q := &ps[k]
	if because[q.word] {
		s.want, s.ext = false, false
	}
	switch q.cue {
	case noCue:
		if general(ps, k) {
			s.wish(k)
		}
		if (q.word == "established" || q.word == "mature") && k+1 < len(ps) && ps[k+1].sort == sMeasure && s.beside {
			s.tap, s.seen = true, true // "an established 180 litre", beside a new one
		}
		if q.sort == sFiller && s.dose && !(k+1 < len(ps) && ps[k+1].sort == sLabel && ps[k+1].kind == Ammonia) {
			s.dose = false
		}
	case cueDose:
		if q.word == "dose" && k > 0 && ps[k-1].sort == sMeasure { // "a day after a 2 ppm dose"
			return
		}
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
	case cueNot, cueChange: // "waiting for nitrite, ammonia hasn't moved off 3"
		if s.ext && (strings.HasPrefix(q.word, "has") || strings.HasPrefix(q.word, "have") || strings.HasSuffix(q.word, "ed") || q.word == "went" || q.word == "fell" || q.word == "rose") {
			s.want, s.ext = false, false
		}
	case cueAsk:
		if q.word == "should" && should(ps, k) {
			s.wish(k)
		}
	case cueWant:
		s.wish(k)
	case cueIf:
		if k == 0 || ps[k-1].cue != cueSure && !(k > 1 && ps[k-2].cue == cueSure) {
			s.wish(k)
			s.cond = true
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

// because are words that begin a fact: "gonna change 40% because nitrite is at 5".
var because = wordSet(`because, cause, cos, coz, cuz, bc`)

// should reports whether the "should" at k tells of a goal, "ammonia and nitrite
// should both read 0", and not of what the writer may do, "should I change 50%".
func should(ps []piece, k int) bool {
	for j := k + 1; j < len(ps) && j < k+5; j++ {
		switch q := &ps[j]; {
		case q.cue == cueIs || q.word == "be" || q.word == "stay" || q.word == "never":
			return q.word != "got"
		case q.sort == sLabel || q.sort == sAnd: // "should nitrate be at 40"
		case q.cue == cueMe || q.sort != sFree && q.sort != sFiller:
			return false
		}
	}
	return false
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
