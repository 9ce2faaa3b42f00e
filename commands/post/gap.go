package post

// gap is what stands between two neighbours of the row of names and amounts.
type gap struct {
	link, dash, slash, comma, and, but, stop, semi, arrow, pipe, open, close bool
	lines                                                                    int
	filler                                                                   int  // words that part
	free                                                                     int  // words that do not
	of                                                                       bool // "of", "for", "on", "in"
	both                                                                     bool // "both", "all", "are", "at"
	change                                                                   bool // a change or a point in time: the amount after is another value of the same test
	verb                                                                     bool // "is", "showing", "dropped"
	row                                                                      bool // nothing else on the line: "0.5: ammonia"
	tight                                                                    bool // a dash without blanks
	toNext                                                                   bool // after a sentence's end only words such as "it's at" follow
}

// blank reports whether nothing but blanks stands between.
func (g *gap) blank() bool {
	return !g.listSign() && !g.link && !g.but && !g.stop && !g.semi && !g.arrow && !g.open && !g.close && g.lines == 0 && g.filler == 0 && g.free == 0
}

func (g *gap) listSign() bool { return g.dash || g.slash || g.comma || g.and || g.pipe }

// inList reports whether the gap can part two entries of one list.
func (g *gap) inList() bool {
	return !g.link && !g.but && !g.stop && !g.semi && !g.arrow && g.lines == 0 && g.filler == 0 && !g.change && !g.verb && g.free <= 1
}

// between looks at the pieces from a to b, exclusive.
func between(ps []piece, a, b int) gap {
	var g gap
	for k := a + 1; k < b; k++ {
		q := &ps[k]
		switch q.sort {
		case sFiller:
			g.filler++
			if g.stop && q.cue != cueFix {
				g.toNext = false
			}
			g.change = g.change || q.cue == cueTap || q.cue == cueFix
			if q.word == "vs" || q.word == "versus" || q.word == "instead" {
				g.change = true
			}
		case sFree:
			g.free++
			g.verb = g.verb || q.cue == cueIs && q.word != "at" || q.cue == cueWas || q.cue == cueChange
			switch q.word {
			case "of", "for", "on", "in":
				g.of = true
			case "at", "were":
				g.both = true
			case "its", "now", "is", "are", "back", "then", "mine", "im":
				g.change = true
			}
			if g.but && !g.stop && (q.word == "got" || q.word == "is" || q.word == "its" || q.word == "shows" || q.word == "reads") { // "expected 40 but got 50"
				g.but, g.change = false, true
			}
			g.change = g.change || q.word == "more like" || q.word == "got" && ps[k-1].word == "i"
			if q.cue == cueBoth || q.word == "are" {
				g.both = true
			}
			if (g.stop || g.comma) && (q.cue == cueOwn || q.cue == cueTank) || q.cue == cueTo || q.cue == cueFrom || q.cue == cueWas || q.word == "up to" || q.word == "down to" {
				g.change = true
			}
		case sMeasure:
			g.filler++
		case sMark:
			g.change = g.change || q.mark.class != markVessel
		case sLink:
			g.link, g.both = true, true
		case sDash:
			g.dash = true
			g.tight = q.glued && k == a+1 && b == k+1 && ps[b].glued
		case sSlash:
			g.slash = true
		case sComma:
			g.comma = true
		case sAnd:
			g.and = true
		case sBut:
			if q.word == "then" || q.word == "but" && ps[a].sort == sAmount && a > 0 && (ps[a-1].word == "not" || ps[a-1].word == "isnt") {
				g.change = true
			} else {
				g.but = true
			}
		case sStop, sAsk:
			g.stop, g.toNext = true, true
		case sSemi:
			g.semi = true
		case sArrow:
			g.arrow, g.change = true, true
		case sPipe:
			g.pipe = true
		case sOpen:
			g.open = true
		case sClose:
			g.close = true
		case sLine:
			g.lines++
		}
	}
	g.row = b == a+2 && g.link && (a == 0 || ps[a-1].sort == sLine) && (b+1 == len(ps) || ps[b+1].sort == sLine)
	if m := markAfter(ps, b); m != nil && g.comma && m.class == markNow && m.key >= 0.4 && was(ps[max(0, a-3):a]) {
		g.change = true // "nitrite was 4 then, 1.5 now"
	}
	return g
}

// markAfter is the point in time right behind the amount at k, nil if there is
// none.
func markAfter(ps []piece, k int) *mark {
	if ps[k].sort == sAmount && k+1 < len(ps) && ps[k+1].sort == sMark {
		return ps[k+1].mark
	}
	return nil
}

// Costs of the ways to read a row of names and amounts. Only their order
// matters; they were set by hand and are held by the posts in testdata.
const (
	costSkipName   = 1.5 // a name is mentioned without an amount
	costSkipAmount = 1.5 // a number is no reading
	costSkipUnit   = 3   // the same with a unit of concentration
	costSkipWord   = 0.3 // the same of a word such as "none"
	costBackward   = 0.3 // the amount stands before the name
	costList       = 0.4 // a list of names with a list of amounts
	costShare      = 0.6 // one amount for several names
	costChain      = 0.4 // a further amount of the same name
	costNever      = 1e6
	margin         = 0.8 // readings closer than this are ambiguous
)

// forward is the cost of binding an amount to the name before it.
func (g *gap) forward() float64 {
	c := 0.35 * float64(min(g.filler, 12))
	if g.free > 6 {
		c += 0.1 * float64(min(g.free-6, 20))
	}
	if g.link {
		c -= 0.5
	}
	if g.dash && !g.link {
		c -= 0.1
	}
	if g.tight {
		c -= 0.4
	}
	if g.arrow {
		c += 0.2
	}
	if g.slash {
		c += 0.9
	}
	if g.comma {
		c += 1.2
	}
	if g.and {
		c += 1.6
	}
	if g.but {
		c += 1.5
	}
	if g.semi {
		c += 2.5
	}
	if g.close && !g.open {
		c += 0.2
	}
	if g.stop {
		if g.toNext {
			c += 1.5
		} else {
			c += 6
		}
	}
	if g.lines > 0 {
		c += 1.2 * float64(min(g.lines, 4))
	}
	return c
}

// backward is the cost of binding an amount to the name after it.
func (g *gap) backward() float64 {
	c := costBackward + 0.7*float64(min(g.filler, 8))
	if !g.of {
		c += 0.15 * float64(min(g.free, 8))
	}
	if g.link && !g.row {
		c += 3
	}
	if g.dash {
		c += 0.5
	}
	if g.slash || g.pipe {
		c += 1.5
	}
	if g.comma {
		c += 2.5
	}
	if g.and || g.arrow {
		c += 2.5
	}
	if g.but || g.semi || g.stop {
		c += 6
	}
	if g.close && !g.open {
		c++
	}
	return c + 4*float64(min(g.lines, 4))
}
