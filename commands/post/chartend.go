package post

import "slices"

// chartEnds gives the chart's open end the number that the post tells of it: "off the chart, the top
// colour is 5 and mine is past it", "pegged at the deepest purple, which is 5 ppm".
func chartEnds(ps []piece) []piece {
	for k := range ps {
		if ps[k].sort != sAmount || ps[k].amt.word != topWord {
			continue
		}
		if j := endOf(ps, k); j > 0 {
			a := *ps[j].amt
			a.over, a.high = true, a.low
			ps[k].amt = &a
			ps[j].sort, ps[j].amt = sFree, nil
			for i := k + 1; i < j; i++ { // "the deepest purple"
				if ps[i].sort == sAmount {
					ps[i].sort, ps[i].amt = sFree, nil
				}
			}
		}
	}
	return ps
}

// endOf returns where the number of the chart's end stands, after the open end at k and a word
// for it in the same sentence; 0 if it does not.
func endOf(ps []piece, k int) int {
	named := false
	for j := k + 1; j < len(ps) && j < k+14; j++ {
		switch q := &ps[j]; {
		case q.sort == sStop || q.sort == sAsk || q.sort == sLine || q.sort == sSemi || q.sort == sLabel || q.sort == sBut || q.sort == sMark || q.cue == cueWas:
			return 0
		case q.sort == sAmount && q.amt.word == colourWord:
		case q.sort == sAmount:
			if a := q.amt; (named || a.over) && a.word == notWord && a.odd == "" && a.low == a.high && (a.unit == noUnit || a.unit == ppm) {
				return j
			}
			return 0
		case slices.Contains(endNouns, q.word):
			named = true
		}
	}
	return 0
}

// endNouns are words for the end of a chart.
var endNouns = []string{"top", "last", "highest", "darkest", "deepest", "max", "maximum"}
