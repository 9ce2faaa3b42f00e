package post

import (
	"slices"
	"strings"
	"unicode"
)

// strange reports whether a number that no name claims looks like a reading after
// all: one with decimals and no unit, outside a question, that is not told again
// and has no letter of its own before it.
func (r *reader) strange(x *reading) bool {
	text := r.src.text
	if x.amt.unit != noUnit || x.amt.word != notWord || x.sense.left != "" || x.sense.dose != "" || x.sense.old || !strings.ContainsAny(text[x.from:x.to], ".,") {
		return false
	}
	if end := strings.IndexAny(text[x.to:], ".!?\n"); end >= 0 && text[x.to+end] == '?' {
		return false
	}
	before := strings.FieldsFunc(text[max(0, x.from-12):x.from], func(c rune) bool { return unicode.IsSpace(c) || c == ':' || c == '=' })
	if n := len(before); n > 0 && len(before[n-1]) == 1 && isLetter(before[n-1][0]) {
		return false
	}
	return !slices.ContainsFunc(r.result.Found, func(f Found) bool { return f.Low == x.amt.low && f.High == x.amt.high })
}
