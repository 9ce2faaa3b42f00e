package post

import (
	"slices"
	"strconv"
	"strings"
)

// markAt reads a point in time at token i and adds it.
func (p *parser) markAt(i int) int {
	m, n := p.timeAt(i)
	if n == 0 {
		if m, n = p.vesselAt(i); n == 0 {
			return 0
		}
	}
	m.ahead = m.class == markDay && (p.text(i-1) == "at" || p.text(i-1) == "around")
	m.on = p.text(i-1) == "on"
	m.done = m.class == markDay && m.on && p.clauseBack(func(q *piece) bool { return q.cue == cueDose || q.cue == cueWas })
	m.name = p.src.text[p.toks[i].from:p.toks[i+n-1].to]
	if p.noPoint(i, i+n, m) {
		return p.add(i, n, piece{sort: sFree})
	}
	return p.add(i, n, piece{sort: sMark, mark: &m})
}

// noPoint reports whether the words around the mark of tokens [i, j) make it a
// span or an event: "since yesterday", "same as last week", "after Tuesday's dose".
func (p *parser) noPoint(i, j int, m mark) bool {
	if m.class == markNow || m.class == markVessel || m.class == markClock {
		return p.text(i-1) == "until" || p.text(i-1) == "til" || p.text(i-1) == "by"
	}
	if p.text(i-1) == "least" && p.text(i-2) == "at" && (p.text(i-3) == "until" || p.text(i-3) == "till") {
		return true
	}
	switch p.text(i - 1) {
	case "since", "than", "as", "every", "until", "till", "like", "by", "for", "next", "per", "each":
		return true
	case "the":
		if p.text(i-2) == "since" || p.text(i-2) == "in" && m.class == markOld || p.text(i-2) == "over" {
			return true
		}
	case "from":
		if m.class == markOld && !words[p.text(i-2)].free && words[p.text(i-2)].cue != cueTest {
			return true
		}
		if m.class == markOld && words[p.text(i-2)].cue == cueChange {
			return true
		}
	}
	if own := strings.HasSuffix(p.text(j-1), "s") && (m.class == markOld || m.class == markWeekday) && strings.HasSuffix(m.name, "s"); own {
		_, name := p.nameAt(j)
		return words[p.text(j)].cue != cueTest && name == 0 && p.text(j) != ":" && p.text(j) != "reading" && p.text(j) != "readings" && p.text(j) != "results" && p.text(j) != "result" && strings.Contains(m.name, "'")
	}
	return false
}

// whole reads token i as a whole number of at most 4 digits.
func (p *parser) whole(i int) (int, bool) {
	if p.kindAt(i) != number || len(p.text(i)) > 4 {
		return 0, false
	}
	v, err := strconv.Atoi(p.text(i))
	return v, err == nil
}

// opens reports whether token i begins a line, a cell or a bracket.
func (p *parser) opens(i int) bool {
	switch p.text(i - 1) {
	case "\n", "//", "|", "\t", "(", "[":
		return true
	case "/":
		return i > 0 && p.toks[i].gap > 0 && p.toks[i-1].gap > 0
	case "-", ";", "–":
		return i < 2 || p.text(i-2) == "\n" || p.text(i-1) == ";"
	}
	return false
}

var ordinals = []string{"first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth"}

