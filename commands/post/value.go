package post

import "strings"

// bounds are words before a number: more than it, less than it, about it.
var bounds = map[string]byte{}

func init() {
	for _, e := range []struct {
		sign  byte
		words string
	}{
		{'<', `less than, under, below, lower than, no more than, at most, not more than, fewer than, smaller than, unter, not over, not above, not exceeding, no higher than, well under, well below, way below, way under, somewhere below, somewhere under, definitely under, definitely below`},
		{'>', `more than, over, above, greater than, higher than, at least, in excess of, north of, upwards of, beyond, exceed, exceeds, exceeding, well over, way over, well above, way above, far above, somewhere above, somewhere over, uber, easily over, definitely over, definitely above, a minimum of, minimum of, no less than, no lower than, not less than, way more than, a lot more than, much higher than, much more than, way higher than`},
		{'~', `just over, just under, just above, just below, just shy of, slightly above, slightly over, slightly below, slightly under, slightly less than, slightly more than, a bit over, a bit under, a bit above, a bit below, a little over, a little under, a little above, a little below, a hair under, a hair over, a hair above, a touch over, a touch under, a touch above, barely above, barely over, a little more than, a little less than, a bit more than, a bit less than, a tad over, a tad under, a tad above, a smidge over, a smidge above, a smidge under, maybe a bit over`},
	} {
		for w := range wordSet(e.words) {
			bounds[w] = e.sign
		}
	}
}

// overTail and underTail are words after a number.
var (
	overTail  = wordSet(`or higher, or more, or above, or over, or greater, or up, or beyond, and above, and up, and higher, and over, plus, or even higher, or maybe higher, or maybe more, or possibly higher, or possibly more, maybe higher, maybe more, possibly higher, possibly more, if not higher, if not more, or worse, at least, minimum, and beyond, probably higher, probably more, likely higher, and rising off the chart, or probably higher, or probably more, or bigger`)
	topTail   = wordSet(`max, maximum, highest, top, the max, the top, the highest, max on chart, max on the chart, chart max, top of chart, top of the chart, max reading, highest reading, highest on chart, highest on the chart, maxed, maxed out, off chart, off the chart, off the charts, top color, top colour`)
	underTail = wordSet(`or less, or lower, or below, or under, and below, and under, or maybe less, maybe less, at most, or even less, or even lower`)
)

// vagueTail are words after a number that change nothing.
var vagueTail = wordSet(`or so, or thereabouts, give or take, range, or something, or something like that, or near it`)

// bound reads a sign or words that limit a number at token i.
func (p *parser) bound(i int) (sign byte, n int) {
	switch p.text(i) {
	case "<", "≤", "<=", "=<":
		return '<', 1
	case ">", "≥", ">=":
		if p.last().sort == sAmount && p.kindAt(i+1) == number {
			return 0, 0 // 80 > 40
		}
		return '>', 1
	}
	for _, m := range p.phrases(i) {
		if s, ok := bounds[m.key]; ok {
			sign, n = s, m.n
		}
	}
	return sign, n
}

// filling are tokens that may stand between a bound and its number.
var filling = wordSet(`~, about, around, the, a, approx, roughly, maybe, like, that, of, or so, or equal to, equal to, of about, say, approximately, circa`)

// amountAt reads an amount at token i; 0 if there is none.
func (p *parser) amountAt(i int) int {
	limit, n := p.bound(i)
	j := i + n
	between := false
	if n == 0 && (p.text(i) == "between" || p.text(i) == "betw" || p.text(i) == "b/w") {
		between, j = true, i+1
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
	if between && (p.text(j) == "and" || p.text(j) == "&") {
		if b, m := p.core(j+1, true); m > 0 {
			a, j = join(a, b), j+1+m
		}
	} else {
		var done bool
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
	dash := p.text(i-1) == "-" && p.glued(i) && !(p.glued(i-1) && i > 1 && p.text(i-2) != "\n")
	if dash && p.kindAt(i) == number {
		if before := p.last2(); before.sort == sLink || before.cue == cueIs || before.cue == cueWas {
			a.negative = true
		} else {
			a.dash = true
		}
	}
	if p.text(i-1) == "=>" && p.glued(i-1) && p.glued(i) && a.odd == "" && p.last2().sort == sLabel {
		a.odd = "=> can be an arrow or mean \"more than\"; write 5 or 5+"
	}
	switch a.unit {
	case measure, duration, clock, counted:
		return p.add(i, j-i, piece{sort: sMeasure, word: p.text(j - 1)})
	case dropsKit:
		if p.text(j) == "of" || !p.near(KH) {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
	case noUnit:
		if b := p.text(i - 1); b == "#" || b == "$" || b == "£" || b == "€" || b == "x" || b == "×" || b == "v" {
			return p.add(i, j-i, piece{sort: sMeasure})
		}
	}
	if p.text(j) == ")" && p.glued(j) && a.unit == noUnit && a.low == float64(int(a.low)) && a.low > 0 && a.low < 20 && !p.inBrackets() {
		return p.add(i, j-i+1, piece{sort: sMeasure}) // "2) ammonia"
	}
	a.count = p.countsThings(i, j, &a)
	return p.add(i, j-i, piece{sort: sAmount, amt: &a})
}

// inBrackets reports whether a bracket is open on this line.
func (p *parser) inBrackets() bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-30); j-- {
		switch p.out[j].sort {
		case sOpen:
			return true
		case sClose, sLine:
			return false
		}
	}
	return false
}

// last2 returns the piece before the last one.
func (p *parser) last2() *piece {
	if len(p.out) < 2 {
		return &piece{sort: sLine}
	}
	return &p.out[len(p.out)-2]
}

// near reports whether a name of the kind or of an unknown test is close before.
func (p *parser) near(k Kind) bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-4); j-- {
		if q := &p.out[j]; q.sort == sLabel {
			return q.kind == k || q.kind == other
		}
	}
	return false
}

