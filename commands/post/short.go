package post

import "strings"

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
		return !strict || after != "-" || p.text(i) == "a" && p.glued(i+2) && p.kindAt(i+2) == number && p.text(i+4) == "-"
	}
	if p.text(i) == "t" && p.kindAt(i+1) == number && !p.glued(i+1) && p.names() > 1 {
		v, odd := readNumber(p.text(i + 1))
		return odd == "" && v >= livingLow && v <= livingHigh
	}
	if p.text(i) == "t" && after == "(" {
		u, _ := p.unitAt(i + 2)
		return u == celsius || u == fahrenheit || u == degrees
	}
	if strict {
		return p.text(i) == "a" && (start && p.beforeNitrite(i+1) || after == "is" && p.isPPM(i+2))
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

// names counts the names on the line so far.
func (p *parser) names() (n int) {
	for k := len(p.out) - 1; k >= 0 && p.out[k].sort != sLine; k-- {
		if p.out[k].sort == sLabel {
			n++
		}
	}
	return n
}

// beforeNitrite reports whether an amount stands at token i and, behind a sign,
// an entry of nitrite: the "a" of "A 0.25 / NI 0" is ammonia.
func (p *parser) beforeNitrite(i int) bool {
	if p.kindAt(i) != number {
		return false
	}
	j := i + 1
	if u, n := p.unitAt(j); u == ppm {
		j += n
	}
	switch p.text(j) {
	case "/", ",", ";", "|", "-", "\n":
	default:
		return false
	}
	s, short := shortLabels[p.text(j+1)]
	k, n := p.nameAt(j + 1)
	return short && !s.strict && s.kind == Nitrite || n > 0 && k == Nitrite
}

// isPPM reports whether a number of ppm stands at token i: "my A is 1ppm".
func (p *parser) isPPM(i int) bool {
	u, _ := p.unitAt(i + 1)
	return p.kindAt(i) == number && u == ppm
}

// clockNumber reports whether token i may be an hour before "am".
func (p *parser) clockNumber(i int) bool {
	t := p.text(i)
	return len(t) <= 2 && t != "0" && !strings.ContainsAny(t, ".,") && p.text(i-1) != ":" && !p.labelled()
}
