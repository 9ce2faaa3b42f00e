package post

import "strings"

// segment is a stretch of the cleaned text.
type segment struct{ from, to int }

// column is what the head of a table says about a column.
type column struct {
	label *piece // a test
	mark  *mark  // a day, with the tests down the side
	when  bool   // holds days or dates
	days  bool   // its bare numbers are days of the cycle
	left  string // why its numbers are no readings
	names bool   // holds the names of the tests
}

// tables reads the tables of the post by their columns and returns the
// stretches of text that they took. A table has a head of two names of tests or
// more and rows of numbers below it, or a head of days and rows that begin with
// a name.
func (r *reader) tables() (out []segment) {
	lines := linesOf(r.src.text)
	for i := 0; i < len(lines); {
		n := 0
		for _, sep := range []byte{'|', '\t', ',', ';', ' '} {
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

// columnsOf takes a line of names or amounts, parted by blanks or slashes, as
// cells; nil if there is anything else in it.
func (r *reader) columnsOf(ps []piece) (out [][]piece) {
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

func isWhen(w string) bool {
	switch w {
	case "day", "days", "date", "time", "when", "week", "tag", "datum":
		return true
	}
	return false
}

// table tries to read a table at the first of the lines and returns how many
// lines it took.
func (r *reader) table(lines []segment, sep byte) int {
	text := r.src.text[lines[0].from:lines[0].to]
	if sep != ' ' && strings.IndexByte(text, sep) < 0 || sep == ' ' && strings.ContainsAny(text, "|\t") || len(text) > 400 {
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
	labels, marks := 0, 0
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
			col.days = col.days || q.word == "day" || q.word == "days" || q.word == "tag"
			switch q.cue {
			case cueWant:
				col.left = leftWant
			case cueTap:
				col.left = leftTap
			}
			if w := q.word; w == "range" || w == "safe" || w == "should" || w == "normal" || w == "max" || w == "limit" {
				col.left = leftWant
			}
		}
		if col.label == nil && len(c) == 1 && c[0].sort != sMark {
			col.label = shortHead(&c[0])
		}
		if col.label != nil {
			labels++
		}
		if col.mark != nil && i > 0 {
			marks++
		}
		out = append(out, col)
	}
	switch {
	case labels >= 2 || labels == 1 && ruled:
		return out, true
	case labels == 0 && len(out) >= 2 && (marks > 0 && len(out) > 2 || marks > 1 || anyLeft(out)):
		return out, false
	}
	return nil, false
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

// rowAcross reads a row below a head of tests.
func (r *reader) rowAcross(head []column, cells [][]piece, blanks bool) (out []reading, ok bool) {
	if blanks {
		if cells = fit(head, cells); cells == nil {
			return nil, false
		}
	}
	if len(cells) == 0 || len(cells) > len(head)+1 {
		return nil, false
	}
	var at *mark
	amounts := 0
	for i, c := range cells {
		if i >= len(head) {
			break
		}
		for k := range c {
			q := &c[k]
			switch {
			case q.sort == sMark && at == nil:
				at = q.mark
			case q.sort == sLabel && head[i].label != nil:
				return nil, false
			}
		}
		a := only(c)
		switch {
		case a == nil:
		case head[i].when:
			if at == nil && a.amt.low == a.amt.high {
				at = &mark{class: markDay, key: a.amt.low, alt: 1, name: r.src.quote(a.from, a.to)}
				if head[i].days {
					at.alt = 0
				}
			}
		case head[i].label != nil:
			amounts++
			x := reading{kind: head[i].label.kind, amt: a.amt, label: head[i].label, from: a.from, to: a.to, row: a.from}
			x.sense.left = head[i].left
			if many(c) {
				x.doubt = "there is more than one number in its place of the table; write one number or a range"
			}
			out = append(out, x)
		}
	}
	for i := range out {
		out[i].sense.set(at)
		out[i].row = cells0(cells)
	}
	if at != nil {
		r.marks = append(r.marks, at)
	}
	return out, amounts > 0
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

// fit lays the cells of a row without signs under the head; nil if their number
// does not match.
func fit(head []column, cells [][]piece) [][]piece {
	names := 0
	for _, h := range head {
		if h.label != nil {
			names++
		}
	}
	if len(cells) == len(head) {
		return cells
	}
	if len(cells) > 1 && cells[0][0].sort == sMark {
		if cells[1][0].sort == sLink || cells[1][0].sort == sDash {
			cells = append(cells[:1:1], cells[2:]...)
		}
		if len(cells) == len(head) {
			return cells
		}
		if len(cells) == names+1 && len(head) == names {
			for k := range cells[1:] {
				cells[k+1] = append(cells[0][:1:1], cells[k+1]...)
			}
			return cells[1:]
		}
	}
	return nil
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

// rowDown reads a row that begins with a test below a head of days.
func (r *reader) rowDown(head []column, cells [][]piece) (out []reading, ok bool) {
	if len(cells) == len(head)+1 && head[0].mark != nil { // the corner is blank
		head = append([]column{{}}, head...)
	}
	if len(cells) < 2 || len(cells) > len(head) {
		return nil, false
	}
	var name *piece
	for k := range cells[0] {
		if q := &cells[0][k]; q.sort == sLabel && name == nil {
			name = q
		}
	}
	if name == nil {
		return nil, false
	}
	for i := 1; i < len(cells); i++ {
		a := only(cells[i])
		if a == nil {
			continue
		}
		x := reading{kind: name.kind, amt: a.amt, label: name, from: a.from, to: a.to, row: i}
		x.sense.set(head[i].mark)
		if m := head[i].mark; m != nil && m.class == markVessel {
			x.sense.tank = m
		}
		x.sense.left = head[i].left
		if many(cells[i]) {
			x.doubt = "there is more than one number in its place of the table; write one number or a range"
		}
		if head[i].mark != nil {
			r.marks = append(r.marks, head[i].mark)
		}
		out = append(out, x)
	}
	return out, len(out) > 0
}
