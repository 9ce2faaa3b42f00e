package commands

import (
	"strings"
	"unicode"
)

// markup writes a post for one kind of forum.
type markup struct {
	name string
	bold func(string) string
	item string // what begins a line of a list
	pipe bool   // tables stand between pipes, else in columns
	wrap [2]string
	safe *strings.Replacer
}

// apart stands where two characters must not meet. It takes no room.
const apart = "\u200b"

// markups are the ways to write a post, the first being the usual one. In each, what
// is not markup is made safe: nobody is mentioned, nothing is linked, and no word can
// begin or end markup.
var markups = []markup{
	{name: "text", bold: func(s string) string { return s }, item: "- ", safe: strings.NewReplacer("@", "@"+apart, "<", "<"+apart, "://", ":"+apart+"//", "www.", "www"+apart+".")},
	{name: "markdown", bold: func(s string) string { return "**" + s + "**" }, item: "- ", pipe: true, safe: strings.NewReplacer(
		"@", "@"+apart, "://", ":"+apart+"//", "www.", "www"+apart+".", `\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "~", `\~`, "|", `\|`, "[", `\[`, "]", `\]`,
		"<", `\<`, ">", `\>`, "#", `\#`, "&", "&amp;")},
	{name: "bbcode", bold: func(s string) string { return "[b]" + s + "[/b]" }, item: "- ", wrap: [2]string{"[code]\n", "\n[/code]"}, safe: strings.NewReplacer(
		"@", "@"+apart, "<", "<"+apart, "://", ":"+apart+"//", "www.", "www"+apart+".", "[", "(", "]", ")")},
}

func markupNames() []string {
	var names []string
	for _, m := range markups {
		names = append(names, m.name)
	}
	return names
}

// markupOf returns the markup of a name that passed its option's choices.
func markupOf(name string) markup {
	for _, m := range markups {
		if m.name == name {
			return m
		}
	}
	return markups[0]
}

// plain makes words safe to stand in the post, on one line.
func (m markup) plain(s string) string {
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		if !unicode.IsPrint(r) {
			return -1 // also what turns the direction of writing
		}
		return r
	}, s)
	return m.safe.Replace(s)
}

// list writes lines, each with its mark.
func (m markup) list(lines []string) string {
	var b strings.Builder
	for _, l := range lines {
		b.WriteString("\n" + m.item + m.plain(l))
	}
	return b.String()
}

// table writes rows of as many cells as the head has; a row of one cell stands
// across.
func (m markup) table(head []string, rows [][]string) string {
	cells := make([][]string, 0, len(rows)+2)
	for i, row := range append([][]string{head}, rows...) {
		var line []string
		for _, c := range row {
			line = append(line, m.plain(c))
		}
		cells = append(cells, line)
		if i == 0 && m.pipe {
			cells = append(cells, strings.Split(strings.Repeat("---,", len(head)-1)+"---", ","))
		}
	}
	widths := make([]int, len(head))
	for _, row := range cells {
		for i, c := range row {
			if len(row) == len(head) {
				widths[i] = max(widths[i], len([]rune(c)))
			}
		}
	}
	var lines []string
	for _, row := range cells {
		switch {
		case m.pipe:
			for len(row) < len(head) {
				row = append(row, "")
			}
			lines = append(lines, "| "+strings.Join(row, " | ")+" |")
		default:
			for i := range row {
				row[i] += strings.Repeat(" ", max(widths[i]-len([]rune(row[i])), 0))
			}
			lines = append(lines, strings.TrimRight(strings.Join(row, "  "), " "))
		}
	}
	return m.wrap[0] + strings.Join(lines, "\n") + m.wrap[1]
}
