package commands

import (
	"context"
	"maps"
	"slices"
	"strings"

	"ripen/engine/pool"
	"ripen/store"
)

// call is one request on its way through a handler.
type call struct {
	Request
	ctx   context.Context
	book  *Book
	spec  Spec
	units store.Units
	args  map[string]arg // by option name; only what was given

	adviser Adviser    // for the club; nil where there is none
	prior   pool.Prior // what the club's tanks taught it
}

// has says whether the option was given.
func (c *call) has(option string) bool { _, ok := c.args[option]; return ok }

// parse finds the command and reads its options; nothing is stored here.
func (b *Book) parse(ctx context.Context, r Request) (*call, error) {
	spec, err := b.find(r.Command, r.Sub)
	if err != nil {
		return nil, err
	}
	if spec.Name == "help" && r.Sub != "" {
		r.Options = map[string]string{"command": r.Sub}
	}
	if spec.Moderator && !r.Moderator {
		return nil, refuse(CodeRights, "", "/%s is for moderators", spec.Path())
	}
	given, err := match(spec, r)
	if err != nil {
		return nil, err
	}
	m, storeErr := b.store.Member(ctx, r.Club, r.Member)
	if storeErr != nil {
		return nil, storeErr
	}
	c := &call{Request: r, ctx: ctx, book: b, spec: spec, units: m.Units, args: map[string]arg{}}
	if c.adviser, c.prior, storeErr = b.advisers.of(ctx, b.store, r.Club); storeErr != nil {
		return nil, storeErr
	}
	for _, o := range spec.Options {
		typed, ok := given[o.Name]
		if !ok && o.Required {
			return nil, refuse(CodeMissing, o.Name, "/%s needs %s (%s), as in %s", spec.Path(), o.Name, o.Help, spec.Example)
		}
		if !ok {
			continue
		}
		a, err := readValue(o, typed, bareUnit(o, m.Units))
		if err != nil {
			return nil, err
		}
		c.args[o.Name] = a
	}
	return c, c.ask()
}

// match pairs what was typed with the options of a command, by option name.
func match(spec Spec, r Request) (map[string]string, *Error) {
	given := map[string]string{}
	for _, typed := range slices.Sorted(maps.Keys(r.Options)) {
		name := strings.ToLower(typed)
		o, ok := spec.Option(name)
		if !ok {
			return nil, unknownOption(spec, name)
		}
		if _, twice := given[name]; twice {
			return nil, refuse(CodeRepeated, name, "%s is given twice; name it once", name)
		}
		if o.Moderator && !r.Moderator {
			return nil, refuse(CodeRights, name, "%s is for moderators; leave it out to ask about your own tank", name)
		}
		given[name] = r.Options[typed]
	}
	return given, nil
}

func unknownOption(s Spec, name string) *Error {
	if err := checkText(name, "", maxValue, false); err != nil {
		return refuse(err.Code, "", "/%s was given an option whose name cannot be read", s.Path())
	}
	names := optionNames(s)
	if len(names) == 0 {
		return refuse(CodeUnknownOption, name, "/%s has no option %s; it takes none", s.Path(), quote(name))
	}
	return refuse(CodeUnknownOption, name, "/%s has no option %s%s; it takes %s",
		s.Path(), quote(name), didYouMean(name, names), strings.Join(names, ", "))
}

func optionNames(s Spec) []string {
	var names []string
	for _, o := range s.Options {
		names = append(names, o.Name)
	}
	return names
}

// find returns the spec of a command as typed.
func (b *Book) find(command, sub string) (Spec, *Error) {
	var subs, names []string
	for _, s := range b.specs {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
		if !strings.EqualFold(s.Name, command) {
			continue
		}
		if strings.EqualFold(s.Sub, sub) || s.Name == "help" {
			return s, nil
		}
		subs = append(subs, s.Sub)
	}
	for _, typed := range []string{command, sub} {
		if err := checkText(typed, "", maxValue, false); err != nil {
			return Spec{}, refuse(CodeUnknownCommand, "", "that command cannot be read; /help lists them all")
		}
	}
	switch {
	case len(subs) == 0:
		return Spec{}, refuse(CodeUnknownCommand, "", "there is no command %s%s; /help lists them all",
			quote("/"+command), didYouMean(command, names))
	case subs[0] == "":
		return Spec{}, refuse(CodeUnknownOption, "", "/%s does not know what to do with %s; its options are written name:value, see /help %s",
			strings.ToLower(command), quote(sub), strings.ToLower(command))
	case sub == "":
		return Spec{}, refuse(CodeUnknownCommand, "", "/%s needs a word after it: %s", strings.ToLower(command), list(subs, "or"))
	}
	return Spec{}, refuse(CodeUnknownCommand, "", "there is no %s%s; after /%s stands %s",
		quote("/"+command+" "+sub), didYouMean(sub, subs), strings.ToLower(command), list(subs, "or"))
}
