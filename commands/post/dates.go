package post

import (
	"strconv"
	"strings"
)

// slashDate reads 2026-02-11, 3/15/26 and, at the start of a line or after
// "on", 3/15.
func (p *parser) slashDate(i, v int) (m mark, n int) {
	s := p.text(i + 1)
	if s != "/" && s != "-" || !p.glued(i+1) || !p.glued(i+2) {
		return m, 0
	}
	b, ok := p.whole(i + 2)
	if !ok {
		return m, 0
	}
	c, three := p.whole(i + 4)
	three = three && p.text(i+3) == s && p.glued(i+3) && p.glued(i+4)
	if three && v >= 1990 && v < 2100 && b >= 1 && b <= 12 && c >= 1 && c <= 31 {
		key := float64(v*10000 + b*100 + c)
		return mark{class: markDate, key: key, alt: key}, 5
	}
	if v < 1 || b < 1 || v > 31 || b > 31 || v > 12 && b > 12 {
		return m, 0
	}
	m = mark{class: markDate, key: float64(v*100 + b), alt: float64(b*100 + v)}
	if v > 12 {
		m.key, m.order = m.alt, 'd'
	}
	if b > 12 {
		m.alt, m.order = m.key, 'm'
	}
	before := p.text(i - 1)
	placed := p.opens(i) || before == "on" || before == "from" || before == "date" || before == "dated" || before == "started" || (before == "." || before == "," || before == ";") && p.named(i+3) || before == "of" && p.text(i-2) == "as" || p.text(i-1) == ":" && (p.text(i-2) == "date" || p.named(i+3)) || p.last().sort == sMark
	if three {
		n = 5
		year := c >= 1990 && c < 2100 || c >= 20 && c < 40 && len(p.text(i+4)) == 2
		if c >= 1990 && year {
			return p.withYear(m, c), n
		}
		if !year || !placed || p.text(i+5) == "(" || p.text(i+5) == "\n" && p.lastName() {
			return mark{}, 0
		}
		return p.withYear(m, 2000+c), n
	}
	if s != "/" || !placed || p.text(i+3) == "/" || p.text(i+3) == "\n" && p.lastName() {
		return mark{}, 0
	}
	if u, k := p.unitAt(i + 3); k > 0 && u != clock {
		return mark{}, 0
	}
	return m, 3
}

// named reports whether the name of a test stands at token i.
func (p *parser) named(i int) bool {
	_, n := p.nameAt(i)
	_, short := shortLabels[p.text(i)]
	return n > 0 || short
}

func (p *parser) withYear(m mark, y int) mark {
	m.key += float64(y * 10000)
	m.alt += float64(y * 10000)
	return m
}

// lastName reports whether the last piece before new lines is a name of a test.
func (p *parser) lastName() bool {
	for j := len(p.out) - 1; j >= 0; j-- {
		switch p.out[j].sort {
		case sLine, sLink, sDash:
		default:
			return p.out[j].sort == sLabel
		}
	}
	return false
}

// dottedDate reads 15.03.2026 and, at the start of a line, "15.3.:".
func (p *parser) dottedDate(i int) (m mark, n int) {
	parts := strings.Split(p.text(i), ".")
	if len(parts) < 2 || len(parts) > 3 || strings.Contains(p.text(i), ",") {
		return m, 0
	}
	d, err1 := strconv.Atoi(parts[0])
	mon, err2 := strconv.Atoi(parts[1])
	if err1 != nil || err2 != nil || d < 1 || d > 31 || mon < 1 || mon > 12 {
		return m, 0
	}
	m = mark{class: markDate, key: float64(mon*100 + d), alt: float64(mon*100 + d)}
	if len(parts) == 3 {
		y, err := strconv.Atoi(parts[2])
		if err != nil || len(parts[2]) != 2 && len(parts[2]) != 4 || y > 2100 {
			return mark{}, 0
		}
		if y < 100 {
			y += 2000
		}
		return p.withYear(m, y), 1
	}
	if p.opens(i) && p.text(i+1) == "." && (p.text(i+2) == ":" || p.text(i+2) == "-" || p.named(i+2)) {
		return m, 2
	}
	return mark{}, 0
}

// clockAt reads 8am, 8:30, 20:15.
func (p *parser) clockAt(i, v int) (m mark, n int) {
	minutes, j := v*60, i+1
	full := false
	if p.text(j) == ":" && p.glued(j) && p.glued(j+1) && len(p.text(j+1)) == 2 {
		if b, ok := p.whole(j + 1); ok && b < 60 && v < 24 {
			minutes, j, full = v*60+b, j+2, true
		}
	}
	switch s := p.text(j); {
	case (s == "am" || s == "pm") && v >= 1 && v <= 12 && !p.labelled():
		if _, isName := shortLabels[p.text(j)]; isName && !full && !p.glued(j) && (p.kindAt(j+1) == number || p.text(j+1) == "/") && p.last().sort != sFree && !p.opens(i) {
			return m, 0
		}
		if v == 12 {
			minutes -= 720
		}
		if s == "pm" {
			minutes += 720
		}
		return mark{class: markClock, key: float64(minutes)}, j + 1 - i
	case full && !p.labelled():
		return mark{class: markClock, key: float64(minutes)}, j - i
	}
	return m, 0
}

func (p *parser) weekdayAt(i int) (m mark, n int) {
	t := p.text(i)
	j := i
	last := t == "last" || t == "this" || t == "this past" || t == "past"
	if last {
		j++
	}
	d, ok := weekdays[p.text(j)]
	if !ok {
		return m, 0
	}
	if p.text(j+1) == "before" && p.text(j+2) == "last" {
		return mark{class: markOld, key: 10}, j + 3 - i
	}
	before := p.text(i - 1)
	if len(p.text(j)) < 6 && !last && before != "on" { // mon, sun, sat are words and names too
		counted := d < 5 && p.kindAt(j+1) == number
		if after := p.text(j + 1); !counted && (!p.opens(i) && after != ":" || after != ":" && after != "-" && after != "," && after != "|" && after != "\t" && after != "." && after != "\n" && p.kindAt(j+1) != number) {
			if listed := before == "," || before == ";" || before == "/"; !p.named(j+1) || !p.opens(i) && !listed {
				return m, 0
			}
		}
	}
	m = mark{class: markWeekday, key: float64(d), past: last && t != "this" || before == "on"}
	switch p.text(j + 1) {
	case "morning", "night", "evening", "afternoon":
		j++
	}
	return m, j + 1 - i
}
