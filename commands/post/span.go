package post

import "slices"

// span reads a second number after the amount a of the tokens [i, j): a range
// ("20-40", "20 to 40", "0 or 0.25", "0, maybe 0.25") or a change ("from 4 to
// 1"). done is true when the pieces have been added already.
func (p *parser) span(i, j int, a amount) (amount, int, bool) {
	t := p.text(j)
	switch {
	case t == "-" || t == "–" || t == "~" || t == "--":
		if p.last().sort == sDash && p.last2().sort == sAmount && t != "~" {
			return a, j, false
		}
		if p.toks[j].gap > 1 || j+1 < len(p.toks) && p.toks[j+1].gap > 1 {
			return a, j, false
		}
		b, m := p.core(j+1, false)
		if m == 0 || p.kindAt(j+1) == word || !agree(a, b) {
			return a, j, false
		}
		if n := p.text(j + 1 + m); n == t && p.kindAt(j+2+m) == number && t != "~" {
			return a, j, false
		}
		return join(a, b), j + 1 + m, false
	case t == "to" || t == "thru" || t == "through" || t == "till":
		b, m := p.core(j+1, true)
		if m == 0 || !agree(a, b) {
			return a, j, false
		}
		end := j + 1 + m
		changing := p.changing() || p.text(i-1) == "from" && p.changed()
		if p.ranging() || a.low <= b.low && !changing {
			return join(a, b), end, false
		}
		if a.low > b.low && !changing && !p.overTime(end) {
			return join(a, b), end, false
		}
		a.change, b.change = -1, 1
		if a.unit == noUnit {
			a.unit = b.unit
		}
		n := p.putAmount(i, j, a)
		p.add(i+n, 1, piece{sort: sFree, cue: cueTo})
		end = p.tail(end, &b)
		return a, j + 1 + p.putAmount(j+1, end, b), true
	}
	if t == "/" && p.ranging() {
		if b, m := p.core(j+1, false); m > 0 && p.kindAt(j+1) == number && agree(a, b) && a.low < b.low && p.text(j+1+m) != "/" {
			return join(a, b), j + 1 + m, false
		}
	}
	if t == "from" && p.clauseBack(func(q *piece) bool { return q.cue == cueSure }) {
		if b, m := p.core(j+1, true); m > 0 && agree(a, b) {
			return join(a, b), j + 1 + m, false
		}
	}
	if k := j; t == "±" || t == "+" && (p.text(j+1) == "/" || p.text(j+1) == "-") {
		for p.text(k) == "±" || p.text(k) == "+" || p.text(k) == "/" || p.text(k) == "-" {
			k++
		}
		if b, m := p.core(k, true); m > 0 && agree(a, b) && b.low <= a.low {
			return join(amount{low: a.low - b.low, unit: a.unit}, amount{low: a.low + b.low, high: a.low + b.low, unit: b.unit}), k + m, false
		}
	}
	k := j
	if p.text(k) == "," || p.text(k) == "(" || p.text(k) == "/" || p.text(k) == "-" {
		k++
	}
	if n := p.perhaps(k); n > 0 {
		for filling[p.text(k+n)] {
			n++
		}
		b, m := p.core(k+n, true)
		if m > 0 && agree(a, b) && b.low != a.low && !p.namesNext(k+n+m) {
			if a.low > b.low {
				a, b = b, a
			}
			c := join(a, b)
			end := k + n + m
			if p.text(j) == "(" && p.text(end) == ")" {
				end++
			}
			return c, end, false
		}
	}
	return a, j, false
}

// perhaps reads "or", "maybe", "or maybe", "could be" at token i.
func (p *parser) perhaps(i int) (n int) {
	for _, m := range p.phrases(i) {
		if m.key == "or" || words[m.key].cue == cueMaybe && m.key != "closer to" && m.key != "more like" && m.key != "if not" {
			n = m.n
		}
	}
	return n
}

// namesNext reports whether the name of a test follows at token i: "0, maybe
// 0.5 nitrite" is no range.
func (p *parser) namesNext(i int) bool {
	_, n := p.nameAt(i)
	return n > 0 && p.labelled()
}

// agree reports whether two amounts can be the ends of one range.
func agree(a, b amount) bool {
	if a.unit == noUnit || b.unit == noUnit || a.unit == b.unit {
		return true
	}
	scale := func(u unitOf) bool { return u == celsius || u == fahrenheit }
	return a.unit == degrees && scale(b.unit) || b.unit == degrees && scale(a.unit)
}

