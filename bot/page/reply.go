package page

import (
	"fmt"

	"ripen/commands"
)

// longest is how much of a typed line is shown again, in characters.
const longest = 500

// Typed returns a typed line as it can be shown again.
func Typed(s string) string {
	if r := []rune(s); len(r) > longest {
		s = string(r[:longest]) + fmt.Sprintf("… (%d characters)", len(r))
	}
	return Clean(s)
}

// Reply returns a reply as a person reads it, each line behind indent.
func Reply(r commands.Reply, indent string) string {
	text := r.Text
	if !r.OK {
		text = "Not done: " + text
	}
	for _, f := range r.Files {
		text += fmt.Sprintf("\n[%s, %d bytes]", f.Name, len(f.Data))
	}
	return Wrap(text, Width, indent)
}
