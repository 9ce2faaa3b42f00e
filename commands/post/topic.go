package post

// topics puts the name of a test before the amount of a sentence that names none
// but speaks of the last one: "What nitrate is safe? ... I'm at 30."
func topics(ps []piece) []piece {
	var topic *piece // the only test of the last sentence that names one
	out := make([]piece, 0, len(ps))
	from := 0
	for k := 0; k <= len(ps); k++ {
		if k < len(ps) && ps[k].sort != sStop && ps[k].sort != sAsk && ps[k].sort != sLine {
			continue
		}
		s := ps[from:k]
		at := pointsBack(s)
		name := onlyTest(s)
		switch {
		case at >= 0 && topic != nil && topic.kind != other:
			l := *topic
			l.from, l.to = s[at].from, s[at].from
			out = append(append(append(out, s[:at]...), l), s[at:]...)
		case name != nil:
			topic = name
			fallthrough
		default:
			out = append(out, s...)
		}
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

// onlyTest returns a name of the sentence if it names one test, a name of kind
// other if it names several, nil if it names none.
func onlyTest(s []piece) (name *piece) {
	for k := range s {
		switch {
		case s[k].sort != sLabel:
		case name == nil:
			l := s[k]
			name = &l
		case name.kind != s[k].kind:
			return &piece{sort: sLabel, kind: other}
		}
	}
	return name
}

// pointsBack returns where the amount of a sentence such as "I'm at 30", "Mine is
// 5" stands, -1 if it does not speak so.
func pointsBack(s []piece) int {
	for k := 0; k < len(s); k++ {
		switch q := &s[k]; {
		case q.word == "so" || q.word == "and" || q.word == "but" || q.word == "well" || q.sort == sMark:
			continue
		case q.word == "im" || q.word == "were at" || q.word == "mine" || q.word == "mines" || q.word == "ours" || q.cue == cueOwn && k == 0:
			for j := k + 1; j < len(s) && j < k+5; j++ {
				switch {
				case s[j].sort == sAmount:
					a := s[j].amt
					if a.word == notWord && !a.count && (a.unit == noUnit || a.unit == ppm) {
						return j
					}
					return -1
				case s[j].sort != sFree:
					return -1
				}
			}
			return -1
		default:
			return -1
		}
	}
	return -1
}
