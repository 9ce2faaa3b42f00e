package post

import "strings"

// sized reports whether the number of tokens [i, j) is the size of a tank: "a 20 long".
func (p *parser) sized(i, j int) bool {
	switch p.text(j) {
	case "long", "tall", "high", "cube", "breeder", "wide":
		b := p.text(i - 1)
		return b == "a" || b == "my" || b == "the" || b == "our" || b == "this"
	}
	return false
}

// gravity reports whether token i is a specific gravity without a name: "1.025".
func (p *parser) gravity(i int) bool {
	t := p.text(i)
	return len(t) == 5 && (strings.HasPrefix(t, "1.01") || strings.HasPrefix(t, "1.02") || strings.HasPrefix(t, "1.03")) && !p.labelledLoosely()
}

// onClock reports whether the amount at token i is an hour: "tonight at 9 it's 0.5",
// but not "nitrite today at 5".
func (p *parser) onClock(i int, a amount) bool {
	if p.text(i-1) != "at" || a.low != a.high || a.low < 1 || a.low > 12 || a.low != float64(int(a.low)) {
		return false
	}
	if s := p.last2().sort; s != sMark && s != sMeasure {
		return false
	}
	for k := len(p.out) - 1; k >= 0; k-- {
		switch p.out[k].sort {
		case sLabel:
			return false
		case sAmount, sStop, sLine, sComma, sSemi, sAsk, sBut:
			return true
		}
	}
	return true
}

// hoursOf are the spans that people give in hours without saying so: "in 24".
var hoursOf = wordSet(`12, 24, 36, 48, 72`)

// closes reports whether a sentence, a line or a list's entry ends at token i.
func (p *parser) closes(i int) bool {
	switch p.text(i) {
	case "\n", ".", ",", ";", ")", "!":
		return true
	}
	return false
}

// quoted reports whether the quotation mark at token i closes one of its line.
func (p *parser) quoted(i int) bool {
	n := 0
	for j := i - 1; j >= 0 && p.text(j) != "\n"; j-- {
		if p.text(j) == `"` {
			n++
		}
	}
	return n%2 == 1
}

// toNumber reports whether "to" and a number follow: "zero to a quarter".
func (p *parser) toNumber(i int) bool {
	_, n := p.numeral(i + 1)
	return p.text(i) == "to" && (n > 0 || p.kindAt(i+1) == number)
}
