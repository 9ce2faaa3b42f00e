package post

import (
	"regexp"
	"strings"
)

// cells cuts a line at a sign; at blanks each piece is a cell of its own.
func (r *reader) cells(l segment, sep byte) (out [][]piece) {
	line := r.src.text[l.from:l.to]
	if sep == ' ' {
		return r.columnsOf(r.parse(l.from, l.to))
	}
	if sep == '|' {
		trimmed := strings.TrimRight(line, " ")
		lead := len(line) - len(strings.TrimLeft(line, " "))
		if strings.HasPrefix(line[lead:], "|") {
			l.from += lead + 1
		}
		if strings.HasSuffix(trimmed, "|") && l.from < l.to {
			l.to -= len(line) - len(trimmed) + 1
		}
		if l.to < l.from {
			l.to = l.from
		}
		line = r.src.text[l.from:l.to]
	}
	if sep == wide {
		return r.widely(l)
	}
	from := l.from
	for part := range strings.SplitSeq(line, string(sep)) {
		out = append(out, r.parse(from, from+len(part)))
		from += len(part) + 1
		if len(out) > 40 {
			return nil
		}
	}
	return out
}

// wideGap parts the cells of a table that was laid out by hand: two blanks or more, or a row of dots.
var wideGap = regexp.MustCompile(` *\.{4,} *|  +`)

// widely cuts a line at wide gaps; blanks before it are an empty corner.
func (r *reader) widely(l segment) (out [][]piece) {
	for from := l.from; from <= l.to; {
		n := len(r.src.text[from:l.to])
		if gap := wideGap.FindStringIndex(r.src.text[from:l.to]); gap != nil {
			n = gap[0]
		}
		out = append(out, r.parse(from, from+n))
		if from += n; from == l.to || len(out) > 40 {
			break
		}
		if gap := wideGap.FindStringIndex(r.src.text[from:l.to]); gap != nil && gap[0] == 0 {
			from += gap[1]
		}
		if from == l.to {
			break
		}
	}
	return out
}

// columnsOf takes a line of names or amounts, parted by blanks or slashes, as
// cells; nil if there is anything else in it.
func (r *reader) columnsOf(ps []piece) (out [][]piece) {
	if places(ps) {
		for k := range ps {
			if q := &ps[k]; q.sort == sFiller || q.sort == sFree {
				out = append(out, ps[k:k+1])
			}
		}
		return out
	}
	for k := range ps {
		switch q := &ps[k]; q.sort {
		case sLabel, sAmount, sMark:
			out = append(out, ps[k:k+1])
		case sSlash, sPipe:
		case sLink, sDash:
			if k == 0 || q.sort == sDash && (q.wide || k+1 < len(ps) && ps[k+1].wide) {
				out = append(out, ps[k:k+1])
			}
		case sMeasure:
			return nil
		case sFree, sFiller:
			if !isWhen(q.word) {
				return nil
			}
			out = append(out, ps[k:k+1])
		default:
			return nil
		}
		if len(out) > 40 {
			return nil
		}
	}
	return out
}

// places reports whether a line is a head of nothing but waters and goals: "Tap
// Tank", "Test Reading Goal".
func places(ps []piece) bool {
	told := false
	for k := range ps {
		switch q := &ps[k]; q.cue {
		case cueTap, cueTank, cueOwn, cueWant:
			told = true
		case cueTest, cueIs:
		default:
			if q.sort != sSlash && q.sort != sPipe && q.sort != sDash {
				return false
			}
		}
	}
	return told && len(ps) > 1
}

func isWhen(w string) bool {
	switch w {
	case "day", "days", "date", "time", "when", "week", "tag", "datum", "dag", "dagen", "jour", "dia", "fecha":
		return true
	}
	return false
}

// only returns the first amount of a cell.
func only(c []piece) *piece {
	for k := range c {
		if c[k].sort == sAmount {
			return &c[k]
		}
	}
	return nil
}

func many(c []piece) bool {
	n := 0
	for k := range c {
		if c[k].sort == sAmount && !c[k].amt.count {
			n++
		}
	}
	return n > 1
}

// cells0 is where a row begins, which names it.
func cells0(cells [][]piece) int {
	for _, c := range cells {
		if len(c) > 0 {
			return c[0].from
		}
	}
	return 0
}
