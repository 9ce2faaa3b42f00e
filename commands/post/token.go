package post

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type tokenKind uint8

const (
	word   tokenKind = iota // letters, or letters and digits
	number                  // digits with points and commas
	oddNum                  // looks like a number but holds letters: "O.5"
	sign                    // anything else
)

// token is a piece of text. text is in lower case, words without apostrophes.
type token struct {
	kind     tokenKind
	text     string
	from, to int // in the cleaned text
	gap      int // blanks before it, 2 for two and more
}

// formulas are names that hold digits of their own.
var formulas = []string{"caco3", "h2o2", "sio2", "sio3", "hco3", "nh3", "nh4", "no2", "no3", "n02", "n03", "po4", "so4", "co2", "cl2", "fe2", "fe3", "o2", "h2s"}

// tokens cuts text[from:to] into tokens. Newlines are tokens, blanks are not.
func tokens(text string, from, to int) []token {
	var out []token
	gap := 0
	for i := from; i < to; {
		r, n := utf8.DecodeRuneInString(text[i:to])
		if r == ' ' {
			gap = min(gap+1, 2)
			i++
			continue
		}
		t := token{kind: sign, from: i, to: i + n, gap: gap}
		rest := text[i:to]
		odd := oddLen(rest)
		switch {
		case odd > 0:
			t.kind, t.to = oddNum, i+odd
		case isDigit(byte(r)) && r < 128 || r == '.' && startsPointNumber(text, i, from, to):
			t.kind, t.to = number, i+numberLen(rest)
		case unicode.IsLetter(r):
			t.kind, t.to = word, i+wordLen(rest)
		default:
			t.to = i + signLen(rest, n)
		}
		t.text = strings.ToLower(text[t.from:t.to])
		if t.kind == word {
			t.text = strings.ReplaceAll(t.text, "'", "")
		}
		out = append(out, t)
		gap = 0
		i = t.to
	}
	return out
}

// startsPointNumber tells ".5" from the end of a sentence and from "...5".
func startsPointNumber(text string, i, from, to int) bool {
	if i+1 >= to || !isDigit(text[i+1]) {
		return false
	}
	if j := i + 1 + numberLen(text[i+1:to]); i > from && isLetter(text[i-1]) && strings.ContainsAny(text[i+1:j], ".,") {
		return false // "amm.0.25"
	}
	return i == from || text[i-1] != '.' && !isDigit(text[i-1])
}

// numberLen takes digits, with single points and commas that a digit follows.
func numberLen(s string) int {
	i := 0
	for i < len(s) {
		switch {
		case isDigit(s[i]):
			i++
		case (s[i] == '.' || s[i] == ',') && i+1 < len(s) && isDigit(s[i+1]):
			i += 2
		default:
			return i
		}
	}
	return i
}

// oddLen returns the length of a number written with the letter O, l or I for
// a digit ("O.5", "2.O", "1O ppm"), 0 if there is none.
func oddLen(s string) int {
	i, digits, letters, points := 0, 0, 0, 0
scan:
	for i < len(s) && i < 12 {
		c, next := s[i], byte(0)
		if i+1 < len(s) {
			next = s[i+1]
		}
		switch {
		case isDigit(c):
			digits++
		case c == 'o' || c == 'O', i == 0 && (c == 'l' || c == 'I') && (next == '.' || next == ','):
			letters++
		case i > 0 && (c == '.' || c == ',') && (isDigit(next) || next == 'O' || next == 'o'):
			points++
		default:
			if isLetter(c) && !hasUnit(s[i:]) {
				return 0
			}
			break scan
		}
		i++
	}
	if letters == 0 || digits == 0 || letters > 2 || !isDigit(s[0]) && points == 0 {
		return 0
	}
	return i
}

func hasUnit(s string) bool {
	l := strings.ToLower(s[:min(len(s), 4)])
	return strings.HasPrefix(l, "ppm") || strings.HasPrefix(l, "mg")
}

// wordLen takes letters and apostrophes between them. Digits belong to a word
// in formulas ("no2") and in names of things ("ac70"); after a name of a test
// they are its value ("ph7.4").
func wordLen(s string) int {
	i := 0
	for i < len(s) {
		r, n := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsLetter(r) && !(r == '\'' && i+1 < len(s) && isLetter(s[i+1])) {
			break
		}
		i += n
	}
	if i >= len(s) || !isDigit(s[i]) {
		return i
	}
	low := strings.ToLower(s[:min(len(s), 24)])
	for _, f := range formulas {
		if strings.HasPrefix(low, f) && i < len(f) {
			j := len(f)
			if j < len(s) && isDigit(s[j]) && (j+1 >= len(s) || s[j+1] != '.') {
				break // "no25": unclear
			}
			if j < len(s) && isLetter(s[j]) {
				if (s[j] == 'n' || s[j] == 'N') && (j+1 >= len(s) || !isLetter(s[j+1]) && !isDigit(s[j+1])) {
					j++
				} else if !startsWithFormula(low[j:]) {
					break
				}
			}
			return j
		}
	}
	letters := strings.ToLower(strings.ReplaceAll(s[:i], "'", ""))
	if _, ok := labels[letters]; ok && letters != "nh" || letters == "day" || letters == "d" || letters == "wk" || letters == "week" || letters == "am" || letters == "ni" || letters == "na" {
		return i
	}
	for i < len(s) && (isLetter(s[i]) || isDigit(s[i])) {
		i++
	}
	return i
}

func startsWithFormula(s string) bool {
	for _, f := range formulas {
		if strings.HasPrefix(s, f) {
			return true
		}
	}
	return false
}

// signLen joins arrows, leaders of dots and comparison signs.
func signLen(s string, n int) int {
	for _, a := range []string{"--->", "-->", "==>", "->", "=>", "//", ">=", "=<", "<=", ">>>", ">>"} {
		if strings.HasPrefix(s, a) {
			return len(a)
		}
	}
	if c := s[0]; strings.IndexByte(".-=?!+", c) >= 0 || s[0] == '~' {
		for n < len(s) && s[n] == c {
			n++
		}
	}
	return n
}
