package discord

import (
	"context"
	"strings"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// gone is said of a button or form whose matter is over.
const gone = "That is over: it was sent already, or another took its place. Ask again with the command."

// chosen are the options of /tank new that menus ask for, in the second step.
var chosen = []string{"method", "plants", "media", "source"}

// formNote is the name under which a member's half-filled form is kept, one for
// each member.
func formNote(member string) string { return "form/" + member }

// draft is a form that was filled in so far: its id, and the command that it
// will be.
type draft struct {
	id      string
	request commands.Request
}

func (f *flow) saveDraft(ctx context.Context, club, member string, d draft) error {
	return f.notes.SetNote(ctx, club, formNote(member), d.id+" "+typed(d.request))
}

// draft returns the member's draft; ok is false if it is not that of the id.
func (f *flow) draft(ctx context.Context, club, member, id string) (d draft, ok bool, err error) {
	text, err := f.notes.Note(ctx, club, formNote(member))
	if err != nil {
		return d, false, err
	}
	has, line, _ := strings.Cut(text, " ")
	r, bad := press{rest: line}.request()
	return draft{has, r}, has == id && id != "" && bad == nil, nil
}

// secondStep keeps what the first form was told and asks for the choices. The
// tank is registered once for each form, however often it is pressed.
func (f *flow) secondStep(ctx context.Context, i *discordgo.Interaction, r commands.Request) error {
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredChannelMessageWithSource); err != nil {
		return err
	}
	d := draft{i.ID, r}
	if err := f.saveDraft(ctx, i.GuildID, asker(i), d); err != nil {
		return err
	}
	return f.api.Edit(ctx, i, f.stepMessage(asker(i), d, ""))
}

// stepMessage shows a draft, with a menu for each choice. Above it stands why
// it was refused, if it was.
func (f *flow) stepMessage(owner string, d draft, why string) Message {
	m := Message{Private: true}
	text := "To be registered: " + strings.TrimPrefix(typed(d.request), "tank new ") + "\nChoose what you know, then press Register."
	if why != "" {
		text = refused + why + "\n\n" + text
	}
	m.Content = split(dress(text, nil), maxContent)[0]
	s := f.specs[path(d.request)]
	for _, name := range chosen {
		o, ok := s.Option(name)
		if !ok {
			continue
		}
		id, _ := press{verbSet, owner, d.id + " " + name}.id()
		menu := discordgo.SelectMenu{MenuType: discordgo.StringSelectMenu, CustomID: id, Placeholder: clip(o.Help, maxHint)}
		for _, c := range o.Choices {
			menu.Options = append(menu.Options, discordgo.SelectMenuOption{Label: labelOf(o) + ": " + c, Value: c, Default: d.request.Options[name] == c})
		}
		m.Components = append(m.Components, discordgo.ActionsRow{Components: []discordgo.MessageComponent{menu}})
	}
	b := row{flow: f, owner: owner}
	b.add("Register", press{verbNew, owner, d.id}, discordgo.SuccessButton)
	b.add("Change", press{verbChange, owner, d.id}, discordgo.SecondaryButton)
	m.Components = append(m.Components, b.components()...)
	return m
}

// choose sets an option of a draft.
func (f *flow) choose(ctx context.Context, i *discordgo.Interaction, p press, values []string) error {
	id, name, _ := strings.Cut(p.rest, " ")
	d, ok, err := f.draft(ctx, i.GuildID, p.owner, id)
	if err != nil || !ok || len(values) != 1 {
		return f.over(ctx, i, err)
	}
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	d.request.Options[name] = values[0]
	if err := f.saveDraft(ctx, i.GuildID, p.owner, d); err != nil {
		return err
	}
	return f.api.Edit(ctx, i, f.stepMessage(p.owner, d, ""))
}

// change opens the first form again, as it was filled in.
func (f *flow) change(ctx context.Context, i *discordgo.Interaction, p press) error {
	d, ok, err := f.draft(ctx, i.GuildID, p.owner, p.rest)
	if err != nil || !ok {
		return f.over(ctx, i, err)
	}
	form := f.filled(d.request)
	form.ID, _ = p.id() // the draft has what the form does not ask for, which may be long
	return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionResponseModal, Modal: form})
}

// registerTank registers what a draft describes, and puts the answer in the
// place of its menus.
func (f *flow) registerTank(ctx context.Context, i *discordgo.Interaction, p press) error {
	d, ok, err := f.draft(ctx, i.GuildID, p.owner, p.rest)
	if err != nil || !ok {
		return f.over(ctx, i, err)
	}
	r, err := fill(d.request, i)
	if err != nil {
		return err
	}
	r.Key = keyed(d.id)
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	reply := f.do(ctx, r)
	if !reply.OK {
		return f.api.Edit(ctx, i, f.stepMessage(p.owner, d, reply.Text))
	}
	if err := f.send(ctx, i, f.messages(ctx, r, reply)); err != nil {
		return err
	}
	return f.notes.SetNote(ctx, i.GuildID, formNote(p.owner), "")
}

// over says that a matter is over, unless err came between.
func (f *flow) over(ctx context.Context, i *discordgo.Interaction, err error) error {
	if err != nil {
		return err
	}
	return f.say(ctx, i, gone)
}
