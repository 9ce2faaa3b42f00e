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

// noneUnless are words after "no ammonia" that make it no reading of zero.
var noneUnless = wordSet(`source, sources, dosing, dose, dosed, doses, added, adding, addition, additions, spike, spikes, problem, problems, issue, issues, poisoning, burn, burns, smell, bottle, solution, chloride, supply, production, peak, going, input, left to, to dose, for the bacteria, being added, coming, whatsoever added, removers, remover, to feed, food, change, swing, swings, crash, drop, movement, stage, phase`)

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
	q := piece{sort: sLabel, kind: k, asN: asN}
	end := i + n
	formula := strings.ContainsAny(p.text(end-1), "0123456789")
	if formula && p.text(end) == "/" && (p.text(end+1) == "4" || p.text(end+1) == "3") && p.glued(end) && p.glued(end+1) && strings.HasPrefix(p.text(end-1), "nh") {
		end += 2
	}
	if formula && p.glued(end) && (p.text(end) == "+" || p.text(end) == "-" && !(p.glued(end+1) && (p.kindAt(end+1) == number || p.text(end+1) == "n"))) && p.kindAt(end+1) != word {
		end++
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
	case t == "nitrogen", t == "n" && p.text(i-1) != "/" && u != "/":
		return 1
	case t == "(" && isN(u) && v == ")":
		return 3
	case t == "(" && u == "as" && isN(v) && p.text(i+3) == ")":
		return 4
	}
	return 0
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

// shortLabel reads names such as "am" and "ni", which are names only in a row
// of names or right before an amount.
func (p *parser) shortLabel(i int) int {
	s, ok := shortLabels[p.text(i)]
	if !ok || p.toks[i].kind != word {
		return 0
	}
	if !p.isShort(i, s.strict) {
		return 0
	}
	n := p.label(i, 1, s.kind, false)
	switch p.text(i) {
	case "n":
		p.last().vague = "n can be nitrite or nitrate; write NO2 or NO3"
	case "nit", "nits", "nitr":
		p.last().vague = p.text(i) + " can be nitrite or nitrate; write NO2 or NO3"
	case "cl":
		p.last().vague = "Cl can be chlorine or chloride; write chlorine 0.1 or chloride 30"
	}
	return n
}

func (p *parser) isShort(i int, strict bool) bool {
	name := func(j int) bool {
		t := p.text(j)
		_, short := shortLabels[t]
		_, long := labels[t]
		return p.kindAt(j) == word && (short || long)
	}
	before, after := p.text(i-1), p.text(i+1)
	if t := p.text(i); t == "n" && after == "/" && p.text(i+2) == "a" && p.text(i+3) != "/" {
		return false
	}
	if after == "/" && name(i+2) || before == "/" && name(i-2) && p.text(i) != "a" {
		return true
	}
	start := before == "\n" || before == "," || before == ";" || before == "/" || before == "|" || before == "(" || before == "." || before == ":" || before == "and" || before == "-" || before == "\t" || p.kindAt(i-1) == number || before == "ppm"
	amountNext := p.kindAt(i+1) == number || p.kindAt(i+1) == oddNum || after == "zero" || after == "~" || after == "<" || after == ">"
	if (after == ":" || after == "=" || after == "-") && start && !(p.text(i) == "na" && p.labelled()) {
		return !strict || after != "-"
	}
	if strict {
		return false
	}
	row := func(j int) bool { // a neighbour of the same sort
		s, short := shortLabels[p.text(j)]
		return short && !s.strict && p.kindAt(j) == word
	}
	if row(i+1) && name(i+2) || row(i-1) && name(i-2) || row(i-1) && row(i+1) || (after == "," || after == "-" || after == "&") && row(i+2) || (before == "," || before == "-" || before == "&") && row(i-2) || row(i-1) && amountNext {
		return true
	}
	if p.text(i) == "na" && p.labelled() {
		return false
	}
	if p.text(i) == "am" && p.kindAt(i-1) == number && p.last().sort != sMark && p.clockNumber(i-1) {
		return false
	}
	return amountNext && (start || before != "i" && before != "we" && before != "you")
}

// clockNumber reports whether token i may be an hour before "am".
func (p *parser) clockNumber(i int) bool {
	t := p.text(i)
	return len(t) <= 2 && t != "0" && !strings.ContainsAny(t, ".,") && p.text(i-1) != ":" && !p.labelled()
}

// none reads "no ammonia", "no sign of nitrite", "haven't seen any nitrite": a
// zero that stands before the name.
func (p *parser) none(i int) int {
	n := 0
	for _, m := range p.phrases(i) {
		if noneHeads[m.key] {
			n = m.n
		}
	}
	if n == 0 {
		return 0
	}
	j := i + n
	for noneBetween[p.text(j)] {
		j++
	}
	k, m := p.nameAt(j)
	if m == 0 || k == other && p.text(i) != "no" {
		return 0
	}
	after := p.text(j + m)
	for q := j + m; (p.text(q) == "or" || p.text(q) == "nor" || p.text(q) == "and" || p.text(q) == "/" || p.text(q) == ",") && q < j+m+8; {
		_, mm := p.nameAt(q + 1)
		if mm == 0 {
			break
		}
		q += 1 + mm
		after = p.text(q)
	}
	w := noneLabel
	switch {
	case noneUnless[after] || noneUnless[after+" "+p.text(j+m+1)]:
		return p.add(i, j+m-i+1, piece{sort: sFiller})
	case after == "test" || after == "tests" || after == "kit" || after == "strips" || after == "strip" || after == "pad" || after == "pads" || after == "reagent" || after == "square" || after == "vial":
		w = untested
	case after == "reading" || after == "readings" || after == "result" || after == "results":
		w = unclear
	}
	return p.add(i, n, piece{sort: sAmount, amt: &amount{word: w}})
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

var noneHeads = wordSet(`neither, no, still no, absolutely no, no sign of, no signs of, no sign of any, no trace of, no traces of, not a trace of, no hint of, no detectable, no measurable, no visible, no more, no free, no residual, zero sign of, zero trace of,
	not any, dont have any, havent seen any, havent got any, not seeing any, not getting any, not reading any, not showing any, not detecting any, not registering any, isnt any, arent any, aint any, dont see any, doesnt show any, cant detect any, cant see any, dont detect any, not had any yet, havent had any, hasnt shown any, no real, not picking up any, not reading, not showing, nothing for, without any, nothing on, no reading of, no presence of, didnt detect any, did not detect any, didnt find any, did not find any, do not have any, do not see any, have not seen any, have no, has no, having no, theres no, there is no, zero amount of, zero amounts of, zero detectable, zero measurable`)

var noneBetween = wordSet(`detectable, measurable, visible, the, any, more, noticeable, significant, real, actual, residual, whatsoever`)
