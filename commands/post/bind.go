package post

import "slices"

// item is a name or an amount in the row that is read.
type item struct {
	at    int // index of its piece
	label bool
}

// bound is an amount with the name it belongs to. label is -1 for an amount
// whose unit says what it is ("25 °C").
type bound struct {
	kind          Kind
	amount, label int // indices of pieces
	doubt         string
	shared        bool
}

// move is one way to read the next items: skip, bind, bind lists, share, chain.
type move struct {
	n     int // items taken
	cost  float64
	bonds [][2]int // item of the amount, item of the name (-1: by its unit)
	weak  string   // a doubt that comes with this reading
}

// binder reads a row.
type binder struct {
	ps    []piece
	items []item
	gaps  []gap // gaps[i] between items i and i+1
}

// longest list of names, and of values of one name in a row
const (
	maxList  = 8
	maxChain = 5
)

// bind finds the cheapest reading of the row of names and amounts. loose are
// the amounts that no name claims.
func bind(ps []piece) (out []bound, loose []int) {
	b := &binder{ps: ps}
	for k := range ps {
		if ps[k].sort == sLabel || ps[k].sort == sAmount {
			b.items = append(b.items, item{k, ps[k].sort == sLabel})
		}
	}
	n := len(b.items)
	for i := 0; i+1 < n; i++ {
		b.gaps = append(b.gaps, between(ps, b.items[i].at, b.items[i+1].at))
	}
	// best[i] is the least cost of the items before i, rest[i] of those from i on.
	best, rest := make([]float64, n+1), make([]float64, n+1)
	moves := make([][]move, n)
	from := make([]int, n+1)
	pick := make([]int, n+1)
	for i := range n {
		best[i+1] = costNever * float64(n+1)
	}
	for i := range n {
		moves[i] = b.moves(i)
		for m, mv := range moves[i] {
			if c := best[i] + mv.cost; c < best[i+mv.n]-1e-9 {
				best[i+mv.n], from[i+mv.n], pick[i+mv.n] = c, i, m
			}
		}
	}
	for i := n - 1; i >= 0; i-- {
		rest[i] = costNever * float64(n+1)
		for _, mv := range moves[i] {
			rest[i] = min(rest[i], mv.cost+rest[i+mv.n])
		}
	}
	seen := b.survey(moves, best, rest)
	var path []move
	var starts []int
	for i := n; i > 0; i = from[i] {
		path = append(path, moves[from[i]][pick[i]])
		starts = append(starts, from[i])
	}
	slices.Reverse(path)
	slices.Reverse(starts)
	for p, mv := range path {
		if len(mv.bonds) == 0 && !b.items[starts[p]].label {
			loose = append(loose, b.items[starts[p]].at)
		}
		for j, bond := range mv.bonds {
			o := bound{amount: b.items[bond[0]].at, label: -1, doubt: mv.weak}
			if bond[1] >= 0 {
				o.label = b.items[bond[1]].at
				o.kind = ps[o.label].kind
			} else {
				o.kind = Temp
				if u := ps[o.amount].amt.unit; u == german || u == meq {
					o.kind = KH
				}
			}
			first, last := shares(mv.bonds, j)
			if o.doubt == "" && bond[1] >= 0 && b.rival(&seen[bond[0]], first, last, best[n]) {
				o.doubt = "it is not clear which test it belongs to; write the name before the number, as in nitrite 0.5"
			}
			out = append(out, o)
		}
	}
	return out, loose
}

// way is the least total cost of the readings that give an amount to the names
// of items first to last; first is -1 for readings that give it to none.
type way struct {
	first, last int
	cost        float64
}

// ways are the three cheapest ways for one amount.
type ways [3]way

func (w *ways) add(first, last int, cost float64) {
	at := len(w) - 1
	for i := range w {
		if w[i].first == first && w[i].last == last {
			at = i
			break
		}
	}
	if cost >= w[at].cost {
		return
	}
	w[at] = way{first, last, cost}
	for ; at > 0 && w[at].cost < w[at-1].cost; at-- {
		w[at], w[at-1] = w[at-1], w[at]
	}
}

// rival reports whether a reading nearly as cheap gives the amount to a name of
// another test than the names first to last.
func (b *binder) rival(w *ways, first, last int, best float64) bool {
	for _, o := range w {
		if o.first < 0 || o.first <= last && first <= o.last || o.cost-best >= margin {
			continue
		}
		if b.lab(o.first).kind != b.lab(first).kind {
			return true
		}
	}
	return false
}

