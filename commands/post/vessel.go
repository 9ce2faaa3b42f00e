package post

// vesselAt reads "tank 2", "Tank B:", and at the start of a line "20g:".
func (p *parser) vesselAt(i int) (m mark, n int) {
	t := p.text(i)
	switch {
	case t == "tank":
		j := i + 1
		if p.text(j) == "#" || p.text(j) == "no" {
			j++
		}
		v, ok := p.whole(j)
		if ok && v >= 1 && v < 20 {
			if _, u := p.unitAt(j + 1); u == 0 {
				return mark{class: markVessel, key: float64(v)}, j + 1 - i
			}
		}
		if s := p.text(j); len(s) == 1 && s[0] >= 'a' && s[0] <= 'e' && (p.text(j+1) == ":" || p.text(j+1) == "-" || p.text(j+1) == "\n") {
			return mark{class: markVessel, key: float64(s[0])}, j + 1 - i
		}
		if s := p.text(j); s == "one" || s == "two" || s == "three" {
			return mark{class: markVessel, key: numerals[s]}, j + 1 - i
		}
	case (t == "first" || t == "second" || t == "big" || t == "small" || t == "large" || t == "little" || t == "third" || t == "shrimp" || t == "betta") && p.text(i+1) == "tank" && (p.text(i+2) == ":" || p.text(i+2) == "-" || p.text(i+2) == "\n"):
		return mark{class: markVessel, key: float64(len(t)) + float64(t[0])*100}, 2
	case p.kindAt(i) == number && p.opens(i):
		j := i + 1
		if p.text(j) == "-" {
			j++
		}
		u, k := p.unitAt(j)
		if u != measure || k == 0 {
			return m, 0
		}
		j += k
		for p.text(j) == "tank" || p.text(j) == "long" || p.text(j) == "cube" {
			j++
		}
		v, odd := readNumber(p.text(i))
		if odd == "" && (p.text(j) == ":" || p.text(j) == "\n" && p.text(j-1) == "tank" && p.opens(i)) {
			return mark{class: markVessel, key: 100000 + v}, j - i
		}
	}
	return m, 0
}