// join makes the range from a to b.
func join(a, b amount) amount {
	c := amount{low: a.low, high: b.high, unit: b.unit, odd: a.odd, asN: a.asN || b.asN}
	if c.odd == "" {
		c.odd = b.odd
	}
	if c.unit == noUnit || c.unit == degrees && a.unit != noUnit {
		c.unit = a.unit
	}
	if c.low > c.high {
		c.low, c.high = c.high, c.low
		if c.odd == "" {
			c.odd = "it falls from high to low; write a range from low to high, or just the newest value"
		}
	}
	if b.over && c.odd == "" {
		c.over, c.high = true, c.low
	}
	return c
}

// clauseBack calls f on the pieces of the clause so far, last first.
func (p *parser) clauseBack(f func(q *piece) bool) bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-14); j-- {
		q := &p.out[j]
		switch q.sort {
		case sStop, sLine, sSemi, sAsk, sBut:
			return false
		case sAmount:
			return false
		}
		if f(q) {
			return true
		}
	}
	return false
}

// changing reports whether the clause speaks of a change.
func (p *parser) changing() bool {
	from := false
	return p.clauseBack(func(q *piece) bool {
		from = from || q.cue == cueFrom
		return q.cue == cueChange || from && (q.word == "raised" || q.word == "raise" || q.word == "raising" || q.word == "brought" || q.word == "brought up")
	})
}

// changed reports whether the sentence so far tells of a change: "pH fell to 6.3,
// KH from 5 to 1".
func (p *parser) changed() bool {
	for j := len(p.out) - 1; j >= max(0, len(p.out)-30); j-- {
		switch q := &p.out[j]; {
		case q.sort == sStop || q.sort == sLine || q.sort == sSemi || q.sort == sAsk:
			return false
		case q.cue == cueChange && q.word != "change" && q.word != "changed", q.sort == sAmount && q.amt.change > 0:
			return true
		}
	}
	return false
}

// ranging reports whether the clause speaks of a range.
func (p *parser) ranging() bool {
	return p.clauseBack(func(q *piece) bool { return q.cue == cueRange })
}

// overTime reports whether a time follows at token i: "4 to 0 in 24 hours".
func (p *parser) overTime(i int) bool {
	t := p.text(i)
	return slices.Contains([]string{"in", "within", "overnight", "over", "after", "since", "by", "today", "now", "yesterday"}, t)
}

// joinTops merges the chart's open end with a number beside it: "off the chart
// (5+)", "5, off the charts", "maxed out at 160".
func joinTops(in []piece) []piece {
	out := in[:0]
	for i, q := range in {
		out = append(out, q)
		n := len(out)
		if q.sort != sAmount || n < 2 {
			continue
		}
		k := n - 2
		for k >= 0 && k > n-5 && (out[k].sort == sOpen || out[k].sort == sDash || out[k].word == "at" || out[k].word == "of" || out[k].word == "so" || out[k].sort == sComma || out[k].word == "is" || out[k].sort == sSlash || out[k].word == "its" || out[k].word == "the" || out[k].word == "test" || out[k].cue == cueIs || out[k].sort == sLink || out[k].sort == sFree && (out[k].cue == noCue || out[k].cue == cueMe)) {
			k--
		}
		if k < 0 || out[k].sort != sAmount {
			continue
		}
		a, b := out[k].amt, q.amt
		numeric := func(c *amount) bool { return c.word == notWord && c.odd == "" && (c.unit == noUnit || c.unit == ppm) }
		comma := slices.ContainsFunc(out[k:n], func(r piece) bool { return r.sort == sComma || r.sort == sDash || r.sort == sSlash })
		switch {
		case a.word == topWord && numeric(b) && (!comma || b.over):
			b.over, b.high = true, b.low
			out[k].amt = b
		case (a.word == traceWord || a.word == colourWord) && numeric(b) && (!comma || b.under): // "a trace (0.25)"
			out[k].amt = b
		case b.word == topWord && i+1 < len(in) && in[i+1].sort == sLabel && comma:
			continue
		case b.word == topWord && numeric(a) && a.low == a.high && a.low > 0:
			a.over = true
		case a.word == topWord && b.word == topWord:
		default:
			continue
		}
		out[k].to = q.to
		out = out[:k+1]
	}
	return out
}

// shareDegrees gives a bare number of now the degrees of the amount before it:
// "aiming for 24-26 degrees, currently 25.5".
func shareDegrees(ps []piece) {
	for k := 3; k < len(ps); k++ {
		a, b := ps[k-3].amt, ps[k].amt
		if a == nil || b == nil || a.unit != celsius && a.unit != fahrenheit && a.unit != degrees || b.unit != noUnit || b.word != notWord {
			continue
		}
		if m := ps[k-1].mark; (ps[k-2].sort == sComma || ps[k-2].sort == sBut) && m != nil && m.class == markNow && (k+1 == len(ps) || ps[k+1].sort != sLabel) {
			b.unit = a.unit
		}
	}
}