func (p *parser) timeAt(i int) (m mark, n int) {
	t := p.text(i)
	if v, ok := p.whole(i); ok {
		return p.timeNumber(i, v)
	}
	if p.kindAt(i) == number {
		return p.dottedDate(i)
	}
	if p.kindAt(i) != word {
		return m, 0
	}
	if n := slices.Index(ordinals, t); n >= 0 && p.text(i+1) == "day" && p.text(i+2) == ":" {
		return mark{class: markDay, key: float64(n + 1)}, 2
	}
	switch t {
	case "day", "d", "tag", "dag":
		if m, n := p.dayAt(i); n > 0 {
			return m, n
		}
	case "days": // days 1-5
		if _, ok := p.whole(i + 1); ok && (p.text(i+2) == "-" || p.text(i+2) == "to" || p.text(i+2) == "–") {
			if v, ok := p.whole(i + 3); ok {
				return mark{class: markDay, key: float64(v), alt: -1}, 4
			}
		}
	case "week", "wk", "month":
		if m, n := p.weekAt(i); n > 0 {
			return m, n
		}
	case "hour":
		if v, ok := p.whole(i + 1); ok {
			return mark{class: markHours, key: float64(v)}, 2
		}
	case "after": // "80 before the change, 20 after"
		if _, k := p.eventAt(i); k == 0 && p.beforeSaid() && p.kindAt(i+1) != number {
			return mark{class: markNow, key: 0.2}, 1
		}
	case "noon", "midday":
		return mark{class: markClock, key: 720}, 1
	}
	if t == "in" && months[p.text(i+1)] > 0 && len(p.text(i+1)) > 3 && p.kindAt(i+2) != number {
		return mark{class: markOld, key: 20}, 2 // "In January the pH was 8"
	}
	if v, k := p.numeral(i); k > 0 && v >= 1 && v == float64(int(v)) {
		if m, n := p.agoAt(i, k, int(v)); n > 0 {
			return m, n
		}
	}
	for _, q := range p.phrases(i) {
		if r, ok := relative[q.key]; ok {
			m, n = r, q.n
		}
	}
	if e, k := p.eventAt(i); k > n {
		return e, k
	}
	if n > 0 && !p.plainWord(i, n) {
		return m, n
	}
	n = 0
	if mon, ok := months[t]; ok {
		j := i + 1
		if p.text(j) == "." || p.text(j) == "-" && p.glued(j) {
			j++
		}
		if d, ok := p.whole(j); ok && d >= 1 && d <= 31 {
			j++
			if s := p.text(j); p.glued(j) && (s == "st" || s == "nd" || s == "rd" || s == "th") {
				j++
			}
			if y, ok := p.whole(j + 1); ok && p.text(j) == "," && y > 1990 {
				j += 2
			} else if y, ok := p.whole(j); ok && y > 1990 {
				j++
			}
			return mark{class: markDate, key: float64(mon*100 + d), alt: float64(mon*100 + d)}, j - i
		}
	}
	return p.weekdayAt(i)
}

// beforeSaid reports whether "before" a change was told shortly before.
func (p *parser) beforeSaid() bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-14); j-- {
		if q := &p.out[j]; q.sort == sMark && q.mark.class == markNow && q.mark.key < 0 {
			return true
		}
	}
	return false
}

// plainWord reports whether a word of time is used in another sense:
// "before" alone without "was", "morning" without a colon, "later" in "see you later".
func (p *parser) plainWord(i, n int) bool {
	if n > 1 {
		return false
	}
	after := p.text(i + 1)
	switch p.text(i) {
	case "before":
		return after != ":" && after != ")" && after != "," && after != "." && after != "\n" && after != "-"
	case "morning", "afternoon", "evening", "night", "recent", "present", "later", "initial", "prior", "earlier":
		_, name := p.nameAt(i + 1)
		if t := p.text(i); t == "morning" || t == "afternoon" || t == "evening" || t == "night" {
			return after != ":" && !(p.opens(i) && (after == "-" || after == "\n" || name > 0))
		}
		return name == 0 && after != ":" && after != "," && words[after].cue != cueTest && words[after].cue != cueIs && words[after].cue != cueWas
	case "previous":
		return words[after].cue == cueEvent || after == "post" || after == "tank"
	}
	return false
}

