package post

import (
	"slices"
	"strings"
)

// segment is a stretch of the cleaned text.
type segment struct{ from, to int }

// column is what the head of a table says about a column.
type column struct {
	label *piece // a test
	mark  *mark  // a day, with the tests down the side
	when  bool   // holds days or dates
	days  bool   // its bare numbers are days of the cycle
	left  string // why its numbers are no readings
}

// tables reads the tables of the post by their columns and returns the
// stretches of text that they took. A table has a head of two names of tests or
// more and rows of numbers below it, or a head of days and rows that begin with
// a name.
func (r *reader) tables() (out []segment) {
	lines := linesOf(r.src.text)
	for i := 0; i < len(lines); {
		n := 0
		for _, sep := range []byte{'|', '\t', wide, ',', ';', ' '} {
			if n = r.table(lines[i:], sep); n > 0 {
				break
			}
		}
		if n == 0 {
			i++
			continue
		}
		out = append(out, segment{lines[i].from, lines[i+n-1].to})
		i += n
	}
	return out
}

func linesOf(text string) (out []segment) {
	from := 0
	for from <= len(text) {
		n := strings.IndexByte(text[from:], '\n')
		if n < 0 {
			out = append(out, segment{from, len(text)})
			break
		}
		out = append(out, segment{from, from + n})
		from += n + 1
	}
	return out
}

// table tries to read a table at the first of the lines and returns how many
// lines it took.
func (r *reader) table(lines []segment, sep byte) int {
	text := r.src.text[lines[0].from:lines[0].to]
	if sep == wide && !wideGap.MatchString(strings.TrimLeft(text, " ")) || sep != ' ' && sep != wide && strings.IndexByte(text, sep) < 0 || sep == ' ' && strings.ContainsAny(text, "|\t") || len(text) > 400 {
		return 0
	}
	ruled := sep == '|' && len(lines) > 1 && strings.Contains(r.src.text[lines[1].from:lines[1].to], "--")
	head, across := r.head(r.cells(lines[0], sep), ruled)
	if head == nil {
		return 0
	}
	n, rows := 1, 0
	var got []reading
	for ; n < len(lines); n++ {
		line := r.src.text[lines[n].from:lines[n].to]
		if strings.Trim(line, "|-:+= \t") == "" {
			if strings.TrimSpace(line) == "" && (sep == ' ' || rows > 0) {
				break
			}
			continue
		}
		var row []reading
		var ok bool
		if cells := r.cells(lines[n], sep); across {
			row, ok = r.rowAcross(head, cells, sep == ' ')
		} else {
			row, ok = r.rowDown(head, cells)
		}
		if !ok {
			break
		}
		got = append(got, row...)
		rows++
	}
	if rows == 0 {
		return 0
	}
	if across && rows > 1 {
		undated(got, rows)
	}
	r.all = append(r.all, got...)
	for n > 1 && strings.TrimSpace(r.src.text[lines[n-1].from:lines[n-1].to]) == "" {
		n--
	}
	return n
}

// undated gives rows without a date a mark each that no order is known for.
func undated(got []reading, rows int) {
	for i := range got {
		if got[i].sense.mark != nil || got[i].sense.old || got[i].sense.rank != 0 {
			return
		}
	}
	for i := range got {
		got[i].sense.mark = &mark{class: markRow, key: float64(got[i].row), name: "row"}
	}
}

// head reads the head of a table: tests across, or days across. A ruled table
// has a line of dashes below its head.
func (r *reader) head(cells [][]piece, ruled bool) (out []column, across bool) {
	labels, marks, when := 0, 0, false
	for i, c := range cells {
		col := column{}
		for k := range c {
			q := &c[k]
			switch q.sort {
			case sAmount:
				return nil, false
			case sLabel:
				if col.label != nil {
					return nil, false
				}
				col.label = q
			case sMark:
				col.mark = q.mark
			}
			col.when = col.when || isWhen(q.word)
			when = when || col.when
			col.days = col.days || q.word == "day" || q.word == "days" || q.word == "tag" || q.word == "dag" || q.word == "dagen"
			switch q.cue {
			case cueWant:
				col.left = leftWant
			case cueTap:
				col.left = leftTap
			}
			if k == 0 && len(c) == 1 && q.word == "before" {
				col.left = leftOld
			}
			if w := q.word; w == "range" || w == "safe" || w == "should" || w == "normal" || w == "max" || w == "limit" {
				col.left = leftWant
			}
		}
		if col.label == nil && len(c) == 1 && c[0].sort != sMark {
			col.label = shortHead(&c[0])
		}
		if col.label == nil && len(c) > 0 {
			col.label = degreesHead(r.src.text[c[0].from:c[len(c)-1].to], &c[0])
		}
		if col.label != nil {
			labels++
		}
		if col.mark != nil && (i > 0 || len(c) == 1) {
			marks++
		}
		out = append(out, col)
	}
	otherTanks(cells, out)
	switch {
	case labels >= 2 || labels == 1 && (ruled || when):
		return out, true
	case labels == 0 && len(out) >= 2 && (marks > 0 && len(out) > 2 || marks > 1 || anyLeft(out)):
		return out, false
	}
	return nil, false
}

// degreesHead reads a cell such as "°C" as a temperature.
func degreesHead(cell string, q *piece) *piece {
	l := *q
	l.sort, l.kind = sLabel, Temp
	switch strings.ToLower(strings.ReplaceAll(cell, " ", "")) {
	case "°c", "degc":
		l.unit = celsius
	case "°f", "degf":
		l.unit = fahrenheit
	default:
		return nil
	}
	return &l
}

// shortHead reads a cell such as "am" or "Ni" as a name.
func shortHead(q *piece) *piece {
	s, ok := shortLabels[q.word]
	if !ok || q.sort != sFiller && q.sort != sFree || s.strict && len(q.word) > 1 || q.word == "n" {
		return nil
	}
	l := *q
	l.sort, l.kind = sLabel, s.kind
	return &l
}

func anyLeft(cols []column) bool {
	for _, c := range cols {
		if c.left != "" {
			return true
		}
	}
	return false
}

// wide stands for two blanks or more, which part the cells of a table that was laid out by hand.
const wide = 0

// otherTanks leaves out the columns of tanks that are older than a new one: "old tank", "new tank".
func otherTanks(cells [][]piece, cols []column) {
	says := func(c []piece, of map[string]bool) bool {
		return slices.ContainsFunc(c, func(q piece) bool { return of[q.word] })
	}
	if !slices.ContainsFunc(cells, func(c []piece) bool { return says(c, newTank) }) {
		return
	}
	for i, c := range cells {
		if says(c, oldTank) && !says(c, newTank) {
			cols[i].left = leftOther
		}
	}
}

var (
	newTank = wordSet(`new, new tank, the new tank, new one, the new one, cycling`)
	oldTank = wordSet(`old, old tank, the old tank, established, mature, cycled`)
)
