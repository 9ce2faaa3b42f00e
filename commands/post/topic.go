package post

import "slices"

// topics puts the name of a test before the amount of a sentence that names none
// but speaks of the last one: "What nitrate is safe? ... I'm at 30."
func topics(ps []piece) []piece {
	var topic []piece // the tests of the last sentence that names any
	out := make([]piece, 0, len(ps))
	from := 0
	for k := 0; k <= len(ps); k++ {
		if k < len(ps) && ps[k].sort != sStop && ps[k].sort != sAsk && ps[k].sort != sLine && ps[k].sort != sSemi && !goesOn(ps, k) {
			continue
		}
		s := ps[from:k]
		at := pointsBack(s)
		if len(at) != len(topic) || len(at) > 0 && len(namesIn(s[:at[0]])) > 0 {
			at = nil
		}
		was := topic
		if names := namesIn(s); len(names) > 0 {
			topic = names
		}
		last := 0
		for i, j := range at {
			l := was[i]
			l.from, l.to = s[j].from, s[j].from
			out = append(append(out, s[last:j]...), l)
			last = j
		}
		out = append(out, s[last:]...)
		if k < len(ps) {
			out = append(out, ps[k])
			if ps[k].sort == sLine && k > 0 && ps[k-1].sort == sLine {
				topic = nil
			}
		}
		from = k + 1
	}
	return out
}

// goesOn reports whether the comma at k parts what was wished from what is: "I want nitrates under
// 20, they're at 80".
func goesOn(ps []piece, k int) bool {
	if ps[k].sort != sComma || k+1 == len(ps) || ps[k+1].word != "theyre" && ps[k+1].word != "its" && ps[k+1].word != "they are" && ps[k+1].word != "it is" {
		return false
	}
	for j := k - 1; j >= max(0, k-20) && ps[j].sort != sStop && ps[j].sort != sLine && ps[j].sort != sAsk; j-- {
		if ps[j].cue == cueWant {
			return true
		}
	}
	return false
}

// namesIn lists the tests that a sentence names, each once.
func namesIn(s []piece) (names []piece) {
	for k := range s {
		if s[k].sort == sLabel && !slices.ContainsFunc(names, func(q piece) bool { return q.kind == s[k].kind }) {
			names = append(names, s[k])
		}
	}
	return names
}

// pointsBack returns where the amounts of a sentence such as "I'm at 30", "Mine is
// 5", "Two days later it's 1", "Today they're 1 and 0.25" stand; nil if it does not
// speak so.
func pointsBack(s []piece) (at []int) {
	k, many := pronoun(s)
	if k < 0 {
		return nil
	}
	for j := k + 1; j < len(s); j++ {
		switch q := &s[j]; {
		case q.sort == sAmount:
			if a := q.amt; a.word != notWord && a.word != zeroWord || a.count || a.unit != noUnit && a.unit != ppm {
				return nil
			}
			at = append(at, j)
			if !many {
				return at
			}
		case q.sort == sFree && len(at) == 0 && j < k+5:
		case many && len(at) > 0 && (q.sort == sAnd || q.sort == sComma || q.sort == sSlash):
		default:
			return at
		}
	}
	return at
}

// pronoun finds the word of a sentence that stands for tests named before, and
// whether it stands for several; -1 if there is none.
func pronoun(s []piece) (k int, many bool) {
	start := true
	for k := range s {
		switch q := &s[k]; {
		case q.sort == sAmount || q.sort == sLabel:
			return -1, false
		case start && (q.word == "they" || q.word == "theyre" || q.word == "they are"):
			return k, true
		case start && (q.word == "im" || q.word == "mine" || q.word == "mines" || q.word == "ours" || q.cue == cueOwn):
			return k, false
		case k > 0 && q.word == "it" && k+1 < len(s) && moved[s[k-1].word] && s[k+1].cue == cueTo: // "Raised it to 4"
			return k, false
		case k > 0 && (q.word == "its" || q.word == "it is") && (s[k-1].sort == sMark || s[k-1].sort == sAnd || s[k-1].sort == sBut):
			return k, false
		default:
			start = start && (q.word == "so" || q.sort == sAnd || q.sort == sBut || q.sort == sMark || q.sort == sComma)
		}
	}
	return -1, false
}

// moved are verbs of a test brought to a new value.
var moved = wordSet(`raised, lowered, brought, dropped, reduced, increased, adjusted`)
