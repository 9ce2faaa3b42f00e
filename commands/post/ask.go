package post

const (
	doubtAsked = "it stands in a question; write it as a statement if it is your reading"
	doubtMark  = "a question mark stands behind it; write it without if you are sure, or as a range"
)

// ask marks the amounts that stand in a question of yes or no ("is 0.5 ammonia
// bad?") or right before a question mark.
func ask(ps []piece, out []sense) {
	from := 0
	for k := 0; k <= len(ps); k++ {
		if k < len(ps) && ps[k].sort == sAsk && aside(ps, k) {
			continue
		}
		if k < len(ps) && ps[k].sort != sStop && ps[k].sort != sAsk && ps[k].sort != sLine && ps[k].sort != sSemi {
			continue
		}
		asked := k < len(ps) && ps[k].sort == sAsk
		askSentence(ps, out, from, k, asked)
		from = k + 1
	}
	for k := range ps {
		if k > 0 && ps[k].sort == sAmount && ps[k].amt.word == untested {
			guessed(ps, k, out)
		}
		if claims[ps[k].word] { // "is 0.25 ammonia bad? that's what I got today"
			for j := range k {
				if out[j].doubt == doubtAsked {
					out[j].doubt = ""
				}
			}
		}
	}
}

// guessed makes the amount before a "but I have no test", at piece k, doubtful.
func guessed(ps []piece, k int, out []sense) {
	but := false
	for j := k - 1; j >= max(0, k-6); j-- {
		switch q := &ps[j]; {
		case q.sort == sBut:
			but = true
		case q.sort == sAmount && but && out[j].left == "":
			out[j].doubt = "no test was done for it; write only what a test shows"
			return
		case q.sort == sLabel || q.sort == sStop || q.sort == sLine || q.sort == sComma:
			return
		}
	}
}

// claims are words that make what was asked about the writer's own readings.
var claims = wordSet(`thats what my tank is at, thats what the tank is at, thats what my tank has, thats what i got, thats what i get, thats what i have, thats what mine is, thats what my test says, thats my reading, those are my readings, these are my readings, those are my numbers, these are my numbers, thats what we have, thats what it reads, thats what i measured, thats what the test says`)

// aside reports whether the question mark at k stands in a bracket without an
// amount: "ammonia 0.5 (chloramine?)".
func aside(ps []piece, k int) bool {
	if k+1 >= len(ps) || ps[k+1].sort != sClose {
		return false
	}
	for j := k - 1; j >= max(0, k-12); j-- {
		switch ps[j].sort {
		case sOpen:
			return true
		case sAmount, sClose, sLine:
			return false
		}
	}
	return false
}

// askSentence looks at the sentence of pieces [from, to).
func askSentence(ps []piece, out []sense, from, to int, asked bool) {
	wh, judged := false, false
	last := -1
	for k := from; k < to; k++ {
		wh = wh || ps[k].cue == cueWh || ps[k].word == "am"
		judged = judged || ps[k].cue == cueJudge
		if ps[k].sort == sAmount {
			last = k
		}
	}
	if last < 0 || !asked && !judged {
		return
	}
	open, yesNo := true, false // at the start of a clause; in a question of yes or no
	for k := from; k < to; k++ {
		q := &ps[k]
		if q.sort == sComma || q.sort == sBut || q.sort == sClose || q.sort == sOpen {
			open = true
			yesNo = yesNo && hasAmount(ps[from:k])
			continue
		}
		if q.word == "is" && k+2 < to && (ps[k+1].word == "that" || ps[k+1].word == "this") && (ps[k+2].word == "why" || ps[k+2].word == "because") {
			wh = true // "is that why ammonia sticks at 4?"
			continue
		}
		if q.word == "that" && yesNo && k+1 < to && ps[k+1].word == "my" { // "is it normal that my nitrite is 2?"
			yesNo, wh = false, true
		}
		if q.sort == sLink && !hasAmount(ps[from:k]) && (k == from || ps[k-1].sort != sLabel) { // "Do these look right: ..."
			yesNo, wh = false, true
		}
		if open && (q.cue == cueAsk || q.word == "is" || q.word == "are" || q.word == "was" || q.word == "has" || q.word == "have") && (asked || judged && (q.word == "is" || q.word == "are")) {
			yesNo = true
		}
		if open && (q.word == "how" && k+1 < to && ps[k+1].cue == cueJudge || q.word == "what" && k+1 < to && (ps[k+1].word == "does" || ps[k+1].word == "happens")) {
			yesNo = true
		}
		if q.word != "so" && q.word != "also" && q.word != "and" && q.word != "ok" && q.word != "just" && q.word != "hi" && q.word != "hey" && q.sort != sAnd {
			open = false
		}
		if q.sort == sAmount && yesNo && out[k].left == "" && q.amt.word != untested {
			out[k].doubt = doubtAsked
		}
	}
	if asked && !wh && out[last].doubt == "" && endsIn(ps, last, to) {
		out[last].doubt = doubtMark
	}
}

func hasAmount(ps []piece) bool {
	for k := range ps {
		if ps[k].sort == sAmount {
			return true
		}
	}
	return false
}

// endsIn reports whether the question mark at to stands right behind the amount at
// k, or behind the name after it.
func endsIn(ps []piece, k, to int) bool {
	for j := k + 1; j < to; j++ {
		if ps[j].sort != sLabel && ps[j].sort != sClose && ps[j].sort != sOpen && ps[j].word != "of" {
			return false
		}
	}
	return true
}
