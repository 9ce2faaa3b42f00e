package post

// numberColours drops a colour whose number follows in its clause: "bright purple,
// which the card calls 5", "green, like a 1 on the card".
func numberColours(ps []piece) {
	for k := range ps {
		if q := &ps[k]; q.sort == sAmount && q.amt.word == colourWord && numbered(ps, k) {
			q.sort, q.amt = sFree, nil
		}
	}
}

// numbered reports whether a number of the chart follows the colour at k before
// another test is named.
func numbered(ps []piece, k int) bool {
	for j := k + 1; j < len(ps) && j < k+8; j++ {
		switch q := &ps[j]; q.sort {
		case sAmount:
			return (q.amt.word == notWord || q.amt.word == zeroWord) && !q.amt.count && !before(ps, j)
		case sComma:
			if j+1 >= len(ps) || ps[j+1].sort != sAmount && !explains[ps[j+1].word] {
				return false
			}
		case sFree, sFiller, sOpen, sLink, sDash:
		default:
			return false
		}
	}
	return false
}

// explains are words that go on from a colour to its number.
var explains = wordSet(`like, so, which, thats, that, closest, meaning, means, about, around, maybe, its, call, calling, i, say, the`)

// before reports whether the name of a test follows the amount at k: "0 for nitrite".
func before(ps []piece, k int) bool {
	for j := k + 1; j < len(ps) && j < k+4; j++ {
		if ps[j].sort != sFree {
			return ps[j].sort == sLabel
		}
	}
	return false
}
