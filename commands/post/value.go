package post

import "strings"

// amountAt reads an amount at token i; 0 if there is none.
func (p *parser) amountAt(i int) int {
	limit, n := p.bound(i)
	j := i + n
	between := false
	if n == 0 {
		if m := p.middle(i); m > 0 {
			between, j = true, i+m
		}
	}
	if n > 0 || between {
		for filling[p.text(j)] {
			j++
		}
	}
	if isList(p.text(j)) && p.kindAt(j) == number && n == 0 && !between {
		return p.list(j)
	}
	a, m := p.core(j, n > 0 || between)
	if m == 0 {
		return 0
	}
	j += m
	if t := p.text(j); between && (t == "and" || t == "&" || t == "y" || t == "et" || t == "und" || t == "en" || t == "och") {
		k := j + 1
		for p.text(k) == "the" || p.text(k) == "a" {
			k++
		}
		if b, m := p.core(k, true); m > 0 {
			a, j = join(a, b), k+m
		}
	} else {
		var done bool
		if n := p.course(i, j, a); n > 0 {
			return n
		}
		if a, j, done = p.span(i, j, a); done {
			return j - i
		}
	}
	switch limit {
	case '<':
		a.under, a.low = true, 0
	case '>':
		a.over = true
	}
	j = p.tail(j, &a)
	if m := p.nitrogenOf(j); m > 0 {
		a.asN, j = true, j+m
	}
	return p.putAmount(i, j, a)
}

