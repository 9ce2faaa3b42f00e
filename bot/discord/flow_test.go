package discord

import (
	"context"
	"errors"
	"net/http"
	"strings"
	"sync"
	"testing"

	"github.com/bwmarrin/discordgo"
)

const tankNano = `/tank new name:nano volume:60L ph:7.6 kh:6dKH temp:25C plants:none media:sponge media-volume:1L flow:normal`

func TestAnswerIsAcknowledgedFirstAndPrivate(t *testing.T) {
	d := newDesk(t)
	all := d.do(d.slash("2026-03-01T09:00:00Z", wren, tankNano))
	m := d.edited(all)
	if all[0].kind != discordgo.InteractionResponseDeferredChannelMessageWithSource || !all[0].message.Private || !m.Private {
		t.Errorf("sent %+v, want a private deferral first", all)
	}
	if !strings.Contains(m.Content, "Registered nano, started 1 March 2026") || labels(m) != "Add a reading, Log a dose, Undo" {
		t.Errorf("answers %q with %s", m.Content, labels(m))
	}
}

func TestRefusalIsKindAndPrivate(t *testing.T) {
	d := newDesk(t)
	m := d.ask("2026-03-01T09:00:00Z", wren, "/outlook")
	if !m.Private || !strings.HasPrefix(m.Content, "Not done: you have no tank yet") {
		t.Errorf("answers %+v", m)
	}
}

func TestRepeatedDeliveryStoresOnce(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	i := d.slash("2026-03-02T09:00:00Z", wren, "/reading ammonia:1")
	d.do(i)
	if again := d.do(i); len(again) != 2 || d.entries(wren) != 2 {
		t.Errorf("sent %d, holds %d entries, want the repeated delivery dropped", len(again), d.entries(wren))
	}
	d.restart() // and with it the memory of what came
	d.api.refuse = errTwice
	if again := d.do(i); len(again) != 4 || !strings.Contains(again[3].message.Content, "already") || d.entries(wren) != 2 {
		t.Errorf("sent %+v, holds %d entries, want an answer that stores nothing more", again[2:], d.entries(wren))
	}
}

func TestLateAcknowledgementDoesNothing(t *testing.T) {
	d := newDesk(t)
	d.api.refuse = &discordgo.RESTError{Response: &http.Response{StatusCode: http.StatusNotFound}, Message: &discordgo.APIErrorMessage{Code: 10062}}
	if all := d.do(d.slash("2026-03-01T09:00:00Z", wren, tankNano)); len(all) != 1 || d.entries(wren) != 0 {
		t.Errorf("sent %+v, holds %d entries, want nothing after the refused acknowledgement", all, d.entries(wren))
	}
}

func TestOutsideAClub(t *testing.T) {
	d := newDesk(t)
	i := d.slash("2026-03-01T09:00:00Z", wren, tankNano)
	i.GuildID, i.User, i.Member = "", i.Member.User, nil
	if all := d.do(i); len(all) != 1 || !strings.Contains(all[0].message.Content, "in a club only") {
		t.Errorf("sent %+v", all)
	}
}

// broken are notes that can't be read or written.
type broken struct{}

func (broken) Note(context.Context, string, string) (string, error) { return "", errors.New("broken") }

func (broken) SetNote(context.Context, string, string, string) error { return errors.New("broken") }

func TestFaultIsTold(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	post := func() *discordgo.Interaction {
		return d.postMenu("2026-03-05T09:00:00Z", wren, wren, "2026-03-05T09:00:00Z", "ammonia 1")
	}
	m := d.edited(d.do(post()))
	d.flow.notes = broken{}
	all := d.do(d.press("2026-03-05T09:01:00Z", wren, m, "Store"))
	if len(all) != 1 || !all[0].message.Private || !strings.Contains(all[0].message.Content, "went wrong") {
		t.Errorf("before the acknowledgement it is told %+v", all)
	}
	i := post()
	d.api.twice = true
	all = d.do(i)
	if last := all[len(all)-1]; last.how != "edit" || !strings.Contains(last.message.Content, "went wrong") {
		t.Errorf("after the acknowledgement it is told %+v", all)
	}
}

func TestNothingToReadIsNoFault(t *testing.T) {
	d := newDesk(t)
	d.flow.handle(t.Context(), nil)
	d.flow.handle(t.Context(), &discordgo.Interaction{ID: "1"})
	if len(d.api.sent) != 0 {
		t.Errorf("sent %+v", d.api.sent)
	}
}

