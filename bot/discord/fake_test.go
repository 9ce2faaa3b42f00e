package discord

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
	"ripen/engine/advise"
	"ripen/store"
	"ripen/store/sqlite"
)

// The invented people of the tests, by the platform's ids.
const (
	guild = "100000000000000001"
	wren  = "200000000000000001"
	tern  = "200000000000000002"
	forum = "300000000000000001"
)

// sent is one thing that was sent of an interaction.
type sent struct {
	how     string // "respond", "edit" or "followup"
	kind    discordgo.InteractionResponseType
	message Message
	modal   *Modal
	choices []*discordgo.ApplicationCommandOptionChoice
}

// fakeAPI keeps what is sent, by interaction.
type fakeAPI struct {
	mu         sync.Mutex
	sent       map[string][]sent
	refuse     error // of the next Respond
	twice      bool  // refuse a second Respond to an interaction, as the platform does
	registered int
}

// errTwice is how the platform refuses a second acknowledgement.
var errTwice = &discordgo.RESTError{Response: &http.Response{StatusCode: http.StatusBadRequest}, Message: &discordgo.APIErrorMessage{Code: codeAcknowledged}}

func (a *fakeAPI) keep(i *discordgo.Interaction, s sent) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.sent[i.ID] = append(a.sent[i.ID], s)
}

func (a *fakeAPI) Respond(_ context.Context, i *discordgo.Interaction, r Response) error {
	s := sent{how: "respond", kind: r.Type, modal: r.Modal, choices: r.Choices}
	if r.Message != nil {
		s.message = *r.Message
	}
	a.keep(i, s)
	a.mu.Lock()
	defer a.mu.Unlock()
	again := len(a.sent[i.ID]) > 1
	err := a.refuse
	a.refuse = nil
	if a.twice && again {
		return errTwice
	}
	return err
}

func (a *fakeAPI) Edit(_ context.Context, i *discordgo.Interaction, m Message) error {
	a.keep(i, sent{how: "edit", message: m})
	return nil
}

func (a *fakeAPI) Followup(_ context.Context, i *discordgo.Interaction, m Message) (string, error) {
	a.keep(i, sent{how: "followup", message: m})
	return "", nil
}

func (a *fakeAPI) Fetch(context.Context, string, int64) ([]byte, error) {
	return nil, errors.New("nothing is attached here")
}

func (a *fakeAPI) SetCommands(context.Context, string, []*discordgo.ApplicationCommand) error {
	a.registered++
	return nil
}

// desk is a flow at which a test sits.
type desk struct {
	testing.TB
	api    *fakeAPI
	store  store.Store
	flow   *flow
	engine *advise.Engine
	tune   func(*Client) // of serving; nil for nothing
	next   int           // sets interactions of one moment apart

	mu   sync.Mutex
	idle *sync.Cond
	busy int // interactions that are being worked on
}

// work counts what is being worked on.
func (d *desk) work(by int) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.busy += by
	d.idle.Broadcast()
}

// settle waits until nothing is being worked on.
func (d *desk) settle() {
	d.mu.Lock()
	defer d.mu.Unlock()
	for d.busy > 0 {
		d.idle.Wait()
	}
}

// emptyStore is a fresh database, to be copied: a copy is opened in a fifth of the
// time that a fresh one takes, and with the race detector in a thirtieth.
var emptyStore = sync.OnceValues(func() ([]byte, error) {
	dir, err := os.MkdirTemp("", "ripen-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	file := filepath.Join(dir, "empty.db")
	st, err := sqlite.Open(file)
	if err == nil {
		err = st.Close()
	}
	if err != nil {
		return nil, err
	}
	return os.ReadFile(file)
})

func newStore(t testing.TB) store.Store {
	t.Helper()
	raw, err := emptyStore()
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "test.db")
	if err := os.WriteFile(file, raw, 0o600); err != nil {
		t.Fatal(err)
	}
	st, err := sqlite.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { st.Close() })
	return st
}

func newDesk(t testing.TB) *desk {
	t.Helper()
	st := newStore(t)
	d := &desk{TB: t, api: &fakeAPI{sent: map[string][]sent{}}, store: st, engine: advise.New(8)}
	d.idle = sync.NewCond(&d.mu)
	d.restart()
	return d
}

// restart forgets whatever is kept in memory only.
func (d *desk) restart() {
	book := commands.New(d.store, commands.WithAdviser(d.engine))
	d.flow = newFlow(d.api, book, d.store, slog.New(slog.DiscardHandler))
}

// snowflake is an id of the platform at a time.
func (d *desk) snowflake(at string) string {
	d.Helper()
	when, err := time.Parse(time.RFC3339, at)
	if err != nil {
		d.Fatal(err)
	}
	d.next++
	return strconv.FormatInt((when.UnixMilli()-1420070400000)<<22+int64(d.next), 10)
}

// from is an interaction of a member, still without its data.
func (d *desk) from(at, member string, rights int64) *discordgo.Interaction {
	return &discordgo.Interaction{ID: d.snowflake(at), Type: discordgo.InteractionApplicationCommand, GuildID: guild, ChannelID: forum,
		Member: &discordgo.Member{User: &discordgo.User{ID: member}, Permissions: rights}}
}

