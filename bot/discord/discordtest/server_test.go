package discordtest

import (
	"fmt"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// witness is a test that keeps its failures.
type witness struct {
	*testing.T
	mu    sync.Mutex
	wrong []string
}

func (w *witness) Errorf(format string, args ...any) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.wrong = append(w.wrong, fmt.Sprintf(format, args...))
}

// says fails the test unless exactly one failure was seen, and it has the words.
func (w *witness) says(words string) {
	w.Helper()
	w.mu.Lock()
	defer w.mu.Unlock()
	if len(w.wrong) != 1 || !strings.Contains(w.wrong[0], words) {
		w.T.Errorf("faults %q, want one with %q", w.wrong, words)
	}
	w.wrong = nil
}

var wren = From{User: "200000000000000001", Name: "wren", Guild: "100000000000000001", Channel: "300000000000000001"}

// client is a session of the library that speaks with s and with nothing else.
func client(t *testing.T, s *Server) *discordgo.Session {
	t.Helper()
	c, err := discordgo.New("Bot " + Token)
	if err != nil {
		t.Fatal(err)
	}
	c.Client = &http.Client{Transport: s.Transport(), Timeout: 5 * time.Second}
	c.Identify.Intents = discordgo.IntentGuilds
	c.ShouldRetryOnRateLimit = false
	c.StateEnabled = false // an event of the wrong shape would end the process
	c.LogLevel = -1
	return c
}

// open connects the client and closes it with the test.
func open(t *testing.T, s *Server, c *discordgo.Session) {
	t.Helper()
	if err := c.Open(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { go c.Close() }) // which takes a second
	s.Ready(1)
}

// answering hands interactions to a function.
func answering(c *discordgo.Session, with func(*discordgo.Interaction)) {
	c.AddHandler(func(_ *discordgo.Session, e *discordgo.InteractionCreate) { with(e.Interaction) })
}

func text(s string) *discordgo.InteractionResponse {
	return &discordgo.InteractionResponse{Type: discordgo.InteractionResponseChannelMessageWithSource,
		Data: &discordgo.InteractionResponseData{Content: s, AllowedMentions: &discordgo.MessageAllowedMentions{Parse: []discordgo.AllowedMentionType{}}}}
}

// The whole of a dialogue: commands are registered, and a slash command, a press,
// a form, completion and both menus are answered, by message, deferral, edit,
// further message and picture.
func TestDialogue(t *testing.T) {
	s := New(t)
	c := client(t, s)
	check := func(err error) {
		if err != nil {
			t.Error(err)
		}
	}
	answering(c, func(i *discordgo.Interaction) {
		switch i.Type {
		case discordgo.InteractionApplicationCommandAutocomplete:
			check(c.InteractionRespond(i, &discordgo.InteractionResponse{Type: discordgo.InteractionApplicationCommandAutocompleteResult,
				Data: &discordgo.InteractionResponseData{Choices: []*discordgo.ApplicationCommandOptionChoice{{Name: "Reef", Value: "reef"}}}}))
		case discordgo.InteractionMessageComponent:
			check(c.InteractionRespond(i, &discordgo.InteractionResponse{Type: discordgo.InteractionResponseModal, Data: &discordgo.InteractionResponseData{
				CustomID: "form", Title: "A tank", Components: []discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{
					discordgo.TextInput{CustomID: "name", Label: "Name", Style: discordgo.TextInputShort, Required: true}}}}}}))
		case discordgo.InteractionModalSubmit:
			name := i.ModalSubmitData().Components[0].(*discordgo.ActionsRow).Components[0].(*discordgo.TextInput).Value
			check(c.InteractionRespond(i, &discordgo.InteractionResponse{Type: discordgo.InteractionResponseUpdateMessage, Data: &discordgo.InteractionResponseData{Content: "made " + name}}))
		default:
			d := i.ApplicationCommandData()
			switch {
			case d.TargetID != "" && d.Resolved.Messages != nil:
				check(c.InteractionRespond(i, text("read "+d.Resolved.Messages[d.TargetID].Content)))
			case d.TargetID != "":
				check(c.InteractionRespond(i, text("of "+d.Resolved.Users[d.TargetID].Username)))
			default:
				check(c.InteractionRespond(i, &discordgo.InteractionResponse{Type: discordgo.InteractionResponseDeferredChannelMessageWithSource, Data: &discordgo.InteractionResponseData{Flags: discordgo.MessageFlagsEphemeral}}))
				said := fmt.Sprint(d.Name, d.Options[0].Name, d.Options[0].Options[0].FloatValue(), " ", i.Member.Permissions)
				_, err := c.InteractionResponseEdit(i, &discordgo.WebhookEdit{Content: &said, Files: []*discordgo.File{{Name: "a.png", ContentType: "image/png", Reader: strings.NewReader("PNG")}},
					Components: &[]discordgo.MessageComponent{discordgo.ActionsRow{Components: []discordgo.MessageComponent{discordgo.Button{Label: "More", CustomID: "more"}}}}})
				check(err)
				m, err := c.FollowupMessageCreate(i, true, &discordgo.WebhookParams{Content: "further"})
				check(err)
				if m == nil || m.Content != "further" || m.ID == "" {
					t.Errorf("the further message came back as %+v", m)
				}
			}
		}
	})
	open(t, s, c)
	rights := int64(32)
	set, err := c.ApplicationCommandBulkOverwrite(App, wren.Guild, []*discordgo.ApplicationCommand{
		{Name: "tank", Description: "Tanks.", DefaultMemberPermissions: &rights, Options: []*discordgo.ApplicationCommandOption{{Type: 1, Name: "new", Description: "A new one.",
			Options: []*discordgo.ApplicationCommandOption{{Type: discordgo.ApplicationCommandOptionNumber, Name: "volume", Description: "Litres."}}}}},
		{Name: "Add readings", Type: discordgo.MessageApplicationCommand}, {Name: "Explain", Type: discordgo.UserApplicationCommand}})
	if err != nil || len(set) != 3 || set[0].ID == "" || *set[0].DefaultMemberPermissions != 32 {
		t.Fatalf("registered %+v, %v", set, err)
	}
	if got, err := c.ApplicationCommands(App, wren.Guild); err != nil || len(got) != 3 {
		t.Errorf("commands %v, %v", got, err)
	}
	from := wren
	from.Permissions = 1 << 13
	i := s.Slash(from, "tank", "new", Option{Name: "volume", Value: 54.5})
	m := i.Message()
	if m.Content != "tanknew54.5 8192" || !m.Private() || len(m.Files) != 1 || string(m.Files[0].Data) != "PNG" {
		t.Errorf("answered %+v", m)
	}
	if f := i.Followup(0); f.Content != "further" {
		t.Errorf("a further message %+v", f)
	}
	form := s.Press(wren, m, "More")
	done := s.Submit(wren, form, map[string]string{"name": "Reef"}).Message()
	if done.Content != "made Reef" || done.ID != m.ID {
		t.Errorf("the form was answered by %+v", done)
	}
	if got := s.Autocomplete(wren, "tank", "new", Option{Name: "volume", Value: "5", Focused: true}).Choices(); len(got) != 1 || got[0].Value != "reef" {
		t.Errorf("choices %+v", got)
	}
	if got := s.MessageMenu(wren, "Add readings", s.Written(wren, "NO2 0.5")).Message(); got.Content != "read NO2 0.5" {
		t.Errorf("menu on a message: %+v", got)
	}
	if got := s.UserMenu(wren, "Explain", From{User: "200000000000000002", Name: "tern"}).Message(); got.Content != "of tern" {
		t.Errorf("menu on a member: %+v", got)
	}
}
