package post

// scaleLead are words between an amount and the name that tells its scale: "3.3 mg/L
// measured as NO2-N".
var scaleLead = wordSet(`as, of, in, expressed, reported, given, measured, calculated`)

// scaled puts amounts on the nitrogen scale whose test is named once more behind them
// for its nitrogen, without an amount of its own: "nitrite 3.3 mg/L NO2-N".
func scaled(ps []piece, bonds []bound) {
	named := map[int]bool{}
	for _, b := range bonds {
		named[b.label] = true
	}
	for i := range bonds {
		b := &bonds[i]
		k := b.amount + 1
		for k < len(ps) && (ps[k].sort == sOpen || ps[k].sort == sDash || scaleLead[ps[k].word]) {
			k++
		}
		switch {
		case k == len(ps) || ps[k].sort != sLabel || ps[k].kind != b.kind || !ps[k].asN || named[k]:
		case k+1 < len(ps) && ps[k+1].sort == sAsk && b.doubt == "":
			b.doubt = "it is asked whether it is as nitrogen; write as N behind it if it is, or leave that out"
		default:
			ps[b.amount].amt.asN = true
		}
	}
}

// scaleVerb are the words before "as N" that tell the scale of one amount where the next
// name follows: "ammonia 1 reported as nitrogen, nitrite 2". At an end they tell that of all.
var scaleVerb = wordSet(`expressed, reported, given, measured, calculated`)

// nitrogenOf reads "as N" after an amount, and N alone where the amount of a name ends:
// "nitrate 10 N".
func (p *parser) nitrogenOf(i int) int {
	j := i
	open := p.text(i) == "("
	if open {
		j++
	}
	if scaleVerb[p.text(j)] && p.text(j+1) == "as" && p.labelled() && p.goesOnToName(j+3) {
		j++
	}
	if p.text(j) == "as" {
		j++
	}
	isN := p.text(j) == "n" || p.text(j) == "nitrogen"
	if j == i && p.text(j) == "n" { // "nitrate 10 n nitrite 2": and
		isN = p.src.text[p.toks[j].from:p.toks[j].to] == "N"
	}
	switch {
	case !isN || open && p.text(j+1) != ")":
		return 0
	case open:
		j++
	case j == i && !(p.labelled() && (p.closes(j+1) || p.text(j+1) == "|" || p.text(j+1) == "and")):
		return 0
	}
	return j + 1 - i
}

// goesOnToName reports whether a clause ends at token i and the next begins with a test.
func (p *parser) goesOnToName(i int) bool {
	if p.text(i) == ")" {
		i++
	}
	if t := p.text(i); t != "," && t != ";" && t != "and" && t != "\n" {
		return false
	}
	for i++; p.text(i) == "and" || p.text(i) == "\n" && i < len(p.toks); {
		i++
	}
	_, n := p.nameAt(i)
	return n > 0
}
