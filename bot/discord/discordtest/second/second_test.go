// Package second drives the stand-in with a client library other than the bot's,
// so that the stand-in is not fitted to one. It is a module of its own: the bot
// does not depend on that library.
package second

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"testing"
	"time"

	"github.com/disgoorg/disgo"
	"github.com/disgoorg/disgo/bot"
	"github.com/disgoorg/disgo/discord"
	"github.com/disgoorg/disgo/events"
	"github.com/disgoorg/disgo/gateway"
	"github.com/disgoorg/disgo/rest"
	"github.com/disgoorg/snowflake/v2"

	"ripen/bot/discord/discordtest"
)

var wren = discordtest.From{User: "200000000000000001", Name: "wren", Guild: "100000000000000001", Channel: "300000000000000001", Permissions: 1 << 13}

// connect opens a session, which reads the application out of the token.
func connect(t *testing.T, s *discordtest.Server, listeners ...bot.EventListener) bot.Client {
	t.Helper()
	s.Guilds = []string{wren.Guild}
	c, err := disgo.New(discordtest.Token,
		bot.WithLogger(slog.New(slog.NewTextHandler(io.Discard, nil))),
		bot.WithRestClientConfigOpts(rest.WithURL(s.API()), rest.WithHTTPClient(&http.Client{Timeout: 5 * time.Second})),
		bot.WithGatewayConfigOpts(gateway.WithIntents(gateway.IntentGuilds), gateway.WithCompress(false)),
		bot.WithDefaultGateway(),
		bot.WithEventListeners(listeners...),
	)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close(context.Background()) })
	if err := c.OpenGateway(t.Context()); err != nil {
		t.Fatal(err)
	}
	s.Ready(1)
	return c
}

