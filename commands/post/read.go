package post

import (
	"cmp"
	"slices"
	"strings"
)

// reading is an amount that belongs to a name, before it is weighed.
type reading struct {
	kind     Kind
	amt      *amount
	label    *piece // nil when the amount's unit says what it is
	from, to int    // of the amount, in the cleaned text
	sense    sense
	doubt    string
	row      int // of a table
}

// reader reads one post.
type reader struct {
	src     *source
	opt     Options
	marks   []*mark
	all     []reading
	loose   []reading // amounts that no name claims
	chosen  []reading // the newest of each test
	doubtAt []int     // where each doubt begins
	result  Result
}

func (r *reader) read() {
	tables := r.tables()
	var ps []piece
	from := 0
	for _, t := range append(tables, segment{len(r.src.text), len(r.src.text)}) {
		ps = append(ps, r.parse(from, t.from)...)
		ps = append(ps, piece{sort: sLine, from: t.from, to: t.from}, piece{sort: sLine, from: t.from, to: t.from})
		from = t.to
	}
	r.prose(ps)
	if r.src.open >= 0 {
		end := len(r.src.text)
		r.result.Doubtful = append(r.result.Doubtful, Doubt{"[quote]", "a quote begins here and never ends, so what follows may be somebody else's; close it with [/quote]"})
		r.doubtAt = append(r.doubtAt, end)
	}
	r.settle()
}

// prose binds and dates the amounts of running text.
func (r *reader) prose(ps []piece) {
	senses := look(ps)
	date(ps, senses)
	for k := range ps {
		if ps[k].sort == sMark {
			r.marks = append(r.marks, ps[k].mark)
		}
	}
	bonds, loose := bind(ps)
	bonds = append(bonds, legend(ps, bonds, &loose)...)
	slices.SortStableFunc(bonds, func(a, b bound) int { return cmp.Compare(a.amount, b.amount) })
	r.neighbours(ps, bonds, &loose, senses)
	for _, b := range bonds {
		q := &ps[b.amount]
		x := reading{kind: b.kind, amt: q.amt, from: q.from, to: q.to, sense: senses[b.amount], doubt: b.doubt}
		if b.label >= 0 {
			x.label = &ps[b.label]
		}
		r.all = append(r.all, x)
	}
	r.nameless(ps, loose, senses)
}

// legend gives rows of numbers without names ("Day 2 2/0.25/5") the names of
// the only list of as many names in the post ("am/ni/na").
func legend(ps []piece, bonds []bound, loose *[]int) []bound {
	runs := rowsOf(ps, *loose, false)
	if len(runs) == 0 {
		return nil
	}
	lists := map[int][]int{}
	for k := 0; k < len(ps); {
		if ps[k].sort != sLabel {
			k++
			continue
		}
		list := []int{k}
		j := k + 1
		for j+1 < len(ps) && (ps[j].sort == sSlash || ps[j].sort == sDash) && ps[j+1].sort == sLabel {
			list = append(list, j+1)
			j += 2
		}
		if n := len(list); n > 1 {
			if _, again := lists[n]; !again {
				lists[n] = list
			} else if !sameKinds(ps, lists[n], list) {
				lists[n] = nil
			}
		}
		k = j
	}
	var out []bound
	for _, run := range runs {
		list := lists[len(run)]
		if list == nil {
			continue
		}
		for i, k := range run {
			out = append(out, bound{kind: ps[list[i]].kind, amount: k, label: list[i]})
		}
		*loose = slices.DeleteFunc(*loose, func(k int) bool { return slices.Contains(run, k) })
	}
	return out
}

func sameKinds(ps []piece, a, b []int) bool {
	for i := range a {
		if ps[a[i]].kind != ps[b[i]].kind {
			return false
		}
	}
	return true
}

// rowsOf groups loose amounts joined by slashes or dashes, or, if wide, also by
// blanks and commas.
func rowsOf(ps []piece, loose []int, wide bool) [][]int {
	next := func(a, b int) bool {
		if wide && (b == a+1 || b == a+2 && ps[b-1].sort == sComma) {
			return !ps[a].amt.count && !ps[b].amt.count && ps[a].amt.word == notWord && ps[b].amt.word == notWord
		}
		return b == a+2 && (ps[b-1].sort == sSlash || ps[b-1].sort == sDash)
	}
	var out [][]int
	for i := 0; i < len(loose); {
		run := []int{loose[i]}
		j := i + 1
		for j < len(loose) && next(loose[j-1], loose[j]) {
			run = append(run, loose[j])
			j++
		}
		if len(run) > 1 {
			out = append(out, run)
		}
		i = j
	}
	return out
}

// neighbours makes a bound amount doubtful when a loose one stands right beside
// it: "ammonia 0 .25".
func (r *reader) neighbours(ps []piece, bonds []bound, loose *[]int, senses []sense) {
	owner := map[int]int{} // by amount, and by name where the amount stands before it
	for i, b := range bonds {
		owner[b.amount] = i
		if b.label > b.amount {
			owner[b.label] = i
		}
	}
	*loose = slices.DeleteFunc(*loose, func(k int) bool {
		a := ps[k].amt
		if a.count || a.word != notWord && a.word != topWord || senses[k].left != "" {
			return false
		}
		for _, side := range []int{-1, 1} {
			o, ok := beside(ps, k, side, owner)
			if !ok {
				continue
			}
			b := ps[bonds[o].amount].amt
			if !a.unit.fits(bonds[o].kind) || a.unit != b.unit && r.same(bonds[o].kind, a, b) { // of another sort, or once more in another unit
				return false
			}
			if bonds[o].doubt == "" {
				bonds[o].doubt = "another number stands beside it; write one number, or a range as 0.25-0.5"
			}
			return true
		}
		return false
	})
}

