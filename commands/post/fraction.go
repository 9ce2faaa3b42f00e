package post

// middle reads "between", "halfway between", "in the middle of" at token i.
func (p *parser) middle(i int) (n int) {
	for _, m := range p.phrases(i) {
		if middles[m.key] {
			n = m.n
		}
	}
	return n
}

var middles = wordSet(`between, btwn, betw, entre, zwischen, tussen, mellan, inbetween, in between, halfway between, half way between, midway between, somewhere between, in the middle of, right in the middle of, in the middle between, right between, exactly between`)

// fraction reads "1/4 ppm", "1/2 of a ppm".
func (p *parser) fraction(i int) (v float64, n int) {
	v, n = p.part(i)
	if n == 0 {
		return 0, 0
	}
	for p.text(i+n) == "of" || p.text(i+n) == "a" {
		n++
	}
	if u, m := p.unitAt(i + n); m > 0 && (u == ppm || u == measure) {
		return v, n
	}
	return 0, 0
}

// part reads "1/2", "1/4", "3/4", "1/8" at token i.
func (p *parser) part(i int) (v float64, n int) {
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
	return v, 3
}
