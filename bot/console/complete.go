package console

import (
	"slices"
	"strings"

	"ripen/commands"
)

// Completer completes typed lines from the description of the commands.
type Completer struct {
	Specs     []commands.Spec
	Moderator bool            // whether moderators' commands and options are offered
	Tanks     func() []string // the member's tanks; asked for each time
}

// Complete returns what the word that ends at byte pos can become: the line is
// head, one of the words, and tail.
func (c Completer) Complete(line string, pos int) (head string, words []string, tail string) {
	before := line[:pos]
	start := wordStart(before)
	head, tail = before[:start], line[pos:]
	typed := before[start:]
	said := strings.Fields(strings.ToLower(head))
	for _, w := range c.candidates(said, typed) {
		if len(w) >= len(typed) && strings.EqualFold(w[:len(typed)], typed) {
			words = append(words, w)
		}
	}
	return head, words, tail
}

// candidates returns what may stand after the words said.
func (c Completer) candidates(said []string, typed string) []string {
	if len(said) == 0 {
		words := []string{"!add "}
		for _, s := range c.specs() {
			if !s.Post {
				words = append(words, "/"+s.Name+" ")
			}
		}
		return slices.Compact(words)
	}
	name := strings.TrimPrefix(said[0], "/")
	if name == "help" {
		return c.paths(said[1:])
	}
	if len(said) == 1 {
		if subs := c.subs(name); len(subs) > 0 {
			return subs
		}
	}
	for _, s := range c.specs() {
		if s.Name == name && (s.Sub == "" || len(said) > 1 && s.Sub == said[1]) {
			return c.options(s, said, typed)
		}
	}
	return nil
}

// specs returns the commands that the member may use.
func (c Completer) specs() []commands.Spec {
	return slices.DeleteFunc(slices.Clone(c.Specs), func(s commands.Spec) bool { return s.Moderator && !c.Moderator })
}

func (c Completer) subs(name string) (words []string) {
	for _, s := range c.specs() {
		if s.Name == name && s.Sub != "" {
			words = append(words, s.Sub+" ")
		}
	}
	return words
}

// paths completes the words after /help, which are those of a command.
func (c Completer) paths(said []string) (words []string) {
	for _, s := range c.specs() {
		path := strings.Fields(s.Path())
		if len(path) > len(said) && slices.Equal(path[:len(said)], said) {
			words = append(words, path[len(said)]+" ")
		}
	}
	return slices.Compact(words)
}

// options completes the name of an option that is not there yet, or the value
// of one that takes a choice or a tank.
func (c Completer) options(s commands.Spec, said []string, typed string) (words []string) {
	name, _, hasValue := strings.Cut(typed, ":")
	for _, o := range s.Options {
		if o.Moderator && !c.Moderator {
			continue
		}
		switch {
		case hasValue && strings.EqualFold(o.Name, name):
			for _, v := range c.values(o) {
				words = append(words, name+":"+v+" ")
			}
		case !hasValue && !slices.ContainsFunc(said, func(w string) bool { return strings.HasPrefix(w, o.Name+":") }):
			words = append(words, o.Name+":")
		}
	}
	return words
}

func (c Completer) values(o commands.Option) []string {
	if o.Type != commands.TypeTank || c.Tanks == nil {
		return o.Choices
	}
	var names []string
	for _, t := range c.Tanks() {
		if strings.ContainsAny(t, ` "\`) {
			t = `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(t) + `"`
		}
		names = append(names, t)
	}
	return names
}

// wordStart returns where the last word of s begins; blanks inside double
// quotes are part of a word.
func wordStart(s string) int {
	start, quoted := 0, false
	for i := range len(s) {
		switch {
		case s[i] == '"':
			quoted = !quoted
		case s[i] == ' ' && !quoted:
			start = i + 1
		}
	}
	return start
}