// same reports whether two amounts of one test say the same.
func (r *reader) same(k Kind, a, b *amount) bool {
	x, no1 := r.value(&reading{kind: k, amt: a}, true)
	y, no2 := r.value(&reading{kind: k, amt: b}, true)
	return no1 == "" && no2 == "" && alike(x, y)
}

// beside finds the nearest bound amount on one side of piece k when no more
// than signs and free words stand between.
func beside(ps []piece, k, side int, owner map[int]int) (int, bool) {
	for j := k + side; j >= 0 && j < len(ps) && j >= k-6 && j <= k+6; j += side {
		switch ps[j].sort {
		case sAmount:
			o, ok := owner[j]
			return o, ok
		case sLabel:
			o, ok := owner[j]
			return o, ok && side < 0
		case sSemi:
			if !ps[j].glued || j+1 < len(ps) && !ps[j+1].glued { // "0;25"
				return 0, false
			}
		case sComma, sSlash, sDash, sOpen, sClose, sAnd:
		case sFree:
			if side > 0 {
				return 0, false
			}
		case sStop:
			if side > 0 || j != k-1 || ps[j].word != "." { // "0. 25"
				return 0, false
			}
		default:
			return 0, false
		}
	}
	return 0, false
}

// nameless keeps the amounts without a name that deserve a word: rows of
// numbers, "everything is zero", and, if nothing else is found, amounts in ppm.
func (r *reader) nameless(ps []piece, loose []int, senses []sense) {
	inRow := map[int]bool{}
	for _, run := range rowsOf(ps, loose, true) {
		if len(run) < 3 || senses[run[0]].left != "" {
			continue
		}
		for _, k := range run {
			inRow[k] = true
		}
		r.doubt(ps[run[0]].from, ps[run[len(run)-1]].to, "the numbers have no names; write which test each one is, as in ammonia 0, nitrite 0.25, nitrate 5")
	}
	for _, k := range loose {
		q := &ps[k]
		if inRow[k] || senses[k].left != "" || senses[k].old {
			continue
		}
		if from, ok := everything(ps, k); ok && q.amt.isZero() {
			r.doubt(min(ps[from].from, q.from), max(q.to, ps[from].to), "it does not say which tests were done; write them out, as in ammonia 0, nitrite 0, nitrate 5")
			continue
		}
		r.loose = append(r.loose, reading{kind: other, amt: q.amt, from: q.from, to: q.to, sense: senses[k]})
	}
}

// everyWord are words that stand for tests not named.
var everyWord = wordSet(`everything, all, all three, across the board, parameters, levels, params, all of them, all reading, numbers, else, readings, both, rest, all at, tests, each`)

// everything finds "everything", "all" and the like in the clause around piece k.
func everything(ps []piece, k int) (int, bool) {
	for _, side := range []int{-1, 1} {
	clause:
		for j := k + side; j >= 0 && j < len(ps) && j >= k-8 && j <= k+6; j += side {
			switch ps[j].sort {
			case sStop, sAsk, sLine, sAmount, sLabel, sComma, sSemi, sBut:
				break clause
			}
			if everyWord[ps[j].word] {
				return j, true
			}
		}
	}
	return 0, false
}

func (r *reader) doubt(from, to int, reason string) {
	r.result.Doubtful = append(r.result.Doubtful, Doubt{r.src.quote(from, to), reason})
	r.doubtAt = append(r.doubtAt, from)
}

// snippet returns the text span of a reading with its name, if that is near.
func (x *reading) snippet(text string) (from, to int) {
	from, to = x.from, x.to
	if x.label != nil && x.row == 0 {
		a, b := min(from, x.label.from), max(to, x.label.to)
		if b-a <= 60 && !strings.Contains(text[a:b], "\n") {
			return a, b
		}
	}
	return from, to
}

func (r *reader) leave(x *reading, reason string) {
	from, to := x.snippet(r.src.text)
	d := Doubt{r.src.quote(from, to), reason}
	if !slices.Contains(r.result.Left, d) {
		r.result.Left = append(r.result.Left, d)
	}
}

func (r *reader) doubtReading(x *reading, reason string) {
	from, to := x.snippet(r.src.text)
	if x.label != nil && from > x.label.from {
		reason = "as " + x.kind.plain() + ": " + reason
	}
	r.doubt(from, to, reason)
}

// doubtAll makes one doubt of several readings, from the first to the last.
func (r *reader) doubtAll(xs []reading, reason string) {
	if len(xs) == 0 {
		return
	}
	from, to := xs[0].snippet(r.src.text)
	for i := range xs {
		a, b := xs[i].snippet(r.src.text)
		from, to = min(from, a), max(to, b)
	}
	r.doubt(from, to, reason)
}
