package post

import "cmp"

// clause is a stretch of pieces between signs, with its points in time.
type clauseSpan struct {
	from, to int
	end      sort // the piece that ends it
	begin    sort // the piece that begins it
}

// clausesOf cuts pieces into clauses.
func clausesOf(ps []piece) []clauseSpan {
	var out []clauseSpan
	from, begin := 0, sLine
	for k := 0; k <= len(ps); k++ {
		end := sLine
		if k < len(ps) {
			end = ps[k].sort
			switch end {
			case sComma, sStop, sAsk, sSemi, sLine, sBut, sAnd, sOpen, sClose, sPipe:
			default:
				continue
			}
		}
		out = append(out, clauseSpan{from, k, end, begin})
		from, begin = k+1, end
	}
	return out
}

// date gives the amounts their points in time. A mark at the head of a line
// holds for the line, alone on its line for the lines below; else a mark holds
// for its clause and for the clauses listed after or before it.
func date(ps []piece, senses []sense) {
	cl := clausesOf(ps)
	var head, line, carry *mark // heading, this line's, this sentence's
	var tank *mark
	for c := range cl {
		s := &cl[c]
		if s.begin == sLine {
			line, carry = nil, nil
			head, line, tank = lineMarks(ps, s.from, head, tank)
		}
		if s.begin == sStop || s.begin == sAsk || s.begin == sSemi || s.begin == sBut {
			carry = nil
		}
		marks, amounts, pure, state := survey(ps[s.from:s.to])
		for _, m := range marks {
			if m.class == markVessel {
				tank = m
			}
		}
		if inline := colonMark(ps, s); inline != nil {
			line, carry = inline, nil
		}
		if len(marks) == 0 && state && carry != nil && !today([]*mark{carry}) {
			carry = nil
		}
		own := assign(ps, senses, s, marks)
		if !own && amounts > 0 {
			m := carry
			if m == nil || s.begin == sOpen {
				m = line
			}
			if s.begin == sOpen && s.from >= 2 && ps[s.from-2].sort == sLabel { // "on day 14 I saw nitrite (0.25)"
				m = cmp.Or(lastMark(ps[cl[c-1].from:cl[c-1].to]), m)
			}
			if s.begin == sOpen && s.from >= 2 && ps[s.from-2].sort == sMark { // "Day 30 (ammonia 0, nitrite 0)"
				m, carry = ps[s.from-2].mark, ps[s.from-2].mark
			}
			if before := cl[max(c-1, 0)]; m == nil && s.begin == sOpen && ofAll(ps[before.from:before.to]) { // "On Sunday everything was awful (ammonia 4, nitrite 5)"
				m = lastMark(ps[before.from:before.to])
				carry = m
			}
			if m == nil && s.begin != sOpen {
				m = head
			}
			for k := s.from; k < s.to; k++ {
				if ps[k].sort == sAmount && !(m != nil && m == carry && m.class == markOld && ps[k].amt.change > 0) {
					senses[k].set(m)
				}
			}
		}
		if s.begin == sOpen && s.end == sClose && amounts == 0 && len(marks) > 0 && !doses(ps[s.from:s.to]) && s.from >= 2 && ps[s.from-2].sort == sAmount {
			senses[s.from-2].set(marks[0]) // "2 (3 days ago)"
		}
		if len(marks) > 0 && amounts == 0 && pure && sentence(s) && marks[0].class != markVessel && !named(ps[s.from:s.to]) && !(state && marks[0].class == markDay) {
			line = marks[0] // "Day 5 update!", "Tested yesterday.", but not "It's day 5 now."
		}
		if len(marks) > 0 && (amounts > 0 || pure || tests(ps[s.from:s.to]) || s.begin != sComma && s.begin != sAnd && today(marks)) && s.begin != sOpen {
			if carry = marks[len(marks)-1]; fromBefore(ps, *s) {
				carry = nil // "up from 0 two days ago, nitrate 10"
			}
			if amounts > 0 && !state && trailing(ps[s.from:s.to]) {
				back(ps, senses, cl, c, marks[len(marks)-1])
			}
		}
		for k := s.from; k < s.to; k++ {
			senses[k].tank = tank
			senses[k].paren = s.begin == sOpen
		}
	}
	past(ps, senses)
}