// The dialogue of the stand-in's own test, in another tongue. There is no picture
// in it: this library numbers attachments, which the platform takes, but its
// description and so the stand-in want strings.
func TestDialogue(t *testing.T) {
	s := discordtest.New(t)
	check := func(err error) {
		if err != nil {
			t.Error(err)
		}
	}
	guilds := make(chan discord.Guild, 1)
	c := connect(t, s, &events.ListenerAdapter{
		OnGuildReady: func(e *events.GuildReady) { guilds <- e.Guild },
		OnApplicationCommandInteraction: func(e *events.ApplicationCommandInteractionCreate) {
			switch d := e.Data.(type) {
			case discord.MessageCommandInteractionData:
				check(e.CreateMessage(discord.MessageCreate{Content: "read " + d.TargetMessage().Content}))
			case discord.UserCommandInteractionData:
				check(e.CreateMessage(discord.MessageCreate{Content: "of " + d.TargetUser().Username + d.TargetMember().User.Username}))
			case discord.SlashCommandInteractionData:
				check(e.DeferCreateMessage(true))
				said := d.CommandPath() + " " + d.String("name") + " " + e.Member().Permissions.String()
				_, err := e.Client().Rest().UpdateInteractionResponse(e.ApplicationID(), e.Token(), discord.MessageUpdate{Content: &said,
					Components: &[]discord.ContainerComponent{discord.NewActionRow(discord.NewPrimaryButton("More", "more"))}})
				check(err)
				m, err := e.Client().Rest().CreateFollowupMessage(e.ApplicationID(), e.Token(), discord.MessageCreate{Content: "further"})
				check(err)
				if m != nil && (m.Content != "further" || m.Author.ID != e.ApplicationID() || m.CreatedAt.IsZero()) {
					t.Errorf("the further message came back as %+v", m)
				}
			}
		},
		OnComponentInteraction: func(e *events.ComponentInteractionCreate) {
			check(e.Modal(discord.ModalCreate{CustomID: "form", Title: "A tank", Components: []discord.ContainerComponent{
				discord.NewActionRow(discord.NewShortTextInput("name", "Name"))}}))
		},
		OnModalSubmit: func(e *events.ModalSubmitInteractionCreate) {
			made := "made " + e.Data.Text("name")
			check(e.UpdateMessage(discord.MessageUpdate{Content: &made}))
		},
		OnAutocompleteInteraction: func(e *events.AutocompleteInteractionCreate) {
			check(e.AutocompleteResult([]discord.AutocompleteChoice{discord.AutocompleteChoiceString{Name: e.Data.Focused().Name, Value: "reef"}}))
		},
	})
	guild := snowflake.MustParse(wren.Guild)
	select {
	case g := <-guilds:
		if g.ID != guild {
			t.Errorf("guild %+v", g)
		}
	case <-time.After(5 * time.Second):
		t.Error("no guild was told of")
	}
	set, err := c.Rest().SetGuildCommands(c.ApplicationID(), guild, []discord.ApplicationCommandCreate{
		discord.SlashCommandCreate{Name: "tank", Description: "Tanks.", Options: []discord.ApplicationCommandOption{
			discord.ApplicationCommandOptionSubCommand{Name: "new", Description: "A new one.", Options: []discord.ApplicationCommandOption{
				discord.ApplicationCommandOptionString{Name: "name", Description: "Its name.", Autocomplete: true}}}}},
		discord.MessageCommandCreate{Name: "Add readings"}, discord.UserCommandCreate{Name: "Explain"}})
	if err != nil || len(set) != 3 || set[0].Name() != "tank" || set[0].ID() == 0 {
		t.Fatalf("registered %+v, %v", set, err)
	}
	i := s.Slash(wren, "tank", "new", discordtest.Option{Name: "name", Value: "Reef"})
	m := i.Message()
	if m.Content != "/tank/new Reef Manage Messages" || !m.Private() {
		t.Errorf("answered %+v", m)
	}
	if f := i.Followup(0); f.Content != "further" {
		t.Errorf("a further message %+v", f)
	}
	if got := s.Submit(wren, s.Press(wren, m, "More"), map[string]string{"name": "Reef"}).Message(); got.Content != "made Reef" {
		t.Errorf("the form was answered by %+v", got)
	}
	if got := s.Autocomplete(wren, "tank", "new", discordtest.Option{Name: "name", Value: "R", Focused: true}).Choices(); len(got) != 1 || got[0].Name != "name" {
		t.Errorf("choices %+v", got)
	}
	if got := s.MessageMenu(wren, "Add readings", s.Written(wren, "NO2 0.5")).Message(); got.Content != "read NO2 0.5" {
		t.Errorf("menu on a message: %+v", got)
	}
	if got := s.UserMenu(wren, "Explain", discordtest.From{User: "200000000000000002", Name: "tern"}).Message(); got.Content != "of terntern" {
		t.Errorf("menu on a member: %+v", got)
	}
	if post, err := c.Rest().CreateMessage(snowflake.MustParse(wren.Channel), discord.MessageCreate{Content: "post"}); err != nil || post.Content != "post" || len(s.Posts()) != 1 {
		t.Errorf("posted %+v, %v", post, err)
	}
}

// The same trouble, which this library meets in its own way: it resumes by the
// address of READY, and obeys close codes.
func TestTrouble(t *testing.T) {
	for name, test := range map[string]struct {
		happen func(*discordtest.Server)
		sent   string
		times  int
	}{
		"dropped":      {(*discordtest.Server).Drop, "RESUME", 1},
		"opcode 7":     {(*discordtest.Server).Reconnect, "RESUME", 1},
		"opcode 9":     {(*discordtest.Server).Invalidate, "IDENTIFY", 2},
		"opcode 1":     {(*discordtest.Server).AskBeat, "HEARTBEAT", 1},
		"4000":         {func(s *discordtest.Server) { s.Close(4000) }, "RESUME", 1},
		"unknown":      {func(s *discordtest.Server) { s.Event("TANK_OVERFLOW", map[string]any{}); s.AskBeat() }, "HEARTBEAT", 1},
		"out of order": {func(s *discordtest.Server) { s.Again(2); s.AskBeat() }, "HEARTBEAT", 1},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := discordtest.New(t)
			s.Patience = 20 * time.Second
			connect(t, s, &events.ListenerAdapter{OnApplicationCommandInteraction: func(e *events.ApplicationCommandInteractionCreate) {
				if err := e.CreateMessage(discord.MessageCreate{Content: "here"}); err != nil {
					t.Error(err)
				}
			}})
			test.happen(s)
			s.Sent(test.sent, test.times)
			if got := s.Slash(wren, "help", "").Message(); got.Content != "here" {
				t.Errorf("answered %+v", got)
			}
		})
	}
}
