package commands

import (
	"context"
	"maps"
	"slices"
	"strings"

	"ripen/store"
)

// call is one request on its way through a handler.
type call struct {
	Request
	ctx   context.Context
	book  *Book
	spec  Spec
	units store.Units
	args  map[string]arg
}

// parse finds the command and reads its options; nothing is stored here.
func (b *Book) parse(ctx context.Context, r Request) (*call, error) {
	spec, err := b.find(r.Command, r.Sub)
	if err != nil {
		return nil, err
	}
	if spec.Moderator && !r.Moderator {
		return nil, refuse(CodeRights, "", "/%s is for moderators", spec.Path())
	}
	m, serr := b.store.Member(ctx, r.Club, r.Member)
	if serr != nil {
		return nil, serr
	}
	c := &call{Request: r, ctx: ctx, book: b, spec: spec, units: m.Units, args: map[string]arg{}}
	if spec.Post {
		return c, nil
	}
	for _, name := range slices.Sorted(maps.Keys(r.Options)) {
		o, ok := spec.Option(strings.ToLower(name))
		if !ok {
			return nil, unknownOption(spec, name)
		}
		if o.Moderator && !r.Moderator {
			return nil, refuse(CodeRights, o.Name, "%s is for moderators; leave it out to ask about your own tank", o.Name)
		}
	}
	return c, nil
}

// find returns the spec of a command as typed.
func (b *Book) find(command, sub string) (Spec, *Error) {
	i := slices.IndexFunc(b.specs, func(s Spec) bool {
		return strings.EqualFold(s.Name, command) && strings.EqualFold(s.Sub, sub)
	})
	if i < 0 {
		return Spec{}, refuse(CodeUnknownCommand, "", "there is no command /%s; /help lists them all", command)
	}
	return b.specs[i], nil
}

func unknownOption(s Spec, name string) *Error {
	return refuse(CodeUnknownOption, name, "/%s has no option %s", s.Path(), quote(name))
}

func quote(s string) string { return "\"" + s + "\"" }

type arg struct{ typed string }
