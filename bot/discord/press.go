package discord

import (
	"context"
	"strings"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// unkeyed returns the ID of the platform in a key, ok if it has one.
func unkeyed(key string) (string, bool) { return strings.CutPrefix(key, keyed("")) }

// pressed takes the press of a button or a choice from a menu.
func (f *flow) pressed(ctx context.Context, i *discordgo.Interaction, d discordgo.MessageComponentInteractionData) error {
	p, ok := readPress(d.CustomID)
	switch {
	case !ok || i.GuildID == "":
		return f.say(ctx, i, gone)
	case p.owner != asker(i):
		return f.say(ctx, i, "These buttons are for whoever asked; ask for yourself with the command.")
	}
	switch p.verb {
	case verbSet:
		return f.choose(ctx, i, p, d.Values)
	case verbNew:
		return f.registerTank(ctx, i, p)
	case verbChange:
		return f.change(ctx, i, p)
	case verbStore:
		return f.storePost(ctx, i, p)
	case verbFor:
		return f.lookFor(ctx, i, p, d.Values)
	case verbUndo:
		return f.ask(ctx, i, commands.Request{Command: "undo", Of: keyed(p.rest)})
	}
	r, bad := p.request()
	if bad != nil {
		return f.say(ctx, i, gone)
	}
	switch p.verb {
	case verbForm:
		if form, ok := f.form(r, p.owner); ok {
			return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionResponseModal, Modal: form})
		}
	case verbRun:
		return f.ask(ctx, i, r)
	case verbShow:
		return f.show(ctx, i, r)
	case verbPick:
		return f.picked(ctx, i, r, d.Values)
	}
	return f.say(ctx, i, gone)
}

// show asks a command and lets everyone read the answer; a refusal stays
// private.
func (f *flow) show(ctx context.Context, i *discordgo.Interaction, r commands.Request) error {
	r, err := fill(r, i)
	if err != nil {
		return err
	}
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	reply := f.do(ctx, r)
	all := f.messages(ctx, r, reply)
	for k := range all {
		all[k].Private = !reply.OK
		if reply.OK {
			all[k].Components = nil
		}
	}
	return f.follow(ctx, i, all)
}

// picked asks a command of the tank that was chosen, and puts the answer in the
// place of the menu. What it stores it stores once, whichever is chosen.
func (f *flow) picked(ctx context.Context, i *discordgo.Interaction, r commands.Request, values []string) error {
	if len(values) != 1 || i.Message == nil {
		return f.say(ctx, i, gone)
	}
	r.Options["tank"] = values[0]
	r, err := fill(r, i)
	if err != nil {
		return err
	}
	r.Key = keyed(i.Message.ID)
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	return f.send(ctx, i, f.messages(ctx, r, f.do(ctx, r)))
}