// slash is the interaction of a command typed as in the console.
func (d *desk) slash(at, member, line string) *discordgo.Interaction {
	d.Helper()
	i := d.from(at, member, 0)
	command, sub, options, bad := commands.ParseLine(line)
	if bad != nil {
		d.Fatal(bad)
	}
	i.Data = slashData(d.flow.specs, command, sub, options)
	return i
}

// slashData is the data of a slash command, with the types that were registered.
func slashData(specs map[string]commands.Spec, command, sub string, options map[string]string) discordgo.ApplicationCommandInteractionData {
	data := discordgo.ApplicationCommandInteractionData{Name: command, CommandType: discordgo.ChatApplicationCommand}
	spec := specs[strings.TrimSpace(command+" "+sub)]
	var given []*discordgo.ApplicationCommandInteractionDataOption
	for _, o := range spec.Options {
		typed, ok := options[o.Name]
		if !ok {
			continue
		}
		g := &discordgo.ApplicationCommandInteractionDataOption{Name: o.Name, Type: option(o, false).Type, Value: typed}
		if n, err := strconv.ParseFloat(typed, 64); err == nil && g.Type == discordgo.ApplicationCommandOptionNumber {
			g.Value = n
		}
		given = append(given, g)
	}
	data.Options = given
	if sub != "" {
		data.Options = []*discordgo.ApplicationCommandInteractionDataOption{{Name: sub, Type: discordgo.ApplicationCommandOptionSubCommand, Options: given}}
	}
	return data
}

// do hands an interaction to the flow and returns what was sent.
func (d *desk) do(i *discordgo.Interaction) []sent {
	d.Helper()
	d.flow.handle(context.Background(), i)
	d.api.mu.Lock()
	defer d.api.mu.Unlock()
	return d.api.sent[i.ID]
}

// ask types a command and returns the one message that answers it.
func (d *desk) ask(at, member, line string) Message {
	d.Helper()
	return d.edited(d.do(d.slash(at, member, line)))
}

// edited is the message of an answer that was acknowledged and then edited in.
func (d *desk) edited(all []sent) Message {
	d.Helper()
	if len(all) != 2 || all[0].how != "respond" || all[1].how != "edit" {
		d.Fatalf("sent %+v, want an acknowledgement and an answer", all)
	}
	return all[1].message
}

// press presses the button of a label under a message, or chooses values of the
// only menu when values are given.
func (d *desk) press(at, member string, under Message, label string, values ...string) *discordgo.Interaction {
	d.Helper()
	i := d.from(at, member, 0)
	i.Type = discordgo.InteractionMessageComponent
	i.Message = &discordgo.Message{ID: d.snowflake(at), Content: under.Content}
	for _, c := range under.Components {
		for _, c := range c.(discordgo.ActionsRow).Components {
			switch c := c.(type) {
			case discordgo.Button:
				if len(values) == 0 && c.Label == label {
					i.Data = discordgo.MessageComponentInteractionData{CustomID: c.CustomID, ComponentType: discordgo.ButtonComponent}
					return i
				}
			case discordgo.SelectMenu:
				if len(values) > 0 && strings.Contains(c.CustomID, label) {
					i.Data = discordgo.MessageComponentInteractionData{CustomID: c.CustomID, ComponentType: discordgo.SelectMenuComponent, Values: values}
					return i
				}
			}
		}
	}
	d.Fatalf("no %s under %q: %s", label, under.Content, labels(under))
	return nil
}

// labels names the buttons under a message.
func labels(m Message) string {
	var all []string
	for _, c := range m.Components {
		for _, c := range c.(discordgo.ActionsRow).Components {
			switch c := c.(type) {
			case discordgo.Button:
				all = append(all, c.Label)
			case discordgo.SelectMenu:
				all = append(all, fmt.Sprintf("menu of %d", len(c.Options)))
			}
		}
	}
	return strings.Join(all, ", ")
}

// submit sends a form back with what was typed into it.
func (d *desk) submit(at, member string, m *Modal, typed map[string]string) *discordgo.Interaction {
	d.Helper()
	i := d.from(at, member, 0)
	i.Type = discordgo.InteractionModalSubmit
	data := discordgo.ModalSubmitInteractionData{CustomID: m.ID}
	for _, c := range m.Components {
		input := c.(discordgo.ActionsRow).Components[0].(discordgo.TextInput)
		input.Value = typed[input.CustomID]
		data.Components = append(data.Components, &discordgo.ActionsRow{Components: []discordgo.MessageComponent{&input}})
	}
	i.Data = data
	return i
}

// entries counts what is stored of a member.
func (d *desk) entries(member string) int {
	d.Helper()
	n := 0
	tanks, err := d.store.Tanks(d.Context(), guild, member)
	if err != nil {
		d.Fatal(err)
	}
	for _, t := range tanks {
		entries, err := d.store.Entries(d.Context(), t.ID)
		if err != nil {
			d.Fatal(err)
		}
		n += len(entries)
	}
	return n
}
