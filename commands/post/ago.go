package post

import "strings"

// agoAt reads "3 days ago", "24 hours later", "12 days in" after the k tokens of
// the number v.
func (p *parser) agoAt(i, k, v int) (m mark, n int) {
	j := i + k
	if p.text(j) == "-" || p.text(j) == "to" || p.text(j) == "or" {
		if _, ok := p.whole(j + 1); ok {
			j += 2
		}
	}
	if day := strings.TrimSuffix(p.text(j), "s"); day != p.text(j) && p.text(j+1) == "ago" {
		if _, ok := weekdays[day]; ok { // "two Sundays ago"
			return mark{class: markOld, key: float64(7 * v)}, j + 2 - i
		}
	}
	u, l := p.unitAt(j)
	if u != duration || l == 0 {
		return m, 0
	}
	unit := p.text(j)
	j += l
	if before := p.text(i - 1); strings.HasPrefix(unit, "h") && (before == "at" || before == "after" || before == "by" || p.text(j) == ":") && p.text(j) != "later" && p.text(j) != "ago" {
		return mark{class: markHours, key: float64(v)}, j - i
	}
	switch p.text(j) {
	case "ago", "back", "prior", "earlier", "before":
		if strings.HasPrefix(unit, "h") || strings.HasPrefix(unit, "mi") {
			return mark{class: markNow, key: 0.36}, j + 1 - i
		}
		return mark{class: markOld, key: float64(v)}, j + 1 - i
	case "later", "after", "on":
		if p.text(j) == "later" || p.text(j+1) == "dosing" {
			return mark{class: markNow, key: 0.45}, j + 1 - i
		}
	case "since":
		if strings.HasPrefix(unit, "day") && p.beginning(j+1) {
			return mark{class: markDay, key: float64(v)}, j + 1 - i
		}
	case "in", "into":
		if strings.HasPrefix(unit, "day") && (p.text(j) == "into" || p.kindAt(j+1) != word || p.text(j+1) == "and" || p.text(j+1) == "to" || p.text(j+1) == "now" || p.text(j+1) == "on" || p.text(j+1) == "with") && p.kindAt(j+1) != number {
			return mark{class: markDay, key: float64(v)}, j + 1 - i
		}
	}
	return m, 0
}

// beginning reads "I started", "starting", "the start", "set up" at token i.
func (p *parser) beginning(i int) bool {
	switch p.text(i) {
	case "i", "we", "the", "my":
		i++
	}
	switch p.text(i) {
	case "started", "starting", "start", "began", "beginning", "setup", "filling", "filled", "set":
		return true
	}
	return false
}