// countsThings guesses that a whole number before an unknown plural counts
// things ("6 otters"), so that it may be dropped without a question.
func (p *parser) countsThings(i, j int, a *amount) bool {
	if a.unit != noUnit || a.low != a.high || a.low < 1 || a.low != float64(int(a.low)) || p.kindAt(j) != word || j-i != 1 {
		return false
	}
	for k := j; k < j+3; k++ {
		switch w := p.text(k); {
		case p.kindAt(k) != word || p.meant(w):
			return false
		case len(w) > 3 && strings.HasSuffix(w, "s"):
			return true
		}
	}
	return false
}

// meant reports whether a single word has a meaning of its own.
func (p *parser) meant(w string) bool {
	_, label := labels[w]
	_, said := words[w]
	_, joins := joiners[w]
	_, short := shortLabels[w]
	_, typo, _ := misspelt(w)
	return label || said || joins || short || typo
}

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
		if p.text(i+1) == ".." && p.glued(i+1) && p.glued(i+2) && p.kindAt(i+2) == number {
			a.odd = "it has two points; write it as 0.25, or a range as 0.25-0.5"
			n = 3
		}
		if p.text(i+1) == ":" && p.glued(i+1) && p.glued(i+2) && p.kindAt(i+2) == number { // 1:10
			a.unit = measure
			return a, 3
		}
	case oddNum:
		a.odd = "it holds a letter where a digit should stand; write it with the digit 0 or 1"
		n = 1
	case word:
		v, m := p.numeral(i)
		if m == 0 {
			return a, 0
		}
		u, k := p.unitAt(i + m)
		conc := k > 0 && (u == ppm || u == ppb || u == sameN || u == degrees || u == celsius || u == fahrenheit || u == german || u == meq)
		if !conc && u != duration && u != measure && !sure && !p.afterIs() && !(p.last().sort == sLabel && p.endsAt(i+m)) || amounts[p.text(i)] == zeroWord && m == 1 && !conc {
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
	if u == measure && p.text(j) == `"` && p.text(i-1) == `"` {
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
	if m > 0 {
		a.unit, n = u, j+m-i
	}
	if u == sameN && m > 0 {
		a.asN = true
	}
	for p.glued(i+n) && strings.HasPrefix(p.text(i+n), "+") && p.kindAt(i+n+1) != number {
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

// afterIs reports whether a name and a link or verb come right before.
func (p *parser) afterIs() bool {
	if len(p.out) < 1 {
		return false
	}
	l := p.last()
	return (l.sort == sLink || l.cue == cueIs || l.cue == cueTo || l.word == "about" || l.word == "around") && p.labelledLoosely()
}

// endsAt reports whether a list goes on or ends at token i.
func (p *parser) endsAt(i int) bool {
	switch p.text(i) {
	case ",", ".", ";", "/", "\n", "and", "|", ")", "!", "&":
		return true
	case "to", "or", "-":
		_, n := p.numeral(i + 1)
		return n > 0 || p.kindAt(i+1) == number
	}
	_, n := p.nameAt(i)
	return n > 0
}

func (p *parser) labelledLoosely() bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-5); j-- {
		switch p.out[j].sort {
		case sLabel:
			return true
		case sLine, sStop:
			return false
		}
	}
	return false
}

// fraction reads "1/4 ppm", "1/2 of a ppm".
func (p *parser) fraction(i int) (v float64, n int) {
	if p.text(i+1) != "/" || !p.glued(i+1) || !p.glued(i+2) || p.text(i-1) == "/" || p.text(i+3) == "/" {
		return 0, 0
	}
	switch p.text(i) + "/" + p.text(i+2) {
	case "1/4":
		v = 0.25
	case "1/2":
		v = 0.5
	case "3/4":
		v = 0.75
	case "1/8":
		v = 0.125
	default:
		return 0, 0
	}
	n = 3
	for p.text(i+n) == "of" || p.text(i+n) == "a" {
		n++
	}
	if u, m := p.unitAt(i + n); m > 0 && (u == ppm || u == measure) {
		return v, n
	}
	return 0, 0
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

// nitrogenOf reads "as N" after an amount.
func (p *parser) nitrogenOf(i int) int {
	if p.text(i) == "as" && (p.text(i+1) == "n" || p.text(i+1) == "nitrogen") {
		return 2
	}
	return 0
}

// tail reads "or higher", "or less", "or so" after an amount, also in brackets
// or after a comma, and returns where it ends.
func (p *parser) tail(j int, a *amount) int {
	at := j
	if p.text(at) == "(" || p.text(at) == "," {
		at++
	}
	key, n := "", 0
	for _, m := range p.phrases(at) {
		if overTail[m.key] || underTail[m.key] || vagueTail[m.key] || p.text(j) == "(" && topTail[m.key] {
			key, n = m.key, m.n
		}
	}
	end := at + n
	if at > j && p.text(j) == "(" {
		if p.text(end) != ")" {
			return j
		}
		end++
	}
	switch {
	case n == 0:
		return j
	case overTail[key] || topTail[key]:
		a.over, a.under = true, false
	case underTail[key]:
		a.under, a.over, a.low = true, false, 0
	}
	return end
}
