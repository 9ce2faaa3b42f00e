package post

import "strings"

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

// shorthand reads what a post means by its short names: "(am=ammonia ni=nitrite na=nitrate)".
func (p *parser) shorthand(i int) int {
	if p.text(i) != "(" {
		return 0
	}
	pairs := 0
	for j := i + 1; ; {
		_, n := p.nameAt(j + 2)
		if p.kindAt(j) != word || p.text(j+1) != "=" || n == 0 {
			return 0
		}
		pairs++
		if j += 2 + n; p.text(j) == "," || p.text(j) == ";" {
			j++
		}
		if p.text(j) == ")" && pairs > 1 {
			return p.add(i, j+1-i, piece{sort: sFree})
		}
	}
}

// chartSteps reads the steps of a chart in brackets behind a name: "NO2 (0/1/5/10)", "NITRITE (chart 0-5)".
func (p *parser) chartSteps(i int) int {
	if p.text(i) != "(" || p.last().sort != sLabel {
		return 0
	}
	if w := p.text(i + 1); w == "chart" || w == "scale" || w == "card" || w == "range" {
		ends := 0
		for j := i + 2; j < i+8; j++ {
			switch t := p.text(j); {
			case t == ")" && ends == 2:
				return p.add(i, j+1-i, piece{sort: sFree})
			case p.kindAt(j) == number:
				ends++
			case t != "-" && t != "–" && t != "to" && t != ":" && t != "is" && t != "goes":
				return 0
			}
		}
		return 0
	}
	steps, last := 0, -1.0
	for j := i + 1; p.kindAt(j) == number; j += 2 {
		v, odd := readNumber(p.text(j))
		if odd != "" || v <= last {
			return 0
		}
		steps, last = steps+1, v
		end := j + 1
		unit := noUnit
		if u, m := p.unitAt(end); m > 0 && u == ppm && p.text(end+m) == ")" {
			end, unit = end+m, u
		}
		switch p.text(end) {
		case ")":
			if steps < 3 {
				return 0
			}
			p.last().unit = max(p.last().unit, unit)
			return p.add(i, end+1-i, piece{sort: sFree})
		case "/", "-", ",":
		default:
			return 0
		}
	}
	return 0
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

// afterIs reports whether a name and a link or verb come right before.
func (p *parser) afterIs() bool {
	if len(p.out) < 1 {
		return false
	}
	l := p.last()
	for j := len(p.out) - 2; l.cue == cueIs && j >= max(0, len(p.out)-4); j-- {
		if p.out[j].cue == cueFix {
			return true // "two no wait it's one"
		}
	}
	return (l.sort == sLink || l.cue == cueIs || l.cue == cueTo || l.word == "about" || l.word == "around") && p.labelledLoosely()
}

// endsAt reports whether a list goes on or ends at token i.
func (p *parser) endsAt(i int) bool {
	for _, m := range p.phrases(i) {
		if overTail[m.key] || underTail[m.key] || vagueTail[m.key] {
			return true
		}
	}
	switch p.text(i) {
	case ",", ".", ";", "/", "\n", "and", "|", ")", "!", "&", "um", "uh", "erm", "er":
		return true
	case "to", "or", "-":
		_, n := p.numeral(i + 1)
		return n > 0 || p.kindAt(i+1) == number
	}
	_, n := p.nameAt(i)
	return n > 0 || p.forName(i)
}

// forName reads "for nitrite", "on the nitrite" at token i.
func (p *parser) forName(i int) bool {
	if t := p.text(i); t == "to" || t == "or" { // "twenty to forty for nitrate"
		if _, n := p.numeral(i + 1); n > 0 {
			i += 1 + n
		}
	}
	if t := p.text(i); t != "for" && t != "on" {
		return false
	}
	j := i + 1
	for p.text(j) == "the" || p.text(j) == "my" {
		j++
	}
	_, n := p.nameAt(j)
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
