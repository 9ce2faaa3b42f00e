package discord

import (
	"context"
	"errors"
	"log/slog"
	"net/http"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

// api is what answering needs of a Client.
type api interface {
	Respond(ctx context.Context, i *discordgo.Interaction, r Response) error
	Edit(ctx context.Context, i *discordgo.Interaction, m Message) error
	Followup(ctx context.Context, i *discordgo.Interaction, m Message) (string, error)
	SetCommands(ctx context.Context, guild string, all []*discordgo.ApplicationCommand) error
	Fetch(ctx context.Context, address string, limit int64) ([]byte, error)
}

// Book answers requests and knows what can be asked, and of what.
type Book interface {
	Do(context.Context, commands.Request) commands.Reply
	Specs() []commands.Spec
	OpenTanks(ctx context.Context, club, member string) ([]string, error)
}

// Notes keeps small texts by name; "" is none.
type Notes interface {
	Note(ctx context.Context, club, name string) (string, error)
	SetNote(ctx context.Context, club, name, text string) error
}

// flow takes interactions through: acknowledged at once, before anything is written,
// which may take long; answered when the answer is there. It keeps nothing that a restart would lose.
type flow struct {
	api   api
	book  Book
	notes Notes
	log   *slog.Logger
	seen  *seen
	specs map[string]commands.Spec // by path
}

func newFlow(c api, b Book, notes Notes, log *slog.Logger) *flow {
	f := &flow{api: c, book: b, notes: notes, log: log, seen: newSeen(), specs: map[string]commands.Spec{}}
	for _, s := range b.Specs() {
		f.specs[s.Path()] = s
	}
	return f
}

// handle answers one interaction. A delivery that comes again is dropped.
func (f *flow) handle(ctx context.Context, i *discordgo.Interaction) {
	if i == nil || i.Data == nil || !f.seen.first(i.ID) {
		return
	}
	var err error
	switch d := i.Data.(type) {
	case discordgo.ApplicationCommandInteractionData:
		if i.GuildID == "" || asker(i) == "" {
			err = f.say(ctx, i, "This works in a club only; ask me in one of its channels.")
			break
		}
		switch {
		case i.Type == discordgo.InteractionApplicationCommandAutocomplete:
			err = f.complete(ctx, i, d)
		case d.CommandType == discordgo.MessageApplicationCommand:
			err = f.addMenu(ctx, i, d)
		case d.CommandType == discordgo.UserApplicationCommand:
			err = f.explainMenu(ctx, i, d)
		default:
			err = f.command(ctx, i, d)
		}
	case discordgo.MessageComponentInteractionData:
		err = f.pressed(ctx, i, d)
	case discordgo.ModalSubmitInteractionData:
		err = f.submitted(ctx, i, d)
	}
	if err != nil {
		f.log.Error("an interaction was not answered", "interaction", i.ID, "error", err)
		f.sorry(ctx, i, err)
	}
}

// sorry tells the asker that something failed, unless it was the platform that
// refused, which would refuse this too.
func (f *flow) sorry(ctx context.Context, i *discordgo.Interaction, failed error) {
	if _, platform := errors.AsType[*discordgo.RESTError](failed); platform {
		return
	}
	const text = "Something went wrong on my side. Please look with /tank show at what was stored, and try again."
	err := f.say(ctx, i, text)
	if acknowledgedBefore(err) {
		err = f.api.Edit(ctx, i, Message{Content: text, Private: true})
	}
	if err != nil {
		f.log.Error("nor was that told", "interaction", i.ID, "error", err)
	}
}

// command answers a slash command: with its form if that has to ask for more,
// else with what the book says.
func (f *flow) command(ctx context.Context, i *discordgo.Interaction, d discordgo.ApplicationCommandInteractionData) error {
	r, _ := ofCommand(d)
	if form, ok := f.formFor(r, asker(i)); ok {
		return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionResponseModal, Modal: form})
	}
	if s := f.specs[path(r)]; s.Post {
		r.Post = r.Options[optionPost]
		delete(r.Options, optionPost)
	}
	return f.askWith(ctx, i, r, f.attached(d, r))
}

// ask acknowledges an interaction, asks the book and edits the answer in. Only
// the asker sees it.
func (f *flow) ask(ctx context.Context, i *discordgo.Interaction, r commands.Request) error {
	return f.askWith(ctx, i, r, nil)
}

// askWith asks with what is attached, by option.
func (f *flow) askWith(ctx context.Context, i *discordgo.Interaction, r commands.Request, files map[string]*discordgo.MessageAttachment) error {
	r, err := fill(r, i)
	if err != nil {
		return err
	}
	if err := f.acknowledge(ctx, i, discordgo.InteractionResponseDeferredChannelMessageWithSource); err != nil {
		return err
	}
	if why := f.fetch(ctx, &r, files); why != "" {
		return f.send(ctx, i, f.messages(ctx, r, commands.Reply{Private: true, Text: why}))
	}
	return f.send(ctx, i, f.messages(ctx, r, f.do(ctx, r)))
}

// do asks the book; what went wrong below the commands is logged.
func (f *flow) do(ctx context.Context, r commands.Request) commands.Reply {
	reply := f.book.Do(ctx, r)
	if reply.Err != nil {
		if cause := errors.Unwrap(reply.Err); cause != nil {
			f.log.Error("a request failed", "command", path(r), "code", reply.Err.Code, "error", cause)
		}
	}
	return reply
}

// acknowledge tells the platform that an answer will come. One that it has
// already, as from before a restart, is as good.
func (f *flow) acknowledge(ctx context.Context, i *discordgo.Interaction, t discordgo.InteractionResponseType) error {
	r := Response{Type: t}
	if t == discordgo.InteractionResponseDeferredChannelMessageWithSource {
		r.Message = &Message{Private: true}
	}
	err := f.api.Respond(ctx, i, r)
	if acknowledgedBefore(err) {
		return nil
	}
	return err
}

// codeAcknowledged is the platform's code for a second acknowledgement.
const codeAcknowledged = 40060

func acknowledgedBefore(err error) bool {
	e, ok := errors.AsType[*discordgo.RESTError](err)
	return ok && e.Response != nil && e.Response.StatusCode == http.StatusBadRequest && e.Message != nil && e.Message.Code == codeAcknowledged
}

// send edits the first message into an acknowledged interaction and lets the
// others follow.
func (f *flow) send(ctx context.Context, i *discordgo.Interaction, all []Message) error {
	if err := f.api.Edit(ctx, i, all[0]); err != nil {
		return err
	}
	return f.follow(ctx, i, all[1:])
}

func (f *flow) follow(ctx context.Context, i *discordgo.Interaction, all []Message) error {
	for _, m := range all {
		if _, err := f.api.Followup(ctx, i, m); err != nil {
			return err
		}
	}
	return nil
}

// say answers at once with words of our own, to the asker only.
func (f *flow) say(ctx context.Context, i *discordgo.Interaction, text string) error {
	if i.Type == discordgo.InteractionApplicationCommandAutocomplete {
		return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionApplicationCommandAutocompleteResult})
	}
	return f.api.Respond(ctx, i, Response{Type: discordgo.InteractionResponseChannelMessageWithSource, Message: &Message{Content: text, Private: true}})
}
