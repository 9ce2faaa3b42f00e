package post

import "strings"

// wordAt reads the longest phrase at token i: a name, an amount in words, or a
// word with a meaning; else it tries a typo.
func (p *parser) wordAt(i int) int {
	if n := p.none(i); n > 0 {
		return n
	}
	if n := p.initials(i); n > 0 {
		return n
	}
	if p.text(i) == "n" && p.text(i+1) == "-" {
		if k, ok := labels[p.text(i+2)]; ok && k <= Nitrate {
			return p.label(i, 3, k, true)
		}
	}
	if p.text(i) == "o" && p.labelled() {
		return p.add(i, 1, piece{sort: sAmount, amt: &amount{odd: oddLetter}})
	}
	best, n := piece{sort: sFiller}, 1
	for _, m := range p.phrases(i) {
		if k, ok := labels[m.key]; ok {
			best, n = piece{sort: sLabel, kind: k}, m.n
		} else if a, ok := amounts[m.key]; ok {
			best, n = piece{sort: sAmount, amt: &amount{word: a}}, m.n
		} else if s, ok := words[m.key]; ok {
			best, n = piece{sort: sFiller, cue: s.cue, word: m.key}, m.n
			if s.free {
				best.sort = sFree
			}
		}
	}
	switch best.sort {
	case sLabel:
		return p.label(i, n, best.kind, p.text(i+n-1) == "tan" || strings.HasSuffix(p.text(i+n-1), "nitrogen") && best.kind != other || strings.HasSuffix(p.text(i+n-1), "n") && len(p.text(i+n-1)) == 4 && p.text(i+n-1) != "iron")
	case sAmount:
		return p.amountWord(i, n, best)
	case sFree:
		return p.add(i, n, best)
	}
	if best.cue == noCue {
		if s, ok := joiners[p.text(i)]; ok {
			return p.add(i, 1, piece{sort: s})
		}
		if k, ok, rival := misspelt(p.text(i)); ok {
			n := p.label(i, 1, k, false)
			if rival {
				p.last().vague = "it is one letter from the names of two tests; write nitrite or nitrate"
				if k == Chlorine || k == other {
					p.last().vague = "it is one letter from the names of two tests; write the name in full"
				}
			}
			return n
		}
	}
	return p.add(i, n, best)
}

// initials reads "n/a" and "n.a." (not tested), "n/d" and "n.d." (none detected).
func (p *parser) initials(i int) int {
	s := p.text(i + 1)
	if p.text(i) != "n" || s != "/" && !(s == "." && p.glued(i+1) && p.glued(i+2)) || p.text(i+3) == "/" {
		return 0
	}
	a := &amount{word: untested}
	switch p.text(i + 2) {
	case "a":
	case "d":
		a.word = nilWord
	default:
		return 0
	}
	n := 3
	if s == "." && p.text(i+3) == "." {
		n = 4
	}
	return p.add(i, n, piece{sort: sAmount, amt: a})
}

var joiners = map[string]sort{"and": sAnd, "or": sAnd, "und": sAnd, "y": sAnd, "et": sAnd, "plus": sAnd, "with": sFree, "nor": sAnd, "then": sBut, "but": sBut, "while": sBut, "whereas": sBut, "though": sBut, "although": sBut, "however": sBut, "yet": sFree}

type match struct {
	key string
	n   int
}

// phrases lists the runs of one to eight words at token i, hyphens and
// apostrophes taken as blanks, shortest first.
func (p *parser) phrases(i int) []match {
	if i < 0 || i >= len(p.toks) || p.toks[i].kind != word {
		return nil
	}
	if p.known[i] != nil {
		return p.known[i]
	}
	out := make([]match, 0, 8)
	key, words := "", 0
	for j := i; j < len(p.toks) && words < 8; j++ {
		t := p.toks[j]
		if t.kind == sign && t.text == "-" && j > i && p.glued(j) && p.glued(j+1) && p.kindAt(j+1) == word {
			continue
		}
		if t.kind != word {
			break
		}
		if key != "" {
			key += " "
		}
		key += t.text
		words++
		out = append(out, match{key, j - i + 1})
	}
	p.known[i] = out
	return out
}