// survey finds for every amount the cheapest readings by name.
func (b *binder) survey(moves [][]move, best, rest []float64) []ways {
	out := make([]ways, len(b.items))
	for i := range out {
		out[i] = ways{{-2, -2, costNever}, {-2, -3, costNever}, {-2, -4, costNever}}
	}
	for i := range moves {
		for _, mv := range moves[i] {
			total := best[i] + mv.cost + rest[i+mv.n]
			if len(mv.bonds) == 0 && !b.items[i].label {
				out[i].add(-1, -1, total)
			}
			for j, bond := range mv.bonds {
				if first, last := shares(mv.bonds, j); first == bond[1] {
					out[bond[0]].add(first, last, total)
				}
			}
		}
	}
	return out
}

// shares returns the first and last name that the amount of bond j is given to.
func shares(bonds [][2]int, j int) (first, last int) {
	a, z := j, j
	for a > 0 && bonds[a-1][0] == bonds[j][0] {
		a--
	}
	for z+1 < len(bonds) && bonds[z+1][0] == bonds[j][0] {
		z++
	}
	return bonds[a][1], bonds[z][1]
}

func (b *binder) amt(i int) *amount { return b.ps[b.items[i].at].amt }
func (b *binder) lab(i int) *piece  { return &b.ps[b.items[i].at] }

// fits is the extra cost of giving the amount of item v to the name of item l.
func (b *binder) fits(v, l int, back bool) float64 {
	a, k := b.amt(v), b.lab(l).kind
	if !a.unit.fits(k) {
		return costNever
	}
	switch a.word {
	case nilWord, goneWord, traceWord, topWord, colourWord:
		if k == PH && a.word != topWord || k == Temp {
			return costNever
		}
		if back && a.word != topWord && a.word != traceWord {
			return 3
		}
		if a.word == colourWord {
			return 1
		}
	case zeroWord, noneLabel, unclear:
		if k == PH || k == Temp {
			return costNever
		}
		if !back && a.word != zeroWord {
			return costNever
		}
	}
	if a.count {
		return 1
	}
	return 0
}

const moreNumbers = "there are more numbers than names; write each number behind its name"

// moves lists the ways to read on at item i.
func (b *binder) moves(i int) []move {
	var out []move
	if b.items[i].label {
		out = append(out, move{n: 1, cost: costSkipName})
	} else {
		a := b.amt(i)
		c := costSkipAmount
		switch {
		case a.unit == celsius || a.unit == fahrenheit || a.unit == german || a.unit == degrees || a.unit == meq:
			out = append(out, move{n: 1, cost: 0.2, bonds: [][2]int{{i, -1}}})
			c = 2
		case a.unit == ppm || a.unit == ppb:
			c = costSkipUnit
		case a.word == zeroWord || a.word == noneLabel:
			c = 1
		case a.word != notWord:
			c = costSkipWord
		case a.count:
			c = 0.4
		}
		out = append(out, move{n: 1, cost: c})
	}
	run := b.run(i)
	for n := 1; n <= run; n++ {
		if b.items[i].label {
			out = b.fromNames(out, i, n)
		} else {
			out = b.fromAmounts(out, i, n)
		}
	}
	return out
}

// run is the length of the list of like items at i, at most maxList.
func (b *binder) run(i int) int {
	n := 1
	for n < maxList && i+n < len(b.items) && b.items[i+n].label == b.items[i].label && b.gaps[i+n-1].inList() {
		n++
	}
	return n
}

// same reports whether the n items at i are like item i and listed.
func (b *binder) same(i, n int) bool {
	if i+n > len(b.items) {
		return false
	}
	for j := i + 1; j < i+n; j++ {
		if b.items[j].label != b.items[i].label || !b.gaps[j-1].inList() {
			return false
		}
	}
	return true
}

