package post

import (
	"strconv"
	"strings"
)

// markClass is the sort of a point in time, or of a vessel.
type markClass uint8

const (
	markNow     markClass = iota // key orders within now: before a change, this morning, today
	markOld                      // yesterday, last week
	markDay                      // day of the cycle
	markDate                     // key month, day; alt day, month
	markWeekday                  // key 0 Monday to 6 Sunday
	markClock                    // minutes
	markHours                    // hours since something
	markRow                      // a row of a table without a date
	markVessel                   // one of several tanks
)

// mark is a point in time as the post names it.
type mark struct {
	class    markClass
	key, alt float64
	past     bool // "on Monday", "last Monday"
	order    byte // dates that can be read one way only: 'm' month first, 'd' day first
	name     string
}

// relative are words for points in time before or around now.
var relative = map[string]mark{}

var weekdays = map[string]int{}

var months = map[string]int{}

func init() {
	for _, e := range []struct {
		mark  mark
		words string
	}{
		{mark{class: markNow, key: 0.5}, `today, todays, currently, at the moment, at present, presently, current, tonight, tonights, this evening, this evenings, heute, as of today, today so far, most recent, most recently, recent, newest, at this point, at this moment`},
		{mark{class: markNow, key: 0.6}, `now, right now, just now, as of now, as of this morning, rn, atm, jetzt, as of tonight, present, present day, right this minute, as we speak`},
		{mark{class: markNow, key: 0.4}, `in the morning, this morning, this mornings, this am, earlier today, morning, latest, just tested, just checked, this week, this weekend`},
		{mark{class: markNow, key: 0.48}, `this afternoon, afternoon, evening, night, in the afternoon, in the evening, at night`},
		{mark{class: markNow, key: 0.1}, `last test, last reading, last readings, last results, last checked, last i checked, last tested, when i last tested, when i last checked`},
		{mark{class: markNow, key: 0.45}, `later, later on, next day, the next day, the next morning, next morning, afterwards, a day later, the day after, a week later, this time, 24 hours on, the following day, the following morning`},
		{mark{class: markNow, key: -0.5}, `before water change, before the water change, before a water change, before my water change, before wc, before the wc, pre wc, pre water change, before pwc, before the pwc, before changing water, before changing the water, pre change, before dosing, before dose, before the dose, pre dose, prior to the water change, prior to water change, before todays water change, before`},
		{mark{class: markNow, key: 0.2}, `after water change, after the water change, after a water change, after my water change, after wc, after the wc, post wc, post water change, after pwc, after the pwc, after changing the water, post change, after todays water change`},
		{mark{class: markOld, key: 1}, `yesterday, yesterdays, last night, last nights, yesterday morning, yesterday evening, yesterday afternoon, yesterday night, gestern`},
		{mark{class: markOld, key: 2}, `day before yesterday, the day before yesterday, the day before, the other day, couple days ago, a couple days ago, couple of days ago, a couple of days ago, few days ago, a few days ago, several days ago, a few days back, few days back, earlier this week, some days ago, two nights ago, the previous day, a day ago, one day ago`},
		{mark{class: markOld, key: 7}, `last week, last weeks, a week ago, one week ago, previous week, last weekend, a week back, about a week ago, over a week ago, the week before, the previous week`},
		{mark{class: markOld, key: 14}, `two weeks ago, a couple weeks ago, a couple of weeks ago, couple weeks ago, few weeks ago, a few weeks ago, last month, a month ago, last year, months ago, a fortnight ago, weeks ago, days ago, years ago`},
		{mark{class: markOld, key: 20}, `previously, previous, previous reading, previous readings, previous test, before that, earlier, initially, originally, at first, at the start, at the beginning, in the beginning, started at, started out at, started with, started out with, started off at, started off with, starting at, starting with, starting point, used to be, back then, back when, until now, up until now, up to now, until yesterday, until recently, at one point, last time, at setup, to begin with, to start with, at the outset, in the past, formerly, prior reading, prior test, prior, earlier on, first reading, first test, at its peak, at the peak, at peak, had peaked at, peaked at, peaked, back in, old reading, once was, not long ago, the time before, when i started, when we started, in week one, initial`},
	} {
		for w := range wordSet(e.words) {
			relative[w] = e.mark
		}
	}
	for i, list := range [...]string{"monday,mondays,mon,montag", "tuesday,tuesdays,tue,tues,dienstag", "wednesday,wednesdays,wed,weds,mittwoch", "thursday,thursdays,thu,thur,thurs,donnerstag", "friday,fridays,fri,freitag", "saturday,saturdays,sat,samstag", "sunday,sundays,sun,sonntag"} {
		for w := range wordSet(list) {
			weekdays[w] = i
		}
	}
	for i, list := range [...]string{"january,jan", "february,feb", "march,mar", "april,apr", "may", "june,jun", "july,jul", "august,aug", "september,sep,sept", "october,oct", "november,nov", "december,dec"} {
		for w := range wordSet(list) {
			months[w] = i + 1
		}
	}
}

