package post

// bounds are words before a number: more than it, less than it, about it.
var bounds = map[string]byte{}

func init() {
	for _, e := range []struct {
		sign  byte
		words string
	}{
		{'<', `less than, under, below, lower than, no more than, at most, not more than, fewer than, smaller than, unter, not over, not above, not exceeding, no higher than, well under, well below, way below, way under, is at most, are at most, was at most, somewhere below, somewhere under, definitely under, definitely below`},
		{'>', `more than, over, above, greater than, higher than, at least, in excess of, north of, upwards of, beyond, exceed, exceeds, exceeding, well over, way over, well above, way above, far above, somewhere above, somewhere over, uber, past, min, minimum, is at least, are at least, was at least, easily over, definitely over, definitely above, a minimum of, minimum of, no less than, no lower than, not less than, way more than, a lot more than, much higher than, much more than, way higher than`},
		{'~', `just over, just under, just above, just below, just shy of, slightly above, slightly over, slightly below, slightly under, slightly less than, slightly more than, a bit over, a bit under, a bit above, a bit below, a little over, a little under, a little above, a little below, a hair under, a hair over, a hair above, a touch over, a touch under, a touch above, barely above, barely over, a little more than, a little less than, a bit more than, a bit less than, a tad over, a tad under, a tad above, a smidge over, a smidge above, a smidge under, maybe a bit over`},
	} {
		for w := range wordSet(e.words) {
			bounds[w] = e.sign
		}
	}
}

// overTail and underTail are words after a number.
var (
	overTail  = wordSet(`and could be higher, could be higher, but could be higher, might be higher, and might be higher, and maybe higher, and probably higher, and possibly higher, could be more, and could be more, might be more, or higher, or more, or above, or over, or greater, or up, or beyond, and above, and up, and higher, and over, plus, or even higher, or maybe higher, or maybe more, or possibly higher, or possibly more, maybe higher, maybe more, possibly higher, possibly more, if not higher, if not more, or worse, at least, minimum, and beyond, probably higher, probably more, likely higher, and rising off the chart, or probably higher, or probably more, or bigger`)
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
