package discord

import (
	"context"
	"maps"
	"strings"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// form is what a form asks for, at most five options of a command.
type form struct {
	title  string
	fields []string
	enough func(options map[string]string) bool // nothing need be asked; nil where only a button opens the form
}

// forms are the commands that ask for what was left out, by path.
var forms = map[string]form{
	"tank new": {"Register a tank", []string{"name", "volume", "ph", "kh", "temp"}, func(o map[string]string) bool { return o["name"] != "" && o["volume"] != "" }},
	"reading":  {"What your tests show", []string{"ammonia", "nitrite", "nitrate", "ph", "kh"}, anyTest},
	"log":      {"What you did or saw", []string{"amount", "detail", "at"}, nil},
}

// anyTest says whether any test result is among the options of /reading.
func anyTest(options map[string]string) bool {
	for name := range options {
		switch name {
		case "tank", "at", "kit", "scale":
		default:
			return true
		}
	}
	return false
}

// formFor returns the form that a request needs before it can be asked; ok is
// false if it needs none.
func (f *flow) formFor(r commands.Request, owner string) (m *Modal, ok bool) {
	if form, has := forms[path(r)]; !has || form.enough == nil || form.enough(r.Options) {
		return nil, false
	}
	return f.form(r, owner)
}

// form returns the form of a command; its id holds what the form does not ask for. ok is
// false if that is too long.
func (f *flow) form(r commands.Request, owner string) (m *Modal, ok bool) {
	m = f.filled(r)
	m.ID, ok = press{verbForm, owner, typed(unasked(r))}.id()
	return m, ok
}

// unasked is a request without what its form asks for.
func unasked(r commands.Request) commands.Request {
	r.Options = maps.Clone(r.Options)
	for _, name := range forms[path(r)].fields {
		delete(r.Options, name)
	}
	return r
}

// filled returns the form of a command without an id, filled in as far as is known.
func (f *flow) filled(r commands.Request) *Modal {
	form, s := forms[path(r)], f.specs[path(r)]
	m := &Modal{Title: clip(form.title, maxTitle)}
	for _, name := range form.fields {
		o, has := s.Option(name)
		if !has {
			continue
		}
		style, most := discordgo.TextInputShort, 200
		if o.Type == commands.TypeNote {
			style, most = discordgo.TextInputParagraph, 2000
		}
		m.Components = append(m.Components, discordgo.ActionsRow{Components: []discordgo.MessageComponent{discordgo.TextInput{
			CustomID: name, Label: clip(labelOf(o), maxTitle), Style: style, Placeholder: clip(o.Help, maxHint),
			Value: r.Options[name], Required: o.Required, MaxLength: most,
		}}})
	}
	return m
}

// labelOf names a field of a form.
func labelOf(o commands.Option) string {
	switch o.Name {
	case "ph":
		return "pH"
	case "kh":
		return "KH"
	}
	label := strings.ToUpper(o.Name[:1]) + strings.ReplaceAll(o.Name[1:], "-", " ")
	if o.Unit == "mg/L" {
		label += ", " + o.Unit
	}
	return label
}

// begun is the command that a form adds to: of its id, or of the draft that it changes.
func (f *flow) begun(ctx context.Context, i *discordgo.Interaction, p press) (r commands.Request, ok bool, err error) {
	if p.verb != verbChange {
		r, bad := p.request()
		return r, bad == nil, nil
	}
	d, ok, err := f.draft(ctx, i.GuildID, p.owner, p.rest)
	return unasked(d.request), ok, err
}

// submitted takes a form that was filled in.
func (f *flow) submitted(ctx context.Context, i *discordgo.Interaction, d discordgo.ModalSubmitInteractionData) error {
	p, ok := readPress(d.CustomID)
	if !ok || p.owner != asker(i) {
		return f.say(ctx, i, gone)
	}
	r, ok, err := f.begun(ctx, i, p)
	if err != nil || !ok {
		return f.over(ctx, i, err)
	}
	maps.Copy(r.Options, fields(d.Components))
	if path(r) == "tank new" {
		return f.secondStep(ctx, i, r)
	}
	return f.ask(ctx, i, r)
}
