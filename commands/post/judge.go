package post

import "strings"

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
		if k > 2 && ps[k-1].cue == cueTo && ps[k-2].sort == sLabel && ps[k-3].cue == cueDose { // "dosed nitrate to 20"
			out.left = leftDose
		}
		if s.dose && direct(ps, s.doseAt, k) && !(k > 0 && ps[k-1].sort == sLabel && ps[k-1].kind != Ammonia) {
			out.left = leftDose
		}
	}
	if heading.dose && out.left == "" {
		out.dose = leftDose
	}
	if s.set || dialled(ps, k) {
		out.temp = leftSet
	}
	if u := ps[k].amt.unit; (u == celsius || u == fahrenheit) && k > 0 && ps[k-1].word == "with" && k+1 < len(ps) && ps[k+1].word == "water" {
		out.temp = leftTap // "refilled with 24 C water"
	}
	if s.habit {
		out.habit = leftWant
	}
	if k > 2 && ps[k-1].word == "of" && ps[k-2].sort == sLabel && ps[k-3].word == "my" && out.left == leftWant {
		out.left = "" // "if I change half, will my nitrite of 2 go to 1?"
	}
	passive(ps, k, out)
	if out.left == "" && step(ps, k) {
		out.left = leftWant
	}
	if out.left == "" && truth(ps, k) {
		out.left = leftWant
	}
	if out.left == "" && advised(ps, k) {
		out.left = leftPerson
	}
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

// advised reports whether the sentence of the amount at k goes on to advise its
// reader: "with ammonia at 4 you should change half".
func advised(ps []piece, k int) bool {
	for j := k - 1; j >= 0 && ps[j].sort != sStop && ps[j].sort != sLine && ps[j].sort != sAsk; j-- {
		if ps[j].cue == cueMe || ps[j].cue == cueOwn {
			return false
		}
	}
	for j := k + 1; j+1 < len(ps) && ps[j].sort != sStop && ps[j].sort != sLine && ps[j].sort != sAsk; j++ {
		if ps[j].cue == cueMe {
			return false
		}
		if ps[j].word == "you" {
			switch ps[j+1].word {
			case "should", "must", "need", "ought", "want", "have", "could":
				return true
			}
		}
	}
	return false
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

// direct reports whether only free words stand between pieces a and b.
func direct(ps []piece, a, b int) bool {
	for j := a + 1; j < b; j++ {
		if ps[j].sort != sFree && ps[j].sort != sMeasure {
			return false
		}
	}
	return true
}
