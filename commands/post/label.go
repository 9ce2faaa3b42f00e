package post

import (
	"slices"
	"strings"
)

// noTest are words that, after the name of a test, make it something else:
// "ammonia source", "nitrite spike", "pH down".
var noTest = wordSet(`source, dosing, chloride, bottle, solution, remover, removers, eating, oxidizing, oxidising, consuming, producing, bacteria, poisoning, burn, burns, smell, stage, phase, booster, buffer,
	reducer, crash, controller, supplement, factory, munching, converters, converter, lock, detoxifier, binder, binders, absorber, free, neutralizer, removal, production, producers, hydroxide, sulfate, sulphate, feed, drops, calculator, chart, test kit is, gun, strip, stick, dosed, powder, minus, plus, down, up, fertilizer, fertiliser, shock`)

// notReally are words before the name that make it a product.
var notReally = wordSet(`pure, household, janitorial, janitors, bottled, no, clear, anti`)

func wordSet(s string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.SplitSeq(s, ",") {
		m[strings.Join(strings.Fields(w), " ")] = true
	}
	return m
}

// label adds the name of a test made of the tokens [i, i+n), with what is
// written to it: charge, "as N", unit; it joins a second name of the same test.
func (p *parser) label(i, n int, k Kind, asN bool) int {
	q := piece{sort: sLabel, kind: k, asN: asN || p.asN && k <= Nitrate}
	end := i + n
	formula := strings.ContainsAny(p.text(end-1), "0123456789")
	if formula && p.text(end) == "/" && (p.text(end+1) == "4" || p.text(end+1) == "3") && p.glued(end) && p.glued(end+1) && strings.HasPrefix(p.text(end-1), "nh") {
		end += 2
	}
	if formula && p.glued(end) && (p.text(end) == "+" || p.text(end) == "-" && !(p.glued(end+1) && (p.kindAt(end+1) == number || p.text(end+1) == "n"))) && p.kindAt(end+1) != word {
		end++
	}
	if formula && p.text(end) == "(" && p.kindAt(end+1) == number && (p.text(end+2) == "-" || p.text(end+2) == "+") && p.text(end+3) == ")" {
		end += 4 // "PO4(3-)"
	}
	if m := p.nitrogen(end); m > 0 && k <= Nitrate {
		end, q.asN = end+m, true
	}
	if k != other && noTest[p.text(end)] && p.text(end+1) != "to" && !(p.text(end) == "up" || p.text(end) == "down" || p.text(end) == "plus" || p.text(end) == "free" || p.text(end) == "chart" || p.text(end) == "drops" || p.text(end) == "strip") || k == PH && (p.text(end) == "down" || p.text(end) == "up") && p.text(end+1) != "to" && p.text(end+1) != "from" && p.kindAt(end+1) != number {
		return p.add(i, end-i+1, piece{sort: sFiller, cue: cueDose})
	}
	if k == Ammonia && notReally[p.text(i-1)] && p.text(i-1) != "no" && p.text(i-1) != "clear" {
		return p.add(i, end-i, piece{sort: sFiller, cue: cueDose})
	}
	if u, m := p.unitNote(end); m > 0 && u.fits(k) {
		q.unit = u
		if u == sameN {
			q.asN = true
		}
		end += m
	}
	if j := p.sameName(k); j >= 0 {
		l := &p.out[j]
		l.to, l.asN = p.toks[end-1].to, l.asN || q.asN
		l.unit = max(l.unit, q.unit)
		open := slices.ContainsFunc(p.out[j+1:], func(q piece) bool { return q.sort == sOpen })
		p.out = p.out[:j+1]
		if open && (p.text(end) == ")" || p.text(end) == "]") {
			end++
		}
		return end - i
	}
	if l := p.last2(); p.last().sort == sOpen && l.sort == sLabel && l.kind != k && max(l.kind, k) <= Nitrate && p.text(end) == ")" {
		q.vague = "two different tests are named together; write just the one that it is"
	}
	return p.add(i, end-i, q)
}

// sameName returns the index of a name of the same test right before: "ammonia
// (NH3)", "NH3/NH4"; -1 if there is none.
func (p *parser) sameName(k Kind) int {
	if k == other {
		return -1
	}
	for j := len(p.out) - 1; j >= max(0, len(p.out)-3); j-- {
		switch q := &p.out[j]; q.sort {
		case sLabel:
			if q.kind == k && q.vague == "" {
				return j
			}
			return -1
		case sSlash, sOpen, sAnd, sDash:
		case sLink:
			if q.word != "=" {
				return -1
			}
		default:
			return -1
		}
	}
	return -1
}

// nitrogen reads "-N", "as N", "(N)", "nitrogen" at token i and returns its length.
func (p *parser) nitrogen(i int) int {
	t, u, v := p.text(i), p.text(i+1), p.text(i+2)
	isN := func(s string) bool { return s == "n" || s == "nitrogen" }
	switch {
	case t == "as" && isN(u):
		return 2
	case t == "-" && isN(u) && p.glued(i):
		return 2
	case t == "nitrogen", t == "n" && p.text(i-1) != "/" && u != "/" && !(u == "." && v == "d"):
		return 1
	case t == "(" && isN(u) && v == ")":
		return 3
	case t == "(" && u == "as" && isN(v) && p.text(i+3) == ")":
		return 4
	}
	return 0
}

// allNitrogen reads "all as N", "(readings as nitrogen)", which holds for every name
// of the post.
func (p *parser) allNitrogen(i int) int {
	if p.text(i) != "as" || p.text(i+1) != "n" && p.text(i+1) != "nitrogen" || p.last().sort == sLabel || p.last().sort == sAmount {
		return 0
	}
	p.asN = true
	for k := range p.out {
		if p.out[k].sort == sLabel && p.out[k].kind <= Nitrate {
			p.out[k].asN = true
		}
	}
	return p.add(i, 2, piece{sort: sFiller})
}

// unitNote reads a unit that stands with the name: "Ammonia (ppm)", "Temp F:".
func (p *parser) unitNote(i int) (unitOf, int) {
	t := p.text(i)
	open := t == "(" || t == "["
	j := i
	if open {
		j++
	}
	if p.text(j) == "in" {
		j++
	} else if !open && t == "," && p.kindAt(i+1) == word {
		j++
	}
	u, n := p.unitAt(j)
	if n == 0 || u == noUnit || u >= ppt && u != german && u != dgh {
		return noUnit, 0
	}
	if open {
		if c := p.text(j + n); c != ")" && c != "]" {
			return noUnit, 0
		}
		return u, j + n + 1 - i
	}
	return u, j + n - i
}

// nameAt tells which test the tokens at i name.
func (p *parser) nameAt(i int) (k Kind, n int) {
	k = other
	for _, m := range p.phrases(i) {
		if l, ok := labels[m.key]; ok {
			k, n = l, m.n
		}
	}
	if n == 0 && p.kindAt(i) == word {
		if l, ok, _ := misspelt(p.text(i)); ok {
			k, n = l, 1
		}
	}
	return k, n
}
