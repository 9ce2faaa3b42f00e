package commands

import (
	"fmt"
	"strings"
)

func helpSpecs() []Spec {
	return []Spec{{Name: "help", Private: true, Help: "all commands, or one of them", Example: "/help reading", run: help,
		Options: []Option{{Name: "command", Type: TypeText, Help: "the command to explain: reading, tank new"}}}}
}

// Help is the description of all commands, or of those asked about.
type Help struct {
	About    string     `json:"about,omitempty"` // the command asked about
	Commands []Spec     `json:"commands"`
	Kinds    []HelpKind `json:"kinds,omitempty"` // of /log
	Tips     []string   `json:"tips,omitempty"`
}

// HelpKind is one thing that can be logged.
type HelpKind struct {
	What string `json:"what"`
	Help string `json:"help"`
}

// help describes commands from their specs.
func help(c *call) (Result, error) {
	about := strings.TrimPrefix(strings.ToLower(c.args["command"].word), "/")
	if about == "" {
		h := Help{Commands: c.visible(""), Tips: []string{
			"a number without a unit is in your units, see /units; a chart that tops out is written 5+, a colour between two steps 20-40",
			"a value with spaces stands in double quotes, as in tank:\"big one\"",
			"days and times are UTC, not your local time; 2 hours ago needs no time zone",
			"start with /tank new name:first volume:60L, then tell your tests with /reading",
		}}
		return h, nil
	}
	h := Help{About: about, Commands: c.visible(about)}
	if len(h.Commands) == 0 {
		command, sub, _ := strings.Cut(about, " ")
		_, err := c.book.find(command, sub)
		if err == nil {
			return nil, refuse(CodeUnknownCommand, "command", "there is no command %s; /help lists them all", quote(about))
		}
		err.Option = "command"
		return nil, err
	}
	if h.Commands[0].Name == "log" {
		for _, k := range logKinds() {
			text := k.help
			if len(k.amounts) > 0 {
				text += "; amount " + k.ways()
			}
			h.Kinds = append(h.Kinds, HelpKind{k.name, text})
		}
	}
	return h, nil
}

// visible returns the commands that the member may use and that are asked
// about: all, those of a name, or one.
func (c *call) visible(about string) []Spec {
	var specs []Spec
	for _, s := range c.book.specs {
		if s.Moderator && !c.Moderator || about != "" && about != s.Name && about != s.Path() {
			continue
		}
		var options []Option
		for _, o := range s.Options {
			if !o.Moderator || c.Moderator {
				options = append(options, o)
			}
		}
		s.Options = options
		specs = append(specs, s)
	}
	return specs
}

// ways says in which units the amount of a kind is told, and its range.
func (k logKind) ways() string {
	var s []string
	for _, o := range k.amounts {
		s = append(s, rangeText(o, measure{}))
	}
	return strings.Join(s, " or ")
}

// Text lists the commands, or the options of those asked about.
func (h Help) Text() string {
	var b strings.Builder
	if h.About == "" {
		b.WriteString("What you can ask:")
		for _, s := range h.Commands {
			fmt.Fprintf(&b, "\n  %-12s %s", s.typed(), s.Help)
		}
		b.WriteString("\nMore about one: /help and its name, as in /help reading")
		for _, t := range h.Tips {
			fmt.Fprintf(&b, "\n- %s", t)
		}
		return b.String()
	}
	for i, s := range h.Commands {
		if i > 0 {
			b.WriteString("\n\n")
		}
		fmt.Fprintf(&b, "%s: %s\nas in  %s", s.typed(), s.Help, s.Example)
		for _, o := range s.Options {
			fmt.Fprintf(&b, "\n  %-12s %s", o.Name, o.Text())
		}
	}
	for _, k := range h.Kinds {
		fmt.Fprintf(&b, "\n  what:%-12s %s", k.What, k.Help)
	}
	return b.String()
}

// typed is how a command begins.
func (s Spec) typed() string {
	if s.Post {
		return "!" + s.Path()
	}
	return "/" + s.Path()
}

// Text describes an option on one line: what it is, its choices, its range.
func (o Option) Text() string {
	text := o.Help
	if len(o.Choices) > 0 {
		text += "; one of " + strings.Join(o.Choices, ", ")
	}
	if o.Max > 0 {
		text += "; " + rangeText(o, measure{})
	}
	if o.Required {
		text += " (needed)"
	}
	return text
}
