package discord

import (
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

// dress makes lines of a reply's text. What is indented by two or more stands in
// columns, so it becomes code. names are written in the place of quoted words,
// as a mention for a member's ID.
func dress(text string, names map[string]string) []line {
	var lines []line
	for _, s := range strings.Split(text, "\n") {
		s = strings.Map(visible, s)
		l := line{code: strings.HasPrefix(s, "  ")}
		if l.code {
			l.text = coded.Replace(strings.TrimRight(s, " "))
		} else {
			l.text = safe.Replace(s)
			for word, name := range names {
				l.text = strings.ReplaceAll(l.text, `"`+word+`"`, name)
			}
		}
		lines = append(lines, l)
	}
	return lines
}

// visible drops what cannot be seen, such as what turns the direction of
// writing.
func visible(r rune) rune {
	switch {
	case unicode.IsSpace(r):
		return ' '
	case !unicode.IsPrint(r):
		return -1
	}
	return r
}
