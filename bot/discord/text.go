package discord

import (
	"slices"
	"strings"
	"unicode"
)

// apart stands where two characters must not meet. It takes no room.
const apart = "\u200b"

// safe makes words mean nothing but themselves: nobody is mentioned, nothing is
// linked, and no character begins or ends markup.
var safe = strings.NewReplacer("@", "@"+apart, "://", ":"+apart+"//", `\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "~", `\~`,
	"|", `\|`, "[", `\[`, "]", `\]`, "<", `\<`, ">", `\>`, "#", `\#`)

// coded makes words safe within a block of code.
var coded = strings.NewReplacer("`", "`"+apart, "@", "@"+apart)

// line is one line of a message, made safe.
type line struct {
	text string
	code bool // stands in a block of code, in letters of one width
}

// dress makes lines of a reply's text. What is indented by two or more becomes code
// where it stands in columns, and a quotation where it is words, which a phone would
// break badly as code. names are written in the place of quoted words, as a mention
// for a member's ID.
func dress(text string, names map[string]string) []line {
	var lines []line
	all := strings.Split(strings.Map(visible, text), "\n")
	for from := 0; from < len(all); {
		to := from + 1
		for to < len(all) && indented(all[from]) && indented(all[to]) {
			to++
		}
		code := slices.ContainsFunc(all[from:to], columned)
		for _, s := range all[from:to] {
			switch {
			case code:
				lines = append(lines, line{coded.Replace(strings.TrimRight(s, " ")), true})
			case indented(s):
				lines = append(lines, line{quote + prose(strings.TrimSpace(s), names), false})
			default:
				lines = append(lines, line{prose(s, names), false})
			}
		}
		from = to
	}
	return lines
}

// quote begins a line that is quoted.
const quote = "> "

func indented(s string) bool { return strings.HasPrefix(s, "  ") && strings.TrimSpace(s) != "" }

// columned holds for an indented line with a gap within.
func columned(s string) bool { return indented(s) && strings.Contains(strings.TrimSpace(s), "  ") }

func prose(s string, names map[string]string) string {
	s = safe.Replace(s)
	for word, name := range names {
		s = strings.ReplaceAll(s, `"`+word+`"`, name)
	}
	return s
}

// visible drops what cannot be seen, such as what turns the direction of
// writing.
func visible(r rune) rune {
	switch {
	case r == '\n':
		return r
	case unicode.IsSpace(r):
		return ' '
	case !unicode.IsPrint(r):
		return -1
	}
	return r
}
