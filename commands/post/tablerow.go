package post

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

// rowDown reads a row that begins with a test below a head of days.
func (r *reader) rowDown(head []column, cells [][]piece) (out []reading, ok bool) {
	if len(cells) == len(head)+1 && (head[0].mark != nil || anyLeft(head)) { // the corner is blank
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
