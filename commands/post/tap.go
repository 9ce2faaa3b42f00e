package post

import "strings"

// tapWater tells "my tap water has 0.5" and "0.5 in my tap" from "filled with
// tap water".
func tapWater(ps []piece, k int, s *scene, out []sense, lineStart int) {
	if ps[k].word == "pond" && !(k+1 < len(ps) && ps[k+1].sort == sLink) { // a pond can be what is asked about
		return
	}
	if k > 0 && ps[k-1].sort == sAmount && out[k-1].left == "" && ends(ps, k+1) { // "0.5 tank, 0 tap"
		out[k-1].left = leftTap
		return
	}
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
	if (within || before == "from" || before == "in") && b >= 0 && first(ps, b, lineStart) && k+1 < len(ps) && ps[k+1].sort != sComma { // "Out of the tap nitrate is 25"
		s.tap, s.seen = true, false
		return
	}
	if within || before == "in" || before == "from" || before == "of" || before == "for" || before == "out" || before == "at" {
		amounts := false
	back:
		for j := b - 1; j >= lineStart && j > b-12; j-- {
			if amounts && ps[j].cue == cueOwn { // "0.5 in the tank and 1 at the tap"
				return
			}
			switch ps[j].sort {
			case sAmount:
				amounts = true
				if out[j].left == "" {
					out[j].left = leftTap
				}
			case sLabel:
				if !amounts { // "ammonia in my tap is 0.5"
					s.tap, s.seen = true, true
				}
			case sComma, sStop, sAsk, sSemi, sBut:
				break back
			}
		}
		if !amounts && k+1 < len(ps) && ps[k+1].word == "with" { // "I mix in rain water with a KH of 0"
			s.tap, s.seen = true, true
		}
		return
	}
	if b >= 0 && ps[b].cue == cueTest {
		s.tap, s.seen = true, true
		return
	}
	if k+1 < len(ps) && ps[k+1].sort == sOpen { // "with tap (KH 12)"
		s.tap, s.seen = true, false
		return
	}
	if k+2 < len(ps) && (ps[k+1].word == "at" || ps[k+1].word == "of") && ps[k+2].sort == sLabel { // "I refill with RO at pH 6"
		s.tap, s.seen = true, true
		return
	}
	if k+1 >= len(ps) || before == "with" || before == "using" || before == "to" || before == "use" || before == "used" {
		return
	}
	n := &ps[k+1]
	if subject(ps, k, lineStart) {
		s.tap, s.seen = true, true
		return
	}
	if n.sort == sLabel || n.sort == sAmount || n.sort == sLink || n.sort == sDash || n.cue == cueIs || n.word == "is at" || n.cue == cueWas || n.cue == cueTest || n.word == "contains" || n.word == "already" || n.sort == sOpen {
		s.tap, s.seen = true, false
	}
}

// first reports whether nothing but free words stands before piece k in its
// sentence.
func first(ps []piece, k, lineStart int) bool {
	for j := k - 1; j >= lineStart; j-- {
		switch ps[j].sort {
		case sFree:
		case sStop, sAsk, sSemi, sLine:
			return true
		default:
			if w := ps[j].word; w != "straight" && w != "fresh" && w != "directly" {
				return false
			}
		}
	}
	return true
}

// subject reports whether the water or tank at k is what its sentence is about:
// it begins it, and no sign follows: "The new water I put in has a pH of 7.9".
func subject(ps []piece, k, lineStart int) bool {
	if n := ps[k+1]; n.sort != sFree && n.sort != sFiller || n.word == "in" || n.word == "on" || n.word == "for" {
		return false
	}
	for j := k - 1; j >= lineStart; j-- {
		switch q := &ps[j]; {
		case q.sort == sStop || q.sort == sAsk || q.sort == sSemi || q.sort == sBut || q.sort == sLine:
			return true
		case q.word != "my" && q.word != "the" && q.word != "our" && q.word != "and":
			return false
		}
	}
	return true
}

// ends reports whether a clause ends at piece k.
func ends(ps []piece, k int) bool {
	if k >= len(ps) {
		return true
	}
	switch ps[k].sort {
	case sComma, sStop, sAsk, sSemi, sLine, sClose:
		return true
	}
	return false
}
