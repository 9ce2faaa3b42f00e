package discord

import (
	"context"
	"strings"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// postNote is the name under which the post that a member looks at is kept, one
// for each member.
func postNote(member string) string { return "post/" + member }

// addMenu shows what is understood of a post. It is stored on a press only.
func (f *flow) addMenu(ctx context.Context, i *discordgo.Interaction, d discordgo.ApplicationCommandInteractionData) error {
	var post *discordgo.Message
	if d.Resolved != nil {
		post = d.Resolved.Messages[d.TargetID]
	}
	switch {
	case post == nil:
		return f.say(ctx, i, "That post can't be read; send its words with /add.")
	case post.Author == nil || post.Author.ID != asker(i):
		return f.say(ctx, i, "That post is someone else's. Only who wrote a post can add its readings.")
	}
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredChannelMessageWithSource); err != nil {
		return err
	}
	if err := f.notes.SetNote(ctx, i.GuildID, postNote(asker(i)), d.TargetID+"\n"+post.Content); err != nil {
		return err
	}
	return f.look(ctx, i, d.TargetID, post.Content, "")
}

// look edits in what is understood of a post, with the button that stores it.
func (f *flow) look(ctx context.Context, i *discordgo.Interaction, id, post, tank string) error {
	r, err := f.ofPost(i, id, post, tank)
	if err != nil {
		return err
	}
	r.Look = true
	reply := f.do(ctx, r)
	all := f.messages(ctx, r, reply)
	last := &all[len(all)-1]
	b := row{flow: f, owner: r.Member}
	switch a, _ := reply.Data.(commands.Added); {
	case reply.OK && a.Ahead != nil:
		b.add("Store", press{verbStore, r.Member, strings.TrimSpace(id + " " + tank)}, discordgo.SuccessButton)
		last.Components = b.components()
	case reply.Err != nil && reply.Err.Code == commands.CodeAmbiguous:
		menu, _ := press{verbFor, r.Member, id}.id()
		last.Components = f.tankMenu(ctx, r.Club, r.Member, menu)
	}
	return f.send(ctx, i, all)
}

// ofPost is the request that takes the readings from a post. They were read
// when it was written, unless it says otherwise.
func (f *flow) ofPost(i *discordgo.Interaction, id, post, tank string) (commands.Request, error) {
	r, err := fill(commands.Request{Command: "add", Post: post, Options: map[string]string{}}, i)
	if err != nil {
		return r, err
	}
	written, err := moment(id)
	if err != nil {
		return r, err
	}
	r.Options["at"] = written.Format(time.RFC3339)
	if tank != "" {
		r.Options["tank"] = tank
	}
	r.Key = keyed(id)
	return r, nil
}

// kept returns the post that the member looks at, if it is that of the id.
func (f *flow) kept(ctx context.Context, i *discordgo.Interaction, id string) (post string, ok bool, err error) {
	text, err := f.notes.Note(ctx, i.GuildID, postNote(asker(i)))
	has, post, _ := strings.Cut(text, "\n")
	return post, err == nil && has == id && id != "", err
}

// lookFor looks at a post again, for the tank that was chosen.
func (f *flow) lookFor(ctx context.Context, i *discordgo.Interaction, p press, values []string) error {
	post, ok, err := f.kept(ctx, i, p.rest)
	if err != nil || !ok || len(values) != 1 {
		return f.over(ctx, i, err)
	}
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	return f.look(ctx, i, p.rest, post, values[0])
}

// storePost stores the readings of a post, once for each post, and again after it was
// taken back.
func (f *flow) storePost(ctx context.Context, i *discordgo.Interaction, p press) error {
	id, tank, _ := strings.Cut(p.rest, " ")
	post, ok, err := f.kept(ctx, i, id)
	if err != nil || !ok {
		return f.over(ctx, i, err)
	}
	r, err := f.ofPost(i, id, post, tank)
	if err != nil {
		return err
	}
	r.Again = true
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredMessageUpdate); err != nil {
		return err
	}
	if err := f.send(ctx, i, f.messages(ctx, r, f.do(ctx, r))); err != nil {
		return err
	}
	return f.notes.SetNote(ctx, i.GuildID, postNote(asker(i)), "")
}

// explainMenu answers a moderator's question for a member's tank.
func (f *flow) explainMenu(ctx context.Context, i *discordgo.Interaction, d discordgo.ApplicationCommandInteractionData) error {
	if !moderates(i) {
		return f.say(ctx, i, "This is for moderators; ask about your own tank with /why.")
	}
	return f.ask(ctx, i, commands.Request{Command: "why", Options: map[string]string{"member": d.TargetID}})
}
