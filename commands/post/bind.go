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
	sense []sense
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
func bind(ps []piece, senses []sense) (out []bound, loose []int) {
	b := &binder{ps: ps, sense: senses}
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

func (b *binder) amt(i int) *amount { return b.ps[b.items[i].at].amt }
func (b *binder) lab(i int) *piece  { return &b.ps[b.items[i].at] }
