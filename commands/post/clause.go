package post

import "slices"

// today reports whether a clause tells of nothing but today: "Today I came home
// and tested everything: ...".
func today(marks []*mark) bool {
	return !slices.ContainsFunc(marks, func(m *mark) bool { return m.class != markNow || m.key < 0.35 })
}

// tests reports whether a clause tells of a test, "they tested it last month".
func tests(ps []piece) bool {
	for k := range ps {
		switch ps[k].word {
		case "tested", "measured", "checked", "retested":
			return true
		}
	}
	return false
}

// doses reports whether a clause speaks of something done to the tank.
func doses(ps []piece) bool {
	for k := range ps {
		if ps[k].cue == cueDose || ps[k].cue == cueEvent {
			return true
		}
	}
	return false
}

// sentence reports whether the clause is a sentence of its own.
func sentence(s *clauseSpan) bool {
	return (s.begin == sLine || s.begin == sStop || s.begin == sAsk) && (s.end == sStop || s.end == sLine)
}

func named(ps []piece) bool {
	for k := range ps {
		if ps[k].sort == sLabel {
			return true
		}
	}
	return false
}

// trailing reports whether a mark comes after the last amount.
func trailing(ps []piece) bool {
	for k := len(ps) - 1; k >= 0; k-- {
		switch ps[k].sort {
		case sMark:
			return true
		case sAmount:
			return false
		}
	}
	return false
}

func was(ps []piece) bool {
	for k := range ps {
		if ps[k].cue == cueWas {
			return true
		}
	}
	return false
}

// fromBefore reports whether the clause compares: "up from 1 yesterday".
func fromBefore(ps []piece, s clauseSpan) bool {
	for k := s.from; k < s.to; k++ {
		if ps[k].cue == cueFrom || ps[k].word == "vs" || ps[k].word == "versus" || ps[k].word == "compared" {
			return true
		}
	}
	return false
}

// lastMark returns the last point in time of a clause, nil if it has none.
func lastMark(ps []piece) (m *mark) {
	for k := range ps {
		if ps[k].sort == sMark && ps[k].mark.class != markVessel {
			m = ps[k].mark
		}
	}
	return m
}
