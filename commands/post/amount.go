package post

import (
	"strconv"
	"strings"
)

// amount is what stands for a reading: a number, two steps, or a word.
type amount struct {
	low, high float64
	over      bool // at least low
	under     bool // below high
	word      amountWord
	unit      unitOf
	asN       bool   // "as N" was said
	odd       string // why the writing itself is doubtful
	count     bool   // may count things: "10 neons"
	dash      bool   // a minus or a dash stands before it
	negative  bool
	change    int8 // -1 the old, +1 the new value of a change
}

// isZero reports whether the amount is zero by number or word.
func (a *amount) isZero() bool {
	return a.word == zeroWord || a.word == nilWord || a.word == noneLabel || a.word == notWord && a.low == 0 && a.high == 0 && !a.over && a.odd == ""
}

// number reads the text of a number token. odd tells why it is doubtful.
func readNumber(s string) (v float64, odd string) {
	commas, points := strings.Count(s, ","), strings.Count(s, ".")
	switch {
	case commas == 1 && points == 0:
		whole, part, _ := strings.Cut(s, ",")
		if len(part) == 3 && whole != "" && strings.Trim(whole, "0") != "" {
			v, _ = strconv.ParseFloat(whole+part, 64)
			return v, "it can be read as " + whole + "." + part + " or as " + whole + part + "; write it with a point for decimals and nothing for thousands"
		}
		s = whole + "." + part
	case commas+points > 1:
		return 0, "it has more than one point or comma; write it as 0.25"
	}
	if whole, _, _ := strings.Cut(s, "."); len(whole) > 1 && whole[0] == '0' && strings.Trim(whole, "0") != "" || len(s) > 1 && strings.Trim(s, "0") == "" {
		return 0, "a point seems to be missing; write it as 0.5 or 5"
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return 0, "it is not a plain number; write it as 0.25"
	}
	return v, ""
}

// isList reports whether a number token is a row of numbers: "0,0,20".
func isList(s string) bool {
	return strings.Count(s, ",") >= 2 && !strings.Contains(s, ".") || strings.Count(s, ",") >= 1 && strings.Contains(s, ".") && strings.Count(s, ",")+strings.Count(s, ".") >= 2 && listParts(s)
}

func listParts(s string) bool {
	for p := range strings.SplitSeq(s, ",") {
		if strings.Count(p, ".") > 1 {
			return false
		}
	}
	return !(strings.Count(s, ",") == 1 && thousand(s))
}

// thousand reports whether s looks like "1,250.5".
func thousand(s string) bool {
	whole, rest, _ := strings.Cut(s, ",")
	d := strings.IndexByte(rest, '.')
	return d == 3 && strings.Trim(whole, "0") != "" && !strings.Contains(whole, ".")
}

// numerals are numbers in words.
var numerals = map[string]float64{
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90, "hundred": 100,
	"twentyfive": 25, "zero": 0, "oh": 0, "nought": 0, "naught": 0,
}

// number in words at tokens i: "two", "half a", "point two five", "one and a half".
func (p *parser) numeral(i int) (v float64, n int) {
	w := func(j int) string {
		if i+j < len(p.toks) && (p.toks[i+j].kind == word || p.toks[i+j].text == "-") {
			return p.toks[i+j].text
		}
		return ""
	}
	skipA := func(n int) int {
		if w(n) == "a" || w(n) == "of" && w(n+1) == "a" {
			for w(n) == "a" || w(n) == "of" {
				n++
			}
		}
		return n
	}
	switch {
	case w(0) == "half":
		return 0.5, skipA(1)
	case w(0) == "quarter":
		return 0.25, skipA(1)
	case w(0) == "one" && w(1) == "half":
		return 0.5, skipA(2)
	case w(0) == "one" && w(1) == "quarter":
		return 0.25, skipA(2)
	case w(0) == "a" && w(1) == "hundred":
		return 100, 2
	case w(0) == "a" && w(1) == "half":
		return 0.5, skipA(2)
	case w(0) == "a" && w(1) == "quarter":
		return 0.25, skipA(2)
	case w(0) == "three" && w(1) == "quarters":
		return 0.75, skipA(2)
	}
	v, ok := numerals[w(0)]
	n = 1
	if w(0) == "point" {
		v, ok, n = 0, true, 0
	}
	if !ok {
		return 0, 0
	}
	if w(n) == "hundred" && v < 10 { // "one hundred and sixty"
		v, n = 100*v, n+1
		j := n
		if w(j) == "and" {
			j++
		}
		if u, ok := numerals[w(j)]; ok && u > 0 && u < 100 {
			return v + u, j + 1
		}
		return v, n
	}
	if tens := v >= 20 && v < 100; tens { // "twenty-five"
		j := n
		if w(j) == "-" {
			j++
		}
		if u, ok := numerals[w(j)]; ok && u >= 1 && u < 10 {
			v, n = v+u, j+1
		}
	}
	if w(n) == "and" && w(n+1) == "a" && w(n+2) == "half" {
		return v + 0.5, n + 3
	}
	if w(n) == "and" && w(n+1) == "a" && w(n+2) == "quarter" {
		return v + 0.25, n + 3
	}
	if w(n) == "and" && w(n+1) == "half" {
		return v + 0.5, n + 2
	}
	if w(n) == "point" {
		digits := ""
		for j := n + 1; j < n+4; j++ {
			d, ok := numerals[w(j)]
			if !ok || d > 99 {
				break
			}
			digits += strconv.Itoa(int(d))
			n = j
		}
		if digits == "" {
			return 0, 0
		}
		f, _ := strconv.ParseFloat("0."+digits, 64)
		return v + f, n + 1
	}
	return v, n
}

// said reads a number of digits that goes on in words: "7 point 4", "7 and a half".
func (p *parser) said(i int) (v float64, n int) {
	whole, ok := p.whole(i)
	switch {
	case !ok:
	case p.text(i+1) == "point" && p.kindAt(i+2) == number && !strings.ContainsAny(p.text(i+2), ".,"):
		v, err := strconv.ParseFloat(p.text(i)+"."+p.text(i+2), 64)
		if err == nil {
			return v, 3
		}
	case p.text(i+1) == "and" && p.text(i+2) == "a" && p.text(i+3) == "half":
		return float64(whole) + 0.5, 4
	}
	return 0, 0
}
