package post

import "slices"

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
		case a.word == topWord:
			c = 1
		case a.word != notWord:
			c = costSkipWord
		case a.count:
			c = 0.4
		}
		out = append(out, move{n: 1, cost: c})
	}
	if !b.items[i].label {
		out = b.days(out, i)
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
		if !b.joined(l, m) && !(g.open && b.closed(l+m-1)) {
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
		if b.aside(v) { // "nitrate was 80, expected 40 but got 50"
			mv = move{n: mv.n + 1, cost: mv.cost + costChain + 0.1*float64(min(g.filler, 10)), bonds: append(slices.Clone(mv.bonds), [2]int{v, l})}
			out = append(out, mv)
			v++
			continue
		}
		if !g.change || g.stop && !g.toNext || g.lines > 1 || b.run(v) > 2 && b.gaps[v].slash {
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
	if b.sense[b.items[v].at].left == leftDose && k != Ammonia { // "0 nitrite, so I dosed to 2 ppm"
		return 3
	}
	return 0
}
