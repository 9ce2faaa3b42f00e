// Package page fits replies to the width of a terminal.
package page

import (
	"strings"
	"unicode"

	"github.com/mattn/go-runewidth"
)

// Width is the width that replies are made for, in columns.
const Width = 80

// columns measures text without asking the locale, so that the same text
// breaks at the same place everywhere.
var columns = &runewidth.Condition{}

// Wrap breaks the lines of text that are wider than width columns at blanks,
// and words wider than that where they must. Lines that fit stay as they are,
// so charts and tables keep their shape. A broken line goes on under its own
// indent, under the text of its bullet or behind its first column if it has one. Each line starts with
// indent, which counts towards the width. Control characters become blanks.
func Wrap(text string, width int, indent string) string {
	var out strings.Builder
	for i, l := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if i > 0 {
			out.WriteByte('\n')
		}
		wrapLine(&out, Clean(l), width-columns.StringWidth(indent), indent)
	}
	return out.String()
}

func wrapLine(out *strings.Builder, l string, width int, indent string) {
	l = strings.TrimRight(l, " ")
	if l == "" {
		return
	}
	out.WriteString(indent)
	if columns.StringWidth(l) <= width {
		out.WriteString(l)
		return
	}
	body := strings.TrimLeft(l, " ")
	mark := max(bullet(body), term(body, width/3))
	head := l[:len(l)-len(body)+mark]
	used, start := columns.StringWidth(head), true
	hang := strings.Repeat(" ", min(used, width/2))
	out.WriteString(head)
	for _, word := range strings.Fields(body[mark:]) {
		w := columns.StringWidth(word)
		if !start && used+1+w > width {
			out.WriteString("\n" + indent + hang)
			used, start = len(hang), true
		}
		if !start {
			out.WriteByte(' ')
			used++
		}
		for w > width-used {
			head := columns.Truncate(word, width-used, "")
			if head == "" {
				break // not even one character fits
			}
			out.WriteString(head + "\n" + indent + hang)
			word = word[len(head):]
			w, used = columns.StringWidth(word), len(hang)
		}
		out.WriteString(word)
		used, start = used+w, false
	}
}

// bullet returns the width of the mark that starts an item of a list.
func bullet(s string) int {
	for _, mark := range []string{"- ", "* ", "• "} {
		if strings.HasPrefix(s, mark) {
			return 2
		}
	}
	if i := strings.Index(s, ". "); i > 0 && i < 3 && strings.Trim(s[:i], "0123456789") == "" {
		return i + 2
	}
	return 0
}

// term returns the width of the first column of a table, with the blanks behind it, where it
// has one that is no wider than most.
func term(s string, most int) int {
	i := strings.Index(s, "  ")
	if i < 0 {
		return 0
	}
	to := len(s) - len(strings.TrimLeft(s[i:], " "))
	if columns.StringWidth(s[:to]) > most {
		return 0
	}
	return to
}

// Clean makes blanks of the characters that a terminal would act on instead of
// showing them.
func Clean(s string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, s)
}