// markAt reads a point in time at token i and adds it.
func (p *parser) markAt(i int) int {
	m, n := p.timeAt(i)
	if n == 0 {
		if m, n = p.vesselAt(i); n == 0 {
			return 0
		}
	}
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
	case "\n", "|", "\t", "(", "[":
		return true
	case "-", ";", "–":
		return i < 2 || p.text(i-2) == "\n" || p.text(i-1) == ";"
	}
	return false
}

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
		if v, ok := p.whole(i + 1); ok && v < 200 && p.text(i-1) != "a" && p.text(i-1) != "per" && p.text(i-1) != "last" {
			if _, u := p.unitAt(i + 2); u == 0 {
				f := 7.0
				if t == "month" {
					f = 30
				}
				return mark{class: markDay, key: float64(v) * f, alt: -1}, 2
			}
		}
	case "hour":
		if v, ok := p.whole(i + 1); ok {
			return mark{class: markHours, key: float64(v)}, 2
		}
	case "noon", "midday":
		return mark{class: markClock, key: 720}, 1
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
	if p.text(i) == "d" {
		if !p.glued(j) || !p.opens(i) && p.text(i-1) != "," {
			return m, 0
		}
	} else if p.text(j) == "#" || p.text(j) == ":" || p.text(j) == "number" || p.text(j) == "no" {
		j++
	}
	if v, ok := p.whole(j); ok && v < 2000 {
		return mark{class: markDay, key: float64(v)}, j + 1 - i
	}
	if v, k := p.numeral(j); k > 0 && p.kindAt(j) == word && p.text(j) != "a" && v >= 1 && v == float64(int(v)) {
		return mark{class: markDay, key: v}, j + k - i
	}
	return m, 0
}

// timeNumber reads dates, clock times, "12th day", "12 days in", "3 days ago".
func (p *parser) timeNumber(i, v int) (m mark, n int) {
	j := i + 1
	if s := p.text(j); p.glued(j) && (s == "st" || s == "nd" || s == "rd" || s == "th") {
		j++
		if p.text(j) == "day" {
			return mark{class: markDay, key: float64(v)}, j + 1 - i
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

// agoAt reads "3 days ago", "24 hours later", "12 days in" after the k tokens of
// the number v.
func (p *parser) agoAt(i, k, v int) (m mark, n int) {
	j := i + k
	if p.text(j) == "-" || p.text(j) == "to" || p.text(j) == "or" {
		if _, ok := p.whole(j + 1); ok {
			j += 2
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
			return mark{class: markNow, key: 0.3}, j + 1 - i
		}
		return mark{class: markOld, key: float64(v)}, j + 1 - i
	case "later", "after", "on":
		if p.text(j) == "later" || p.text(j+1) == "dosing" {
			return mark{class: markNow, key: 0.45}, j + 1 - i
		}
	case "in", "into":
		if strings.HasPrefix(unit, "day") && (p.text(j) == "into" || p.kindAt(j+1) != word || p.text(j+1) == "and" || p.text(j+1) == "to" || p.text(j+1) == "now" || p.text(j+1) == "on" || p.text(j+1) == "with") && p.kindAt(j+1) != number {
			return mark{class: markDay, key: float64(v)}, j + 1 - i
		}
	}
	return m, 0
}

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
	placed := p.opens(i) || before == "on" || before == "from" || before == "date" || before == "dated" || before == "started" || before == "." && p.named(i+3) || before == "of" && p.text(i-2) == "as" || p.text(i-1) == ":" && p.text(i-2) == "date" || p.last().sort == sMark
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
	if p.opens(i) && p.text(i+1) == "." && (p.text(i+2) == ":" || p.text(i+2) == "-") {
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
	before := p.text(i - 1)
	if len(p.text(j)) < 6 && !last && before != "on" { // mon, sun, sat are words and names too
		counted := d < 5 && p.kindAt(j+1) == number
		if after := p.text(j + 1); !counted && (!p.opens(i) && after != ":" || after != ":" && after != "-" && after != "," && after != "|" && after != "\t" && after != "." && after != "\n" && p.kindAt(j+1) != number) {
			if _, name := p.nameAt(j + 1); name == 0 || !p.opens(i) {
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
