package post

import (
	"cmp"
	"slices"
)

// alone gives a loose number that looks like a reading to the only test that its
// sentence names before it: "Ammonia's the first or the second colour, so 0 or
// 0.25". A second value of a test so found is asked about.
func alone(ps []piece, senses []sense, bonds []bound, loose *[]int) []bound {
	n := len(bonds)
	*loose = slices.DeleteFunc(*loose, func(k int) bool {
		if a := ps[k].amt; senses[k].left != "" || senses[k].dose != "" || a.count || a.odd != "" || a.word != notWord || !readable(a) {
			return false
		}
		name := onlyName(ps, k)
		if name < 0 || !ps[k].amt.unit.fits(ps[name].kind) {
			return false
		}
		bonds = append(bonds, bound{kind: ps[name].kind, amount: k, label: name})
		return true
	})
	if len(bonds) > n {
		slices.SortStableFunc(bonds, func(a, b bound) int { return cmp.Compare(a.amount, b.amount) })
	}
	return bonds
}

// readable reports whether an amount is written as readings are: with a unit of
// concentration, with decimals, or as a range.
func readable(a *amount) bool {
	return a.unit == ppm || a.unit == noUnit && (a.low != float64(int(a.low)) || a.high != float64(int(a.high)) || a.low != a.high)
}

// onlyName returns the only name of a test in the sentence of piece k, which stands
// before it; -1 if there is none or another.
func onlyName(ps []piece, k int) int {
	over := func(s sort) bool { return s == sStop || s == sAsk || s == sLine || s == sSemi }
	name := -1
	for j := k - 1; j >= max(0, k-30) && !over(ps[j].sort); j-- {
		if ps[j].sort == sLabel {
			if name >= 0 && ps[name].kind != ps[j].kind || ps[j].kind == other {
				return -1
			}
			name = j
		}
	}
	for j := k + 1; j < min(len(ps), k+30) && !over(ps[j].sort); j++ {
		if ps[j].sort == sLabel {
			return -1
		}
	}
	return name
}
