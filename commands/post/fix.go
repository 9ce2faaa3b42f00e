package post

// leftFixed is why an amount is no reading: the post itself puts it right.
const leftFixed = "the post corrects it further on"

// correct marks the amounts that put an earlier one right: those behind a word
// such as "typo" or "EDIT", up to the line's end, and those beside a "not": "0.5,
// not 5", "not 5 but 0.5".
func correct(ps []piece, senses []sense) {
	on := false
	for k := range ps {
		switch q := &ps[k]; {
		case q.sort == sLine:
			on = false
		case q.word == "wrong tank": // all that was said before is of another
			for j := range k {
				senses[j].left = leftPerson
			}
		case q.cue == cueFix:
			on = true
		case q.sort == sAmount && q.amt.word == notWord:
			senses[k].fix = senses[k].fix || on
			if d := denied(ps, k); d >= 0 {
				senses[k].fix, senses[k].denies = true, ps[d].amt
				senses[d].left = leftFixed
			}
		}
	}
}

// denied returns the amount that a "not" beside the amount at k takes back, -1
// if there is none.
func denied(ps []piece, k int) int {
	not := func(k int) bool {
		for k--; k > 0 && (ps[k].word == "at" || ps[k].word == "the" || ps[k].word == "quite" || ps[k].word == "really" || ps[k].word == "exactly"); k-- {
		}
		return k >= 0 && (ps[k].word == "not" || ps[k].word == "isnt")
	}
	if not(k) {
		return -1
	}
	for _, side := range []int{1, -1} {
	clause:
		for j := k + side; j >= 0 && j < len(ps) && j >= k-6 && j <= k+6; j += side {
			switch q := &ps[j]; {
			case q.sort == sAmount:
				if (q.amt.word == notWord || q.amt.word == zeroWord) && not(j) {
					return j
				}
				break clause
			case q.sort == sFree, q.sort == sComma, q.sort == sOpen, q.word == "not", q.word == "isnt", q.sort == sBut:
			default:
				break clause
			}
		}
	}
	return -1
}

// misread is a test that the post takes an amount back from: "nitrite 4, not nitrate".
type misread struct {
	kind Kind
	low  float64
}

// misreads finds the names behind a "not" in the sentence or line of an amount, or right after it.
// Each comes with where it stands last.
func misreads(ps []piece) map[misread]int {
	out := map[misread]int{}
	for k := 1; k+1 < len(ps); k++ {
		if ps[k].word != "not" || ps[k+1].sort != sLabel || k+2 < len(ps) && ps[k+2].sort != sStop && ps[k+2].sort != sLine && ps[k+2].sort != sComma && ps[k+2].sort != sClose {
			continue
		}
		for j := k - 1; j >= 0 && j > k-5 && ps[j].sort != sLine; j-- {
			if ps[j].sort == sAmount {
				out[misread{ps[k+1].kind, ps[j].amt.low}] = ps[k].from
				break
			}
			if ps[j].sort != sStop && ps[j].sort != sComma && ps[j].sort != sOpen && ps[j].sort != sFree {
				break
			}
		}
	}
	return out
}

// unread takes back what the post says was another test's.
func (r *reader) unread(xs []reading) []reading {
	in, out := split(xs, func(x *reading) bool {
		at, ok := r.misread[misread{x.kind, x.amt.low}]
		return !ok || x.from > at
	})
	for i := range out {
		r.leave(&out[i], leftFixed)
	}
	return in
}

// amend lets a correction take the place and the time of what it corrects: the
// value that it denies, else the only earlier one of its test.
func (r *reader) amend(xs []reading) []reading {
	gone := map[int]bool{}
	for i := range xs {
		x := &xs[i].sense
		if !x.fix {
			continue
		}
		var earlier []int
		for j := range i {
			y := &xs[j].sense
			if xs[j].kind != xs[i].kind || gone[j] || x.mark != nil && x.mark != y.mark || x.old && !y.old || x.rank != 0 && x.rank != y.rank {
				continue
			}
			if d := x.denies; d == nil || d.low == xs[j].amt.low && d.high == xs[j].amt.high {
				earlier = append(earlier, j)
			}
		}
		if len(earlier) != 1 {
			continue
		}
		j := earlier[0]
		gone[j] = true
		y := &xs[j].sense
		x.mark, x.old, x.rank, x.tank, x.was = y.mark, y.old, y.rank, y.tank, y.was
		r.leave(&xs[j], leftFixed)
	}
	var out []reading
	for i := range xs {
		if !gone[i] {
			out = append(out, xs[i])
		}
	}
	return out
}
