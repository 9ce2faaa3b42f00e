package post

// noneUnless are words after "no ammonia" that make it no reading of zero.
var noneUnless = wordSet(`source, sources, dosing, dose, dosed, doses, added, adding, addition, additions, spike, spikes, problem, problems, issue, issues, poisoning, burn, burns, smell, bottle, solution, chloride, supply, production, peak, going, input, left to, to dose, for the bacteria, being added, coming, whatsoever added, removers, remover, to feed, food, change, swing, swings, crash, drop, movement, stage, phase`)

// none reads "no ammonia", "no sign of nitrite", "haven't seen any nitrite": a
// zero that stands before the name.
func (p *parser) none(i int) int {
	n := 0
	for _, m := range p.phrases(i) {
		if noneHeads[m.key] {
			n = m.n
		}
	}
	if n == 0 {
		return 0
	}
	j := i + n
	for noneBetween[p.text(j)] {
		j++
	}
	k, m := p.nameAt(j)
	if m == 0 || k == other && p.text(i) != "no" {
		return 0
	}
	after := p.text(j + m)
	for q := j + m; (p.text(q) == "or" || p.text(q) == "nor" || p.text(q) == "and" || p.text(q) == "/" || p.text(q) == ",") && q < j+m+8; {
		_, mm := p.nameAt(q + 1)
		if mm == 0 {
			break
		}
		q += 1 + mm
		after = p.text(q)
	}
	w := noneLabel
	for q := j + m; after != "reading" && after != "readings" && q < j+m+9 && p.text(q) != "." && p.text(q) != "\n" && p.kindAt(q) != number; q++ {
		if t := p.text(q); (t == "run" || t == "ran") && p.text(q+1) == "out" { // "No nitrate today, I've run out of bottle two"
			after = "test"
		}
	}
	switch {
	case noneUnless[after] || noneUnless[after+" "+p.text(j+m+1)]:
		return p.add(i, j+m-i+1, piece{sort: sFiller})
	case after == "test" || after == "tests" || after == "kit" || after == "strips" || after == "strip" || after == "pad" || after == "pads" || after == "reagent" || after == "square" || after == "vial":
		w = untested
	case after == "today" || after == "tonight" || after == "reading" || after == "readings" || after == "result" || after == "results":
		w = unclear
	}
	return p.add(i, n, piece{sort: sAmount, amt: &amount{word: w}})
}

var noneHeads = wordSet(`neither, no, still no, absolutely no, no sign of, no signs of, no sign of any, no trace of, no traces of, not a trace of, no hint of, no detectable, no measurable, no visible, no more, no free, no residual, zero sign of, zero trace of,
	not any, dont have any, havent seen any, havent got any, not seeing any, not getting any, not reading any, not showing any, not detecting any, not registering any, isnt any, arent any, aint any, dont see any, doesnt show any, cant detect any, cant see any, dont detect any, not had any yet, havent had any, hasnt shown any, no real, not picking up any, not reading, not showing, nothing for, nowt for, zilch for, nada for, zip for, nil for, without any, nothing on, no reading of, no presence of, didnt detect any, did not detect any, didnt find any, did not find any, do not have any, do not see any, have not seen any, have no, has no, having no, theres no, there is no, zero amount of, zero amounts of, zero detectable, zero measurable`)

var noneBetween = wordSet(`detectable, measurable, visible, the, any, more, noticeable, significant, real, actual, residual, whatsoever`)
