package post

import "slices"

// legend gives rows of numbers without names ("Day 2 2/0.25/5") the names of
// the only list of as many names in the post ("am/ni/na").
func legend(ps []piece, bonds []bound, loose *[]int) []bound {
	runs := rowsOf(ps, *loose, false)
	if len(runs) == 0 {
		return nil
	}
	lists := map[int][]int{}
	for k := 0; k < len(ps); {
		if ps[k].sort != sLabel {
			k++
			continue
		}
		list := []int{k}
		j := k + 1
		for j+1 < len(ps) && (ps[j].sort == sSlash || ps[j].sort == sDash) && ps[j+1].sort == sLabel {
			list = append(list, j+1)
			j += 2
		}
		if n := len(list); n > 1 {
			if _, again := lists[n]; !again {
				lists[n] = list
			} else if !sameKinds(ps, lists[n], list) {
				lists[n] = nil
			}
		}
		k = j
	}
	var out []bound
	for _, run := range runs {
		list := lists[len(run)]
		if list == nil {
			continue
		}
		for i, k := range run {
			out = append(out, bound{kind: ps[list[i]].kind, amount: k, label: list[i]})
		}
		*loose = slices.DeleteFunc(*loose, func(k int) bool { return slices.Contains(run, k) })
	}
	return out
}

func sameKinds(ps []piece, a, b []int) bool {
	for i := range a {
		if ps[a[i]].kind != ps[b[i]].kind {
			return false
		}
	}
	return true
}

// rowsOf groups loose amounts joined by slashes or dashes, or, if wide, also by
// blanks and commas.
func rowsOf(ps []piece, loose []int, wide bool) [][]int {
	next := func(a, b int) bool {
		if wide && (b == a+1 || b == a+2 && ps[b-1].sort == sComma) {
			return !ps[a].amt.count && !ps[b].amt.count && ps[a].amt.word == notWord && ps[b].amt.word == notWord
		}
		return b == a+2 && (ps[b-1].sort == sSlash || ps[b-1].sort == sDash)
	}
	var out [][]int
	for i := 0; i < len(loose); {
		run := []int{loose[i]}
		j := i + 1
		for j < len(loose) && next(loose[j-1], loose[j]) {
			run = append(run, loose[j])
			j++
		}
		if len(run) > 1 {
			out = append(out, run)
		}
		i = j
	}
	return out
}

// nameless keeps the amounts without a name that deserve a word: rows of
// numbers, "everything is zero", and, if nothing else is found, amounts in ppm.
func (r *reader) nameless(ps []piece, loose []int, senses []sense) {
	inRow := map[int]bool{}
	for _, run := range rowsOf(ps, loose, true) {
		if len(run) < 3 || senses[run[0]].left != "" {
			continue
		}
		for _, k := range run {
			inRow[k] = true
		}
		if r.namedElsewhere() {
			r.result.Left = append(r.result.Left, Doubt{r.src.quote(ps[run[0]].from, ps[run[len(run)-1]].to), "the numbers have no names, and the post names its readings"})
			continue
		}
		r.doubt(ps[run[0]].from, ps[run[len(run)-1]].to, "the numbers have no names; write which test each one is, as in ammonia 0, nitrite 0.25, nitrate 5")
	}
	for _, k := range loose {
		q := &ps[k]
		if inRow[k] || senses[k].left != "" || senses[k].old {
			continue
		}
		if from, ok := everything(ps, k); ok && q.amt.isZero() {
			r.doubt(min(ps[from].from, q.from), max(q.to, ps[from].to), "it does not say which tests were done; write them out, as in ammonia 0, nitrite 0, nitrate 5")
			continue
		}
		r.loose = append(r.loose, reading{kind: other, amt: q.amt, from: q.from, to: q.to, sense: senses[k]})
	}
}

// namedElsewhere reports whether the post gives two readings of the nitrogen row
// or more with their names.
func (r *reader) namedElsewhere() bool {
	seen := map[Kind]bool{}
	for i := range r.all {
		if x := &r.all[i]; x.kind <= Nitrate && x.sense.left == "" && x.amt.word != untested {
			seen[x.kind] = true
		}
	}
	return len(seen) > 1
}

// everyWord are words that stand for tests not named.
var everyWord = wordSet(`everything, all, all three, across the board, parameters, levels, params, all of them, all reading, numbers, else, readings, both, rest, all at, tests, each`)

// everything finds "everything", "all" and the like in the clause around piece k.
func everything(ps []piece, k int) (int, bool) {
	for _, side := range []int{-1, 1} {
	clause:
		for j := k + side; j >= 0 && j < len(ps) && j >= k-8 && j <= k+6; j += side {
			switch ps[j].sort {
			case sStop, sAsk, sLine, sAmount, sLabel, sComma, sSemi, sBut:
				break clause
			}
			if everyWord[ps[j].word] && !(j+1 < len(ps) && (ps[j+1].word == "times" || ps[j+1].word == "time" || ps[j+1].word == "days")) {
				return j, true
			}
		}
	}
	return 0, false
}
