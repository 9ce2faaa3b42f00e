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
	row      int  // of a table
	far      bool // another amount stands between the name and this one
}

// reader reads one post.
type reader struct {
	src     *source
	opt     Options
	allPPM  bool // the post says that all is in ppm
	marks   []*mark
	all     []reading
	loose   []reading       // amounts that no name claims
	chosen  []reading       // the newest of each test
	misread map[misread]int // what the post says was another test's
	doubtAt []int           // where each doubt begins
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
	ps = topics(ps)
	senses := look(ps)
	date(ps, senses)
	correct(ps, senses)
	weigh(ps, senses)
	for k := range ps {
		if ps[k].sort == sMark {
			r.marks = append(r.marks, ps[k].mark)
		}
	}
	r.events(ps, senses)
	bonds, loose := bind(ps, senses)
	bonds = append(bonds, legend(ps, bonds, &loose)...)
	slices.SortStableFunc(bonds, func(a, b bound) int { return cmp.Compare(a.amount, b.amount) })
	r.neighbours(ps, bonds, &loose, senses)
	bonds = alone(ps, senses, bonds, &loose)
	scaled(ps, bonds)
	for _, b := range bonds {
		q := &ps[b.amount]
		x := reading{kind: b.kind, amt: q.amt, from: q.from, to: q.to, sense: senses[b.amount], doubt: b.doubt}
		if b.label >= 0 {
			x.label = &ps[b.label]
			x.far = hasAmount(ps[min(b.label, b.amount)+1 : max(b.label, b.amount)])
		}
		r.all = append(r.all, x)
	}
	r.nameless(ps, loose, senses)
	r.misread = misreads(ps)
}

func (r *reader) doubt(from, to int, reason string) {
	r.result.Doubtful = append(r.result.Doubtful, Doubt{r.src.quote(from, to), reason})
	r.doubtAt = append(r.doubtAt, from)
}

// snippet returns the text span of a reading with its name, if that is near.
func (x *reading) snippet(text string) (from, to int) {
	from, to = x.from, x.to
	if x.label != nil && x.row == 0 && !x.far {
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
