package store

import (
	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// Fold returns the form in which names are compared: names that fold alike are
// one name, whatever their case and however their accents are encoded. Bytes
// that are not UTF-8 stay as they are.
//
// Source: The Unicode Standard, section 3.13, definition D145 (canonical
// caseless match).
func Fold(name string) string {
	return norm.NFD.String(cases.Fold().String(norm.NFD.String(name)))
}