// putAmount adds the amount a, or a measure that is no reading.
func (p *parser) putAmount(i, j int, a amount) int {
	// A dash that is glued to the number only can be a minus.
	if p.text(i-1) == "-" && p.glued(i) && p.kindAt(i) == number && !(p.glued(i-1) && p.kindAt(i-2) != sign) {
		k := len(p.out) - 2
		for k > 0 && p.out[k].sort == sPipe {
			k--
		}
		if k >= 0 && (p.out[k].sort == sLink || p.out[k].cue == cueIs || p.out[k].cue == cueWas) {
			a.negative = true
		} else {
			a.dash = true
		}
	}
	if p.text(i-1) == "=>" && p.glued(i-1) && p.glued(i) && a.odd == "" && p.last2().sort == sLabel {
		a.odd = "=> can be an arrow or mean \"more than\"; write 5 or 5+"
	}
	if a.unit == ppm && (p.text(j) == "dose" || p.text(j) == "doses") { // "a day after a 2 ppm dose"
		return p.add(i, j-i, piece{sort: sMeasure})
	}
	switch a.unit {
	case measure, duration, clock, counted:
		return p.add(i, j-i, piece{sort: sMeasure, word: p.text(j - 1)})
	case dropsKit:
		k, _ := p.nameAt(j + 1)
		if p.text(j) == "of" || !p.near(KH) && !(p.text(j) == "for" && k == KH) {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
	case noUnit:
		if p.sized(i, j) || p.gravity(i) {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
		if p.onClock(i, a) {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
		if b := p.text(i - 1); b == "in" && hoursOf[p.text(i)] || (b == "bottle" || b == "reagent" || b == "page") && a.low == float64(int(a.low)) || paid[b] || p.text(j) == "for" && p.priced() || b == "#" || b == "$" || b == "£" || b == "€" || b == "x" || b == "×" || b == "v" {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
	}
	if p.text(j) == ")" && p.glued(j) && a.unit == noUnit && a.low == float64(int(a.low)) && a.low > 0 && a.low < 20 && !p.inBrackets() {
		return p.add(i, j-i+1, piece{sort: sMeasure}) // "2) ammonia"
	}
	if p.entry(i, j, &a) {
		p.item++
		return p.add(i, j-i+1, piece{sort: sMeasure})
	}
	a.count = p.countsThings(i, j, &a)
	p.add(i, j-i, piece{sort: sAmount, amt: &a})
	if a.dash || a.negative {
		p.last().from = p.toks[i-1].from
	}
	return j - i
}

// entry reports whether the amount of tokens [i, j) is the number of a list's next entry: "3. nitrate 80".
func (p *parser) entry(i, j int, a *amount) bool {
	n, ok := p.whole(i)
	return ok && n == p.item+1 && a.unit == noUnit && j == i+1 && p.text(i-1) == "\n" && !p.lastName() &&
		p.text(j) == "." && p.glued(j) && p.kindAt(j+1) == word && !p.glued(j+1)
}

// paid are words before a price.
var paid = wordSet(`paid, cost, costs, costing, spent`)

// priced reports whether the clauses so far tell prices: "paid 35 for the kit and 8 for the bottle".
func (p *parser) priced() bool {
	return p.clauseBack(func(q *piece) bool { return paid[q.word] })
}

const oddLetter = "it holds a letter where a digit should stand; write it with the digit 0 or 1"

// core reads one number with its unit at token i. sure is true when words
// before it make a number in words certain.
func (p *parser) core(i int, sure bool) (a amount, n int) {
	switch p.kindAt(i) {
	case number:
		if isList(p.text(i)) {
			return a, 0
		}
		if f, m := p.fraction(i); m > 0 {
			a.low, n = f, m
			break
		}
		a.low, a.odd = readNumber(p.text(i))
		n = 1
		if v, m := p.said(i); m > 0 {
			a.low, n = v, m
		}
		if f, m := p.part(i + 1); m > 0 && a.odd == "" && a.low == float64(int(a.low)) && p.kindAt(i+1) == number && !p.glued(i+1) { // "1 1/2"
			a.low, n = a.low+f, 1+m
		}
		if p.text(i+1) == ".." && p.glued(i+1) && p.glued(i+2) && p.kindAt(i+2) == number {
			a.odd = "it has two points; write it as 0.25, or a range as 0.25-0.5"
			n = 3
		}
		if p.text(i+1) == ":" && p.glued(i+1) && p.glued(i+2) && p.kindAt(i+2) == number { // 1:10
			a.unit = measure
			return a, 3
		}
	case oddNum:
		a.odd = oddLetter
		n = 1
	case word:
		v, m := p.numeral(i)
		if m == 0 || p.text(i) == "one" && amounts[p.text(i-1)] == colourWord { // "the yellow one"
			return a, 0
		}
		u, k := p.unitAt(i + m)
		conc := k > 0 && (u == ppm || u == ppb || u == sameN || u == degrees || u == celsius || u == fahrenheit || u == german || u == meq)
		if !conc && u != duration && u != measure && !sure && !(p.last().sort == sAmount && p.kindAt(i-1) == word && numerals[p.text(i-1)] == p.last().amt.low && p.last().amt.word != notWord) && !p.afterIs() && !((p.labelled() || p.last().sort == sComma && p.last2().sort == sLabel) && p.endsAt(i+m)) && !p.forName(i+m) || amounts[p.text(i)] == zeroWord && m == 1 && !conc && !p.toNumber(i+1) {
			return a, 0
		}
		a.low, n = v, m
	default:
		return a, 0
	}
	a.high = a.low
	for p.glued(i+n) && strings.HasPrefix(p.text(i+n), "+") && p.kindAt(i+n+1) != number {
		a.over, n = true, n+1
	}
	if p.text(i+n) == "s" && p.glued(i+n) {
		if a.low != float64(int(a.low)) && a.odd == "" {
			a.odd = "a letter is stuck to it; write it as 0.25"
		}
		n++
	}
	n = p.ish(i, n)
	j := i + n
	if p.text(j) == "-" && p.glued(j) && p.glued(j+1) && p.kindAt(j+1) == word {
		if _, m := p.unitAt(j + 1); m > 0 { // 0.5-ppm, 10-gallon
			j++
		}
	}
	u, m := p.unitAt(j)
	if m == 0 && p.text(j) == "(" { // "180 (ppm)"
		if v, k := p.unitAt(j + 1); k > 0 && v != measure && v != duration && v != clock && v != counted && p.text(j+1+k) == ")" {
			u, m = v, k+2
		}
	}
	if u == measure && p.text(j) == `"` && p.quoted(j) {
		m = 0 // in quotation marks, not inches
	}
	if u == counted && (p.labelled() || a.low == 0) || u == clock && !(a.low >= 1 && a.low <= 12 && a.low == float64(int(a.low))) {
		m = 0
	}
	if u == dropsKit && a.low != float64(int(a.low)) {
		u = measure
	}
	if u == celsius && m == 1 && p.text(j) == "c" && p.text(j+1) == "." && p.text(j+2) == "a" {
		m = 0
	}
	if u == duration && p.text(j) == "d" && p.near(KH) {
		u = german
	}
	if m > 0 {
		a.unit, n = u, j+m-i
	}
	if u == sameN && m > 0 {
		a.asN = true
	}
	for p.glued(i+n) && strings.HasPrefix(p.text(i+n), "+") && p.kindAt(i+n+1) != number {
		a.over, n = true, n+1
	}
	if p.text(i+n) == "+" && !p.glued(i+n) && p.closes(i+n+1) { // "5 +"
		a.over, n = true, n+1
	}
	return a, p.ish(i, n)
}

// ish skips "ish", "-ish" after n tokens from i.
func (p *parser) ish(i, n int) int {
	if p.text(i+n) == "ish" {
		return n + 1
	}
	if p.text(i+n) == "-" && p.text(i+n+1) == "ish" {
		return n + 2
	}
	return n
}

// list adds a row of numbers glued by commas, "0,0,20", as single amounts.
func (p *parser) list(i int) int {
	t := p.toks[i]
	from := t.from
	for k, s := range strings.Split(t.text, ",") {
		if k > 0 {
			p.add(i, 1, piece{sort: sComma})
			p.last().from, p.last().to = from, from
			from++
		}
		v, odd := readNumber(s)
		p.add(i, 1, piece{sort: sAmount, amt: &amount{low: v, high: v, odd: odd}})
		p.last().from, p.last().to = from, from+len(s)
		from += len(s)
	}
	return 1
}
