package post

import "slices"

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
	inRow := map[int]bool{}
	for _, run := range rowsOf(ps, *loose, false) {
		for _, k := range run {
			inRow[k] = len(run) > 2
		}
	}
	*loose = slices.DeleteFunc(*loose, func(k int) bool {
		a := ps[k].amt
		if inRow[k] { // a row of its own: "0.5 nitrite, was 0/0/20"
			return false
		}
		if a.count || a.word != notWord && a.word != topWord || senses[k].left != "" || senses[k].old {
			return false
		}
		for _, side := range []int{-1, 1} {
			o, ok := beside(ps, k, side, owner)
			if !ok {
				continue
			}
			if bonds[o].label < 0 && a.unit == noUnit && ps[k].from < ps[bonds[o].amount].from { // "1.025, 25 °C"
				return false
			}
			b := ps[bonds[o].amount].amt
			if !a.unit.fits(bonds[o].kind) || r.same(bonds[o].kind, a, b) { // of another sort, or the same once more
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
	if k >= other {
		return false
	}
	x, no1 := r.value(&reading{kind: k, amt: a}, true)
	y, no2 := r.value(&reading{kind: k, amt: b}, true)
	if k == Temp && a.unit == noUnit && no2 == "" { // "76 (24.5C)"
		for _, u := range []unitOf{celsius, fahrenheit} {
			other := *a
			other.unit = u
			if z, no := r.value(&reading{kind: k, amt: &other}, true); no == "" && alike(z, y) {
				return true
			}
		}
	}
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