func (p *parser) dayAt(i int) (m mark, n int) {
	switch p.text(i - 1) {
	case "a", "per", "each", "every", "one", "next", "same", "last":
		return m, 0
	}
	j := i + 1
	if p.text(j) == `"` && p.text(j+1) == ":" { // {"day":7}
		j++
	}
	if p.text(i) == "d" {
		if !p.glued(j) || !p.opens(i) && p.text(i-1) != "," && !p.dayLetter {
			return m, 0
		}
	} else if p.text(j) == "#" || p.text(j) == ":" || p.text(j) == "number" || p.text(j) == "no" {
		j++
	}
	if v, ok := p.whole(j); ok && v < 2000 {
		p.dayLetter = p.dayLetter || p.text(i) == "d"
		return mark{class: markDay, key: float64(v)}, j + 1 - i
	}
	if v, k := p.numeral(j); k > 0 && p.kindAt(j) == word && p.text(j) != "a" && v >= 1 && v == float64(int(v)) {
		return mark{class: markDay, key: v}, j + k - i
	}
	return m, 0
}

// weekAt reads "week 2", "month one", which order readings and are no day.
func (p *parser) weekAt(i int) (m mark, n int) {
	switch p.text(i - 1) {
	case "a", "per", "last":
		return m, 0
	}
	v, k := 0.0, 1
	if w, ok := p.whole(i + 1); ok {
		v = float64(w)
	} else if p.kindAt(i+1) == word && p.text(i+1) != "a" {
		v, k = p.numeral(i + 1)
	}
	if _, u := p.unitAt(i + 1 + k); u > 0 && !p.glued(i+2+k) || k == 0 || v < 1 || v >= 200 || v != float64(int(v)) {
		return m, 0
	}
	f := 7.0
	if p.text(i) == "month" {
		f = 30
	}
	return mark{class: markDay, key: v * f, alt: -1}, 1 + k
}

// timeNumber reads dates, clock times, "12th day", "12 days in", "3 days ago".
func (p *parser) timeNumber(i, v int) (m mark, n int) {
	j := i + 1
	if s := p.text(j); p.glued(j) && (s == "st" || s == "nd" || s == "rd" || s == "th") {
		j++
		if p.text(j) == "day" {
			return mark{class: markDay, key: float64(v)}, j + 1 - i
		}
		if p.text(i-1) == "the" && p.text(i-2) == "on" && v >= 1 && v <= 31 && p.text(j) != "of" && months[p.text(j)] == 0 && p.text(j) != "day" {
			return mark{class: markMonthDay, key: float64(v), past: true}, j - i // "on the 2nd"
		}
		if v >= 1 && v <= 31 && (p.text(j) == ":" && (p.opens(i) || p.headed(i)) || p.text(j) == "(" && p.headed(i)) {
			return mark{class: markMonthDay, key: float64(v)}, j - i
		}
		if p.text(j) == "of" {
			j++
		}
	}
	if p.text(j) == "-" && p.glued(j) && p.glued(j+1) && months[p.text(j+1)] > 0 {
		j++
	}
	if mon, ok := months[p.text(j)]; ok && v >= 1 && v <= 31 && p.kindAt(j) == word {
		if p.text(j+1) == "." {
			j++
		}
		return mark{class: markDate, key: float64(mon*100 + v), alt: float64(mon*100 + v)}, j + 1 - i
	}
	if m, n := p.slashDate(i, v); n > 0 {
		return m, n
	}
	if m, n := p.clockAt(i, v); n > 0 {
		return m, n
	}
	return p.agoAt(i, 1, v)
}

// headed reports whether only words and commas stand before token i on its line, at most
// three: "UPDATE 6th:", "Original post, 1st:".
func (p *parser) headed(i int) bool {
	for j := i - 1; j >= i-4; j-- {
		switch {
		case p.text(j) == "\n":
			return true
		case p.text(j) != "," && p.kindAt(j) != word:
			return false
		case isWeekday(p.text(j)): // "Mon 2nd:" has its order already
			return false
		}
	}
	return false
}

func isWeekday(t string) bool {
	_, ok := weekdays[t]
	return ok
}
