package post

// days adds the move in which several amounts, each under its own day, stand before
// their name: "Mon 2.0, Tue 1.5, Wed 1.0 for ammonia".
func (b *binder) days(out []move, i int) []move {
	n := 1
	for n < maxList && i+n < len(b.items) && !b.items[i+n].label && b.gaps[i+n-1].change && b.gaps[i+n-1].comma && b.gaps[i+n-1].filler == 0 && !b.gaps[i+n-1].stop && b.dated(i+n) {
		n++
	}
	l := i + n
	if n < 2 || l >= len(b.items) || !b.items[l].label || !b.dated(i) || !b.gaps[l-1].of {
		return out
	}
	mv := move{n: n + 1, cost: costList + b.gaps[l-1].backward()}
	for j := range n {
		mv.cost += b.fits(i+j, l, true)
		mv.bonds = append(mv.bonds, [2]int{i + j, l})
	}
	return append(out, mv)
}

// dated reports whether a point in time stands right before item i.
func (b *binder) dated(i int) bool {
	k := b.items[i].at
	return k > 0 && b.ps[k-1].sort == sMark
}

// closed reports whether a bracket closes behind item i: "zero (ammonia, nitrite)".
func (b *binder) closed(i int) bool {
	k := b.items[i].at + 1
	return k < len(b.ps) && b.ps[k].sort == sClose
}

// aside reports whether the amount of item v is a goal or a supposition.
func (b *binder) aside(v int) bool {
	a := b.amt(v)
	return b.sense[b.items[v].at].left == leftWant && a.word == notWord && (a.unit == noUnit || a.unit == ppm)
}