// ofAll reports whether a clause speaks of all tests and gives none.
func ofAll(ps []piece) bool {
	every := false
	for k := range ps {
		every = every || everyWord[ps[k].word]
		if ps[k].sort == sAmount || ps[k].sort == sLabel {
			return false
		}
	}
	return every
}

// set gives an amount its point in time.
func (s *sense) set(m *mark) {
	if m == nil {
		return
	}
	switch m.class {
	case markNow:
		s.rank = m.key
	case markOld:
		s.old, s.rank = true, -m.key
	case markVessel:
	default:
		s.mark = m
	}
}

// survey lists a clause's marks, counts its amounts, and tells whether it holds
// nothing else but words of testing (pure) and whether it states the present.
func survey(ps []piece) (marks []*mark, amounts int, pure, state bool) {
	pure = true
	for k := range ps {
		q := &ps[k]
		switch q.sort {
		case sMark:
			marks = append(marks, q.mark)
		case sAmount:
			amounts++
		case sFiller:
			if q.cue != cueTest && q.word != "did" && q.word != "ran" {
				pure = false
			}
		case sMeasure: // "changed 50% of the water yesterday"
			pure = false
		}
		if q.word == "is" || q.word == "are" || q.word == "its" || q.word == "im" || q.word == "theyre" {
			state = true
		}
	}
	return marks, amounts, pure, state
}

// assign gives the clause's amounts its own marks. With several, each amount
// takes the one before it, or after it when the clause begins with an amount.
func assign(ps []piece, senses []sense, s *clauseSpan, marks []*mark) bool {
	n := 0
	for _, m := range marks {
		if m.class != markVessel {
			n++
		}
	}
	if n == 0 {
		return false
	}
	first := -1 // the piece that comes first, a mark or an amount
	for k := s.from; k < s.to && first < 0; k++ {
		if ps[k].sort == sAmount || ps[k].sort == sMark && ps[k].mark.class != markVessel {
			first = k
		}
	}
	forward := ps[first].sort == sMark
	var cur *mark
	if forward {
		for k := s.from; k < s.to; k++ {
			if ps[k].sort == sMark && ps[k].mark.class != markVessel {
				cur = ps[k].mark
			} else if ps[k].sort == sAmount {
				senses[k].set(cur)
			}
		}
		return true
	}
	for k := s.to - 1; k >= s.from; k-- {
		if c := ps[k].cue; c == cueAfter || c == cueDose || c == cueEvent {
			cur = nil // "0.25 after adding fish 3 days ago"
		}
		switch ps[k].word {
		case "vs", "versus", "than", "compared", "from", "instead":
			cur = nil // "0.5 vs 2 last week"
		}
		if ps[k].sort == sMark && ps[k].mark.class != markVessel {
			cur = ps[k].mark
		} else if ps[k].sort == sAmount {
			senses[k].set(cur)
		}
	}
	return true
}

// back gives the mark at a list's end to the clauses of the list before it:
// "ammonia 2, nitrite 0 yesterday".
func back(ps []piece, senses []sense, cl []clauseSpan, c int, m *mark) {
	if m.class == markVessel || fromBefore(ps, cl[c]) || doses(ps[cl[c].from:cl[c].to]) {
		return
	}
	begin := cl[c].begin
	for d := c - 1; d >= 0 && (begin == sComma || begin == sAnd); d-- {
		marks, _, _, state := survey(ps[cl[d].from:cl[d].to])
		if len(marks) > 0 || state || was(ps[cl[c].from:cl[c].to]) && !was(ps[cl[d].from:cl[d].to]) {
			return
		}
		for k := cl[d].from; k < cl[d].to; k++ {
			if ps[k].sort == sAmount && senses[k].mark == nil && !senses[k].old {
				senses[k].set(m)
			}
		}
		begin = cl[d].begin
	}
}
