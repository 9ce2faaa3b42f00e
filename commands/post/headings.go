package post

// lineMarks reads the marks of the line at piece k: the one that begins it holds
// for the line; one whose sentence ends the line without amounts is a heading,
// which holds for the lines below.
func lineMarks(ps []piece, k int, head, tank *mark) (h, line, t *mark) {
	end := k
	for end < len(ps) && ps[end].sort != sLine {
		end++
	}
	last := k // where the last sentence begins
	for j := k; j+1 < end; j++ {
		if ps[j].sort == sStop || ps[j].sort == sAsk {
			last = j + 1
		}
	}
	if q := begins(ps[k:end]); q != nil && q.mark.class == markVessel {
		tank = q.mark
	} else if q != nil && headed(ps, k) {
		line = q.mark
	}
	marks, amounts, _, _ := survey(ps[last:end])
	words, tests := 0, true
	for _, q := range ps[last:end] {
		switch q.sort {
		case sLabel:
			return head, line, tank
		case sFiller:
			tests = tests && q.cue == cueTest
			words++
		case sArrow: // "yesterday -> today" heads columns
			return head, line, tank
		case sMeasure: // "Changed 50% of the water yesterday."
			tests, words = false, words+3
		case sFree, sMark:
			words++
		}
	}
	for _, m := range marks {
		short := words <= 4 && m.class != markOld // "Day 5 of cycling", not "set up 2 weeks ago"
		if m.class != markVessel && amounts == 0 && (short || tests || end > last && ps[end-1].sort == sLink) {
			return m, nil, tank
		}
	}
	return head, line, tank
}

// begins returns the mark that a line begins with, bullets aside; nil if none.
func begins(line []piece) *piece {
	for k := range line {
		switch line[k].sort {
		case sMark:
			return &line[k]
		case sDash, sSemi, sOpen, sPipe:
		default:
			return nil
		}
	}
	return nil
}

// headed reports whether the mark that begins the line at k is followed by a
// sign, a name or an amount.
func headed(ps []piece, k int) bool {
	for j := k; j+1 < len(ps); j++ {
		if ps[j].sort != sMark {
			continue
		}
		m := ps[j].mark
		switch ps[j+1].sort {
		case sLabel, sAmount, sMark:
			return m.class >= markDay && !m.past
		case sLink, sDash, sPipe, sOpen, sClose, sSemi:
			return true
		case sComma:
			return m.class >= markDay
		}
		return ps[j+1].cue == cueTest && j+2 < len(ps) && (ps[j+2].sort == sLink || ps[j+2].sort == sDash)
	}
	return false
}

// colonMark finds "Today:" inside a line.
func colonMark(ps []piece, s *clauseSpan) *mark {
	var found *mark
	for k := s.from; k+1 < s.to; k++ {
		if ps[k].sort == sMark && ps[k].mark.class != markVessel {
			n := k + 1
			if ps[n].cue == cueTest && n+1 < s.to {
				n++
			}
			if ps[n].sort == sLink {
				found = ps[k].mark
			}
		}
	}
	return found
}