// fromNames adds the moves in which the n names at i come before their amounts.
func (b *binder) fromNames(out []move, i, n int) []move {
	v := i + n // the first amount
	if v >= len(b.items) || b.items[v].label {
		return out
	}
	g := b.gaps[v-1]
	if n == 1 {
		cost := g.forward() + b.fits(v, i, false)
		if b.amt(v).word == untested && (g.stop || g.lines > 1) {
			cost += 4
		}
		mv := move{n: 2, cost: cost, bonds: [][2]int{{v, i}}}
		out = append(out, mv)
		return b.chain(out, mv, i, v+1, i)
	}
	if b.same(v, n) { // a list each
		mv := move{n: 2 * n, cost: costList + g.forward()}
		for j := range n {
			mv.cost += b.fits(v+j, i+j, false) + b.listCost(v, j)
			mv.bonds = append(mv.bonds, [2]int{v + j, i + j})
		}
		if b.same(v, n+1) && !b.amt(v+n).count {
			mv.weak = moreNumbers
		}
		out = append(out, mv)
	}
	if a := b.amt(v); b.joined(i, n) || g.both || a.word == untested || a.isZero() { // one for all
		mv := move{n: n + 1, cost: costShare + g.forward()}
		if !b.joined(i, n) {
			mv.cost += 0.6
		}
		if !a.isZero() && a.word != untested && !g.both {
			mv.cost += 0.5
		}
		if k := b.items[i].at; k > 0 && b.ps[k-1].cue == cueDose { // "I add ammonia and nitrite is 2"
			mv.cost += 1.5
		}
		for j := range n {
			mv.cost += b.fits(v, i+j, false)
			mv.bonds = append(mv.bonds, [2]int{v, i + j})
		}
		if b.same(v, 2) && !b.items[v+1].label && b.gaps[v].listSign() && !b.gaps[v].comma {
			mv.weak = moreNumbers
		}
		out = append(out, mv)
	}
	return out
}

// listCost makes lists whose gaps differ in sign dearer.
func (b *binder) listCost(v, j int) float64 {
	if j == 0 {
		return 0
	}
	g, first := b.gaps[v+j-1], b.gaps[v]
	if g.slash != first.slash || g.dash != first.dash {
		return 0.5
	}
	return 0
}

// joined reports whether "and", "or" or a slash joins the n names at i.
func (b *binder) joined(i, n int) bool {
	for j := i; j < i+n-1; j++ {
		if b.gaps[j].and || b.gaps[j].slash {
			return true
		}
	}
	return false
}

// fromAmounts adds the moves in which the n amounts at i come before their names.
func (b *binder) fromAmounts(out []move, i, n int) []move {
	l := i + n
	if l >= len(b.items) || !b.items[l].label {
		return out
	}
	g := b.gaps[l-1]
	if n > 1 {
		if b.same(l, n) && (b.gaps[i].listSign() || b.gaps[i].blank()) {
			mv := move{n: 2 * n, cost: costList + g.backward()}
			for j := range n {
				mv.cost += b.fits(i+j, l+j, true) + b.listCost(i, j) + b.listCost(l, j)
				mv.bonds = append(mv.bonds, [2]int{i + j, l + j})
			}
			out = append(out, mv)
		}
		return out
	}
	mv := move{n: 2, cost: g.backward() + b.fits(i, l, true), bonds: [][2]int{{i, l}}}
	if b.amt(i).word == nilWord && g.of { // none for ammonia
		mv.cost -= 3
	}
	out = append(out, mv)
	out = b.chain(out, mv, i, l+1, l)
	a := b.amt(i)
	for m := 2; m <= b.run(l); m++ { // one for all
		if !b.joined(l, m) {
			continue
		}
		mv := move{n: m + 1, cost: costShare + g.backward()}
		if !a.isZero() && a.word != untested && !g.both {
			mv.cost += 1.5
		}
		for j := range m {
			mv.cost += b.fits(i, l+j, true)
			mv.bonds = append(mv.bonds, [2]int{i, l + j})
		}
		out = append(out, mv)
	}
	return out
}

// chain adds the moves that go on from mv with further amounts of the name l,
// each after a word of change or a point in time.
func (b *binder) chain(out []move, mv move, i, v, l int) []move {
	for n := 1; n < maxChain && v < len(b.items) && !b.items[v].label; n++ {
		g := b.gaps[v-1]
		if !g.change || g.stop && !g.toNext || g.lines > 1 {
			return out
		}
		cost := costChain + b.fits(v, l, false)
		switch {
		case g.stop: // "It's at 0.5 now."
			cost += 0.5
		case g.lines > 0:
			cost += 0.8
		default:
			cost += 0.2 * float64(min(g.filler, 10))
		}
		if g.comma {
			cost += 0.2
		}
		mv = move{n: mv.n + 1, cost: mv.cost + cost, bonds: append(slices.Clone(mv.bonds), [2]int{v, l})}
		out = append(out, mv)
		v++
	}
	return out
}
