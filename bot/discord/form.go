package discord

import (
	"context"
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

// form returns the form of a command, filled in as far as is known.
func (f *flow) form(r commands.Request, owner string) (m *Modal, ok bool) {
	form := forms[path(r)]
	s := f.specs[path(r)]
	preset := commands.Request{Command: r.Command, Sub: r.Sub, Options: map[string]string{}}
	for name, value := range r.Options {
		preset.Options[name] = value
	}
	m = &Modal{Title: clip(form.title, maxTitle)}
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
		delete(preset.Options, name)
	}
	m.ID, ok = press{verbForm, owner, typed(preset)}.id()
	return m, ok
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

// submitted takes a form that was filled in.
func (f *flow) submitted(ctx context.Context, i *discordgo.Interaction, d discordgo.ModalSubmitInteractionData) error {
	p, ok := readPress(d.CustomID)
	r, bad := p.request()
	if !ok || bad != nil || p.owner != asker(i) {
		return f.say(ctx, i, gone)
	}
	for name, value := range fields(d.Components) {
		r.Options[name] = strings.TrimSpace(value)
	}
	if path(r) == "tank new" {
		return f.secondStep(ctx, i, r)
	}
	return f.ask(ctx, i, r)
}
