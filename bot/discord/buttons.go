package discord

import (
	"context"
	"fmt"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// stamp writes a moment so that each reader sees it in local time; how is the
// platform's letter for a form of it.
func stamp(unix int64, how string) string { return fmt.Sprintf("<t:%d:%s>", unix, how) }

// buttons are the natural next steps behind a reply, nil if there are none.
func (f *flow) buttons(ctx context.Context, r commands.Request, reply commands.Reply) []discordgo.MessageComponent {
	if !reply.OK {
		return f.choice(ctx, r, reply)
	}
	b := row{flow: f, owner: r.Member, member: r.Member}
	if about, ok := reply.Data.(interface{ About() (tank, member string) }); ok {
		b.tank, b.member = about.About()
	}
	stored := false
	switch path(r) {
	case "outlook":
		b.ask("Why?", "why")
		b.ask("Chart", "chart")
	case "why":
		b.ask("Outlook", "outlook")
		b.ask("Chart", "chart")
	case "reading", "log", "add":
		if a, ok := reply.Data.(commands.Added); ok {
			if !a.Stored {
				return nil
			}
			b.tank = a.Reading.Tank
		}
		stored = true
		b.ask("Outlook", "outlook")
		if path(r) != "log" {
			b.form("Log a dose", "log", "what", "dose")
		}
		b.undo(r)
	case "tank new":
		stored = true
		b.form("Add a reading", "reading")
		b.form("Log a dose", "log", "what", "dose")
		b.undo(r)
	case "tank edit", "tank close":
		stored = true
		b.undo(r)
	case "undo", "tank tie", "units", "data export", "data import", "data erase":
		stored = true
	}
	if !stored && b.member == b.owner { // of another's tank nobody else need know
		b.add("Show to everyone", press{verbShow, r.Member, typed(r)}, discordgo.SecondaryButton)
	}
	return b.components()
}

// choice is a menu of tanks behind a question for the tank, nil behind any
// other refusal.
func (f *flow) choice(ctx context.Context, r commands.Request, reply commands.Reply) []discordgo.MessageComponent {
	if reply.Err == nil || reply.Err.Code != commands.CodeAmbiguous || reply.Err.Option != "tank" || r.Command == "add" {
		return nil
	}
	id, ok := press{verbPick, r.Member, typed(r)}.id()
	if !ok {
		return nil
	}
	owner := r.Member
	if member := r.Options["member"]; member != "" {
		owner = member
	}
	return f.tankMenu(ctx, r.Club, owner, id)
}

// row collects the buttons of one reply.
type row struct {
	flow                *flow
	owner, member, tank string // who asked, about whose tank
	all                 []discordgo.MessageComponent
}

// add adds a button whose press fits into a custom id.
func (b *row) add(label string, p press, style discordgo.ButtonStyle) {
	if id, ok := p.id(); ok {
		b.all = append(b.all, discordgo.Button{Label: label, CustomID: id, Style: style})
	}
}

// ask adds a button that asks a command about the same tank.
func (b *row) ask(label, command string) {
	if r, ok := b.about(command); ok {
		b.add(label, press{verbRun, b.owner, typed(r)}, discordgo.PrimaryButton)
	}
}

// form adds a button that opens the form of a command about the same tank.
func (b *row) form(label, command string, preset ...string) {
	r, ok := b.about(command)
	if !ok {
		return
	}
	for k := 0; k+1 < len(preset); k += 2 {
		r.Options[preset[k]] = preset[k+1]
	}
	b.add(label, press{verbForm, b.owner, typed(r)}, discordgo.SecondaryButton)
}

// undo adds a button that takes back what the request stored.
func (b *row) undo(r commands.Request) {
	if id, ok := unkeyed(r.Key); ok {
		b.add("Undo", press{verbUndo, b.owner, id}, discordgo.DangerButton)
	}
}

// about is a command about the tank of the reply; ok is false if there is no
// such command.
func (b *row) about(command string) (r commands.Request, ok bool) {
	s, ok := b.flow.specs[command]
	r.Command, r.Options = command, map[string]string{}
	if b.tank != "" {
		r.Options["tank"] = b.tank
	}
	if _, takes := s.Option("member"); takes && b.member != b.owner {
		r.Options["member"] = b.member
	}
	return r, ok
}

func (b *row) components() []discordgo.MessageComponent {
	if len(b.all) == 0 {
		return nil
	}
	return []discordgo.MessageComponent{discordgo.ActionsRow{Components: b.all}}
}
