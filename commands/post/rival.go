package post

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