func TestModeratorByPermissionOnly(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	ask := func(rights int64) Message {
		i := d.slash("2026-03-02T09:00:00Z", tern, "/outlook member:"+wren)
		i.Member.Permissions = rights
		return d.edited(d.do(i))
	}
	if m := ask(discordgo.PermissionSendMessages); !strings.Contains(m.Content, "member is for moderators") {
		t.Errorf("a member without rights reads %q", m.Content)
	}
	for _, rights := range []int64{discordgo.PermissionManageMessages, discordgo.PermissionManageGuild, discordgo.PermissionAdministrator} {
		if m := ask(rights); !strings.Contains(m.Content, "nano is at day 1") {
			t.Errorf("a moderator with rights %d reads %q", rights, m.Content)
		}
	}
}

func TestMembersTextIsHarmless(t *testing.T) {
	d := newDesk(t)
	m := d.ask("2026-03-01T09:00:00Z", wren, `/tank new name:"@everyone <@&1> **b** [x](http://y)" volume:60L`)
	first, _, _ := strings.Cut(m.Content, ", started")
	if want := "Registered @" + apart + `everyone \<@` + apart + `&1\> \*\*b\*\* \[x\](http:` + apart + "//y)"; first != want {
		t.Errorf("answers %q, want %q", first, want)
	}
}

func TestShowToEveryone(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	m := d.ask("2026-03-02T09:00:00Z", wren, "/tank show")
	d.restart()
	all := d.do(d.press("2026-03-02T09:01:00Z", wren, m, "Show to everyone"))
	if len(all) != 2 || all[0].kind != discordgo.InteractionResponseDeferredMessageUpdate || all[1].how != "followup" || all[1].message.Private {
		t.Fatalf("sent %+v, want a public message to follow", all)
	}
	if all[1].message.Content != m.Content {
		t.Errorf("shows %q, want %q", all[1].message.Content, m.Content)
	}
	if all := d.do(d.press("2026-03-02T09:02:00Z", tern, m, "Show to everyone")); len(all) != 1 || !all[0].message.Private || !strings.Contains(all[0].message.Content, "whoever asked") {
		t.Errorf("another member's press sends %+v", all)
	}
	d.ask("2026-03-03T09:00:00Z", wren, "/tank close tank:nano")
	d.ask("2026-03-03T09:00:01Z", wren, "/undo")
	d.ask("2026-03-03T09:00:02Z", wren, "/undo")
	if all := d.do(d.press("2026-03-03T09:01:00Z", wren, m, "Show to everyone")); len(all) != 2 || !all[1].message.Private {
		t.Errorf("a refusal is shown to everyone: %+v", all)
	}
}

func TestUndoTakesBackItsOwnEntryOnly(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	first := d.ask("2026-03-02T09:00:00Z", wren, "/reading ammonia:1")
	second := d.ask("2026-03-03T09:00:00Z", wren, "/reading ammonia:2")
	d.restart()
	if m := d.edited(d.do(d.press("2026-03-03T09:01:00Z", wren, first, "Undo"))); !strings.Contains(m.Content, "not your last entry") || d.entries(wren) != 3 {
		t.Errorf("answers %q, holds %d entries", m.Content, d.entries(wren))
	}
	if m := d.edited(d.do(d.press("2026-03-03T09:02:00Z", wren, second, "Undo"))); !strings.Contains(m.Content, "Taken back") || d.entries(wren) != 2 {
		t.Errorf("answers %q, holds %d entries", m.Content, d.entries(wren))
	}
	d.do(d.press("2026-03-03T09:03:00Z", wren, second, "Undo"))
	if d.entries(wren) != 2 {
		t.Error("a second press took back more")
	}
}

// slowAPI takes its time to take the first answer, as a network does.
type slowAPI struct {
	*fakeAPI
	both *sync.WaitGroup // answers that are on their way
}

func (a slowAPI) Respond(ctx context.Context, i *discordgo.Interaction, r Response) error {
	a.both.Done()
	a.both.Wait()
	return a.fakeAPI.Respond(ctx, i, r)
}

