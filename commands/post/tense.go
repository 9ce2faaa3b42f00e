package post

// followed reports whether a later value of the same test comes next: "0 to 2 to
// 5", "4, then 2".
func followed(ps []piece, k int) bool {
	to := false
	for j := k + 1; j < len(ps) && j < k+5; j++ {
		switch q := &ps[j]; {
		case q.sort == sAmount:
			return to
		case q.cue == cueTo || q.word == "then" && q.sort == sBut:
			to = true
		case q.sort != sComma && q.sort != sFree:
			return false
		}
	}
	return false
}

// past marks amounts told in the past tense and the old side of changes.
func past(ps []piece, senses []sense) {
	tense, from, change, moved := false, false, false, false
	for k := range ps {
		q := &ps[k]
		switch q.sort {
		case sComma, sStop, sAsk, sSemi, sLine, sBut, sAnd, sOpen, sClose, sPipe:
			tense = tense && q.sort == sAnd && k+2 < len(ps) && ps[k+1].sort == sLabel && ps[k+2].sort == sAmount // "was 1 and nitrite 0.5"
			from = false
			if q.sort != sComma && q.sort != sOpen && q.sort != sAnd {
				change = false
			}
		case sAmount:
			senses[k].was = tense
			if q.amt.change != 0 {
				senses[k].was = q.amt.change < 0
			} else if from && change && !moved {
				senses[k].was = true
			}
			if k+1 < len(ps) && ps[k+1].sort == sArrow && k+2 < len(ps) && (ps[k+2].sort == sAmount || ps[k+2].sort == sFree && k+3 < len(ps) && ps[k+3].sort == sAmount) {
				senses[k].was = true
			}
			if followed(ps, k) {
				senses[k].was = true
			}
			from = false
		case sLabel:
			from = false
		}
		switch q.cue {
		case cueWas:
			tense = true
		case cueIs:
			if q.word == "is" || q.word == "are" || q.word == "its" {
				tense = false
			}
		case cueFrom:
			from = true
		case cueChange:
			change = true
			moved = k > 0 && (ps[k-1].word == "hasnt" || ps[k-1].word == "havent" || ps[k-1].word == "not" || ps[k-1].word == "wont" || ps[k-1].word == "didnt" || ps[k-1].word == "doesnt")
		}
		if q.word == "vs" || q.word == "versus" || q.word == "instead" || q.word == "compared" {
			tense = true
		}
	}
}
