package post

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// folded are characters that a fold to compatible ones does not bring home.
var folded = map[rune]string{
	'’': "'", '‘': "'", '´': "'", '“': `"`, '”': `"`, 'º': "°", '˚': "°",
	'½': ".5", '¼': ".25", '¾': ".75", '⅛': ".125", '⅓': ".33",
	'‐': "-", '‑': "-", '−': "-", '–': "–", '—': "–", '―': "–", '‒': "–",
	'≈': "~", '∼': "~", '≃': "~", '≅': "~", '˜': "~", '⁓': "~",
	'→': "→", '⇒': "→", '➜': "→", '➔': "→", '⟶': "→", '➡': "→", '⮕': "→", '➝': "→", '►': "→", '▶': "→",
	'↑': " ", '↓': " ",
	'•': ";", '●': ";", '▪': ";", '‣': ";", '◦': ";", '·': ";", '∙': ";",
	'£': "£", '€': "€", '⁄': "/", '≤': "≤", '≥': "≥", '⩽': "≤", '⩾': "≥", '°': "°", '±': "±", '×': "×",
	'µ': "u", 'μ': "u", '٫': ".", '、': ",", '，': ",", '。': ". ",
	// Letters that look Latin; a zero made of one stays a letter, and doubtful.
	'а': "a", 'е': "e", 'о': "o", 'р': "p", 'с': "c", 'х': "x", 'і': "i", 'у': "y", 'к': "k", 'м': "m", 'т': "t", 'н': "h",
	'А': "A", 'В': "B", 'Е': "E", 'К': "K", 'М': "M", 'Н': "H", 'О': "O", 'Р': "P", 'С': "C", 'Т': "T", 'Х': "X", 'І': "I",
	'ο': "o", 'Ο': "O", 'Ν': "N", 'Η': "H", 'Ρ': "P", 'Κ': "K", 'Τ': "T", 'ı': "i",
}

// fold returns plain characters for r: compatible forms, plain digits, letters
// without accents; a blank for symbols, nothing for what cannot be seen.
func fold(r rune) string {
	if s, ok := folded[r]; ok {
		return s
	}
	if unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Mn, r) || unicode.Is(unicode.Me, r) || r == '\u115f' || r == '\u3164' {
		return ""
	}
	if s, ok := plainDigit(r); ok {
		return s
	}
	if unicode.IsSpace(r) {
		return " "
	}
	var b strings.Builder
	for _, q := range norm.NFKD.String(string(r)) {
		s, ok := folded[q]
		switch {
		case ok:
			b.WriteString(s)
		case unicode.Is(unicode.Mn, q):
		case q < 128 || unicode.IsLetter(q):
			b.WriteRune(q)
		default:
			b.WriteByte(' ')
		}
	}
	return b.String()
}

// plainDigit turns a decimal digit of any script to 0-9. Digits of a script
// stand in blocks of ten from zero.
func plainDigit(r rune) (string, bool) {
	if !unicode.IsDigit(r) {
		return "", false
	}
	for _, t := range unicode.Nd.R16 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10), true
		}
	}
	for _, t := range unicode.Nd.R32 {
		if rune(t.Lo) <= r && r <= rune(t.Hi) {
			return string('0' + (r-rune(t.Lo))%10), true
		}
	}
	return "", false
}