// Two presses on Undo that are under way at once take back one entry.
func TestUndoPressedTwice(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-02T09:00:00Z", wren, "/reading ammonia:2")
	m := d.ask("2026-03-03T09:00:00Z", wren, "/reading ammonia:1")
	var both, ended sync.WaitGroup
	both.Add(2)
	d.flow.api = slowAPI{d.api, &both}
	presses := []*discordgo.Interaction{d.press("2026-03-03T09:01:00Z", wren, m, "Undo"), d.press("2026-03-03T09:01:00Z", wren, m, "Undo")}
	for _, i := range presses {
		ended.Go(func() { d.flow.handle(context.Background(), i) })
	}
	ended.Wait()
	var said string
	for _, i := range presses {
		said += d.edited(d.api.sent[i.ID]).Content
	}
	if d.entries(wren) != 2 || strings.Count(said, "Taken back") != 1 || strings.Count(said, "not your last entry") != 1 {
		t.Errorf("answers %q, holds %d entries", said, d.entries(wren))
	}
}

func TestTankIsChosenFromAMenuOnce(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-01T09:00:01Z", wren, "/tank new name:\"moss bowl\" volume:20L")
	m := d.ask("2026-03-02T09:00:00Z", wren, "/reading ammonia:1")
	d.restart()
	i := d.press("2026-03-02T09:01:00Z", wren, m, verbPick, "moss bowl")
	if m := d.edited(d.do(i)); !strings.Contains(m.Content, "Noted for moss bowl") {
		t.Errorf("answers %q", m.Content)
	}
	again := d.press("2026-03-02T09:01:01Z", wren, m, verbPick, "moss bowl")
	again.Message = i.Message
	if d.do(again); d.entries(wren) != 3 {
		t.Errorf("holds %d entries after a second choice, want 3", d.entries(wren))
	}
}

func TestTieNamesTheTank(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-01T09:00:01Z", wren, "/tank new name:pond volume:20L")
	d.ask("2026-03-01T09:00:02Z", wren, "/tank tie tank:pond")
	d.restart()
	if m := d.ask("2026-03-02T09:00:00Z", wren, "/reading ammonia:1"); !strings.Contains(m.Content, "Noted for pond") {
		t.Errorf("answers %q", m.Content)
	}
	i := d.slash("2026-03-02T10:00:00Z", tern, "/why")
	i.Member.Permissions = discordgo.PermissionManageMessages
	m := d.edited(d.do(i))
	if !strings.Contains(m.Content, "pond") || strings.Contains(labels(m), "everyone") {
		t.Errorf("a moderator in the thread reads %q with %s", m.Content, labels(m))
	}
	i = d.press("2026-03-02T10:01:00Z", tern, m, "Outlook")
	i.Member.Permissions = discordgo.PermissionManageMessages
	if m := d.edited(d.do(i)); !strings.Contains(m.Content, "pond is at day 1") {
		t.Errorf("the next step of a moderator reads %q", m.Content)
	}
}

func TestCompletion(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-01T09:00:01Z", wren, "/tank new name:pond volume:20L")
	offered := func(member, line, focus string) string {
		i := d.slash("2026-03-02T09:00:00Z", member, line)
		i.Type = discordgo.InteractionApplicationCommandAutocomplete
		options := i.Data.(discordgo.ApplicationCommandInteractionData).Options
		if len(options) == 1 && options[0].Type == discordgo.ApplicationCommandOptionSubCommand {
			options = options[0].Options
		}
		for _, o := range options {
			o.Focused = o.Name == focus
		}
		all := d.do(i)
		if len(all) != 1 || all[0].kind != discordgo.InteractionApplicationCommandAutocompleteResult {
			t.Fatalf("sent %+v", all)
		}
		var names []string
		for _, c := range all[0].choices {
			names = append(names, c.Name)
		}
		return strings.Join(names, " ")
	}
	for _, c := range []struct{ member, line, focus, want string }{
		{wren, `/outlook tank:""`, "tank", "nano pond"},
		{wren, "/outlook tank:NA", "tank", "nano"},
		{tern, `/outlook tank:""`, "tank", ""},
		{tern, `/outlook tank:"" member:` + wren, "tank", ""}, // without rights
		{wren, "/help command:next", "command", "next-test"},
		{wren, "/reading at:yes", "at", "yesterday"},
		{wren, "/club settings zone:lisb", "zone", "Europe/Lisbon"},
	} {
		if got := offered(c.member, c.line, c.focus); got != c.want {
			t.Errorf("%s offers %q, want %q", c.line, got, c.want)
		}
	}
}
