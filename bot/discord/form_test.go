package discord

import (
	"context"
	"slices"
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"
)

func TestTankNewFormInSteps(t *testing.T) {
	d := newDesk(t)
	all := d.do(d.slash("2026-03-01T09:00:00Z", wren, "/tank new name:nano"))
	if len(all) != 1 || all[0].kind != discordgo.InteractionResponseModal || len(all[0].modal.Components) != 5 {
		t.Fatalf("sent %+v, want a form of five fields", all)
	}
	form := all[0].modal
	if name := form.Components[0].(discordgo.ActionsRow).Components[0].(discordgo.TextInput); name.Value != "nano" || !name.Required {
		t.Errorf("the field for the name is %+v, want it filled in and needed", name)
	}
	d.restart()
	all = d.do(d.submit("2026-03-01T09:01:00Z", wren, form, map[string]string{"name": "moss bowl", "volume": "6o L", "ph": "7.6"}))
	step := d.edited(all)
	if !all[0].message.Private || labels(step) != "menu of 6, menu of 5, menu of 6, menu of 5, Register, Change" {
		t.Fatalf("sent %+v with %s, want the second step", all, labels(step))
	}
	d.restart()
	all = d.do(d.press("2026-03-01T09:02:00Z", wren, step, " plants", "few-fast"))
	if all[0].kind != discordgo.InteractionResponseDeferredMessageUpdate || !strings.Contains(d.edited(all).Content, "plants:few-fast") {
		t.Fatalf("sent %+v, want the message with the choice", all)
	}
	m := d.edited(d.do(d.press("2026-03-01T09:03:00Z", wren, step, "Register")))
	if !strings.HasPrefix(m.Content, "Not done: ") || !strings.Contains(m.Content, "volume") || d.entries(wren) != 0 {
		t.Fatalf("answers %q, want the volume refused and the menus kept", m.Content)
	}
	all = d.do(d.press("2026-03-01T09:04:00Z", wren, m, "Change"))
	if v := all[0].modal.Components[1].(discordgo.ActionsRow).Components[0].(discordgo.TextInput).Value; v != "6o L" {
		t.Errorf("the form opens with volume %q, want what was typed", v)
	}
	all = d.do(d.submit("2026-03-01T09:05:00Z", wren, all[0].modal, map[string]string{"name": "moss bowl", "volume": "60L", "ph": "7.6"}))
	if step = d.edited(all); !strings.Contains(step.Content, "plants:few-fast") {
		t.Errorf("shows %q, want the choice kept", step.Content)
	}
	d.restart()
	p, _ := readPress(step.Components[4].(discordgo.ActionsRow).Components[0].(discordgo.Button).CustomID)
	draft, ok, err := d.flow.draft(t.Context(), guild, wren, p.rest)
	if err != nil || !ok {
		t.Fatalf("no draft: %v", err)
	}
	m = d.edited(d.do(d.press("2026-03-01T09:06:00Z", wren, step, "Register")))
	if !strings.Contains(m.Content, "Registered moss bowl") || !strings.Contains(m.Content, "plants few-fast") || d.entries(wren) != 1 {
		t.Errorf("answers %q, holds %d entries", m.Content, d.entries(wren))
	}
	if all := d.do(d.press("2026-03-01T09:07:00Z", wren, step, "Register")); all[0].message.Content != gone || d.entries(wren) != 1 {
		t.Errorf("a second press sends %+v", all)
	}
	// As if the program had ended before the draft was put away.
	if err := d.flow.saveDraft(t.Context(), guild, wren, draft); err != nil {
		t.Fatal(err)
	}
	d.ask("2026-03-01T09:08:00Z", wren, "/tank close")
	if m := d.edited(d.do(d.press("2026-03-01T09:09:00Z", wren, step, "Register"))); !strings.Contains(m.Content, "already") || d.entries(wren) != 2 {
		t.Errorf("the same form again answers %q, holds %d entries", m.Content, d.entries(wren))
	}
}

// However much was chosen, the form opens again; what is taken out of it is not told, and
// another's form changes nothing.
func TestChangeOfALongDraft(t *testing.T) {
	d := newDesk(t)
	form := d.do(d.slash("2026-03-01T09:00:00Z", wren, "/tank new target:2ppm started:2026-02-20 conditioner:yes"))[0].modal
	step := d.edited(d.do(d.submit("2026-03-01T09:01:00Z", wren, form, map[string]string{"name": "moss bowl", "volume": "6o L", "ph": "7.6"})))
	for _, c := range [][2]string{{" method", "dark-start"}, {" plants", "many-slow"}, {" media", "moving-bed"}, {" source", "chloramine"}} {
		step = d.edited(d.do(d.press("2026-03-01T09:02:00Z", wren, step, c[0], c[1])))
	}
	d.restart()
	all := d.do(d.press("2026-03-01T09:03:00Z", wren, step, "Change"))
	if len(all) != 1 || all[0].modal == nil || length(all[0].modal.ID) > maxCustomID {
		t.Fatalf("sent %+v, want the form", all)
	}
	form = all[0].modal
	if all := d.do(d.submit("2026-03-01T09:04:00Z", tern, form, map[string]string{"name": "x"})); all[0].message.Content != gone {
		t.Errorf("another's form sends %+v", all)
	}
	step = d.edited(d.do(d.submit("2026-03-01T09:05:00Z", wren, form, map[string]string{"name": "moss bowl", "volume": "60L"})))
	for _, want := range []string{"volume:60L", "method:dark-start", "plants:many-slow", "media:moving-bed", "source:chloramine", "target:2ppm", "started:2026-02-20"} {
		if !strings.Contains(step.Content, want) {
			t.Errorf("%q lacks %s", step.Content, want)
		}
	}
	if strings.Contains(step.Content, "ph:") {
		t.Errorf("%q has the pH that was taken out", step.Content)
	}
	if all := d.do(d.submit("2026-03-01T09:06:00Z", wren, form, map[string]string{"name": "x"})); all[0].message.Content != gone {
		t.Errorf("the form of a draft that another took the place of sends %+v", all)
	}
	if m := d.edited(d.do(d.press("2026-03-01T09:07:00Z", wren, step, "Register"))); !strings.Contains(m.Content, "Registered moss bowl") {
		t.Errorf("answers %q", m.Content)
	}
}

// slowNotes are notes that say how many interactions were answered when they are written.
type slowNotes struct {
	Notes
	api     *fakeAPI
	written []int
}

func (n *slowNotes) SetNote(ctx context.Context, club, name, text string) error {
	n.written = append(n.written, len(n.api.sent))
	return n.Notes.SetNote(ctx, club, name, text)
}

// Writing may wait for seconds, so whatever is pressed is acknowledged before it.
func TestAcknowledgedBeforeItIsWritten(t *testing.T) {
	d := newDesk(t)
	form := d.do(d.slash("2026-03-01T09:00:00Z", wren, "/tank new"))[0].modal
	notes := &slowNotes{Notes: d.store, api: d.api}
	d.flow.notes = notes
	answered := len(d.api.sent)
	do := func(i *discordgo.Interaction) Message {
		t.Helper()
		notes.written = nil
		m := d.edited(d.do(i))
		if answered++; len(notes.written) == 0 || notes.written[0] != answered {
			t.Errorf("%q is written after %d answers, want after %d", m.Content, notes.written, answered)
		}
		return m
	}
	step := do(d.submit("2026-03-01T09:01:00Z", wren, form, map[string]string{"name": "nano", "volume": "60L"}))
	step = do(d.press("2026-03-01T09:02:00Z", wren, step, " plants", "few-fast"))
	do(d.press("2026-03-01T09:03:00Z", wren, step, "Register"))
	post := do(d.postMenu("2026-03-05T20:20:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5"))
	do(d.press("2026-03-05T20:21:00Z", wren, post, "Store"))
}

func TestFormOfAnotherIsOver(t *testing.T) {
	d := newDesk(t)
	form := d.do(d.slash("2026-03-01T09:00:00Z", wren, "/tank new name:nano"))[0].modal
	if all := d.do(d.submit("2026-03-01T09:01:00Z", tern, form, nil)); all[0].message.Content != gone {
		t.Errorf("sent %+v", all)
	}
	i := d.press("2026-03-01T09:02:00Z", wren, d.ask("2026-03-01T09:00:00Z", wren, tankNano), "Undo")
	for _, id := range []string{"", "|", "run", "what|" + wren + "|why", "new|" + wren + "|", "store|" + wren + "|1", "pick|" + wren + "|why"} {
		i := *i
		i.ID = d.snowflake("2026-03-01T09:03:00Z")
		i.Data = discordgo.MessageComponentInteractionData{CustomID: id}
		if all := d.do(&i); len(all) != 1 || !all[0].message.Private || d.entries(wren) != 1 {
			t.Errorf("a press of %q sends %+v", id, all)
		}
	}
}

func TestReadingForm(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	all := d.do(d.slash("2026-03-02T09:00:00Z", wren, "/reading tank:nano kit:strip"))
	if len(all) != 1 || all[0].kind != discordgo.InteractionResponseModal {
		t.Fatalf("sent %+v, want a form", all)
	}
	d.restart()
	m := d.edited(d.do(d.submit("2026-03-02T09:01:00Z", wren, all[0].modal, map[string]string{"ammonia": " 1 ", "nitrite": "0.25", "nitrate": " ", "ph": "7,4", "kh": "\n"})))
	if !strings.Contains(m.Content, "Noted for nano, day 1 (2 March 2026): ammonia 1 mg/L, nitrite 0.25 mg/L, pH 7.4") {
		t.Errorf("answers %q", m.Content)
	}
	form := d.do(d.press("2026-03-02T09:02:00Z", wren, m, "Log a dose"))[0].modal
	m = d.edited(d.do(d.submit("2026-03-02T09:03:00Z", wren, form, map[string]string{"amount": "2ppm"})))
	if !strings.Contains(m.Content, "dose 2 mg/L") {
		t.Errorf("answers %q", m.Content)
	}
	if m := d.edited(d.do(d.press("2026-03-02T09:04:00Z", wren, m, "Outlook"))); !strings.Contains(m.Content, "nano is at day 1") || labels(m) != "Why?, Chart, Show to everyone" && labels(m) != "Why?, Show to everyone" {
		t.Errorf("answers %q with %s", m.Content, labels(m))
	} else if len(m.Embeds) != 1 || !strings.HasPrefix(m.Embeds[0].Description, "<t:") {
		t.Errorf("shows no date in the reader's time: %+v", m.Embeds)
	}
}

// postMenu is the interaction of the menu on a post.
func (d *desk) postMenu(at, member, author, written, post string) *discordgo.Interaction {
	i := d.from(at, member, 0)
	id := d.snowflake(written)
	i.Data = discordgo.ApplicationCommandInteractionData{Name: menuAdd, CommandType: discordgo.MessageApplicationCommand, TargetID: id,
		Resolved: &discordgo.ApplicationCommandInteractionDataResolved{Messages: map[string]*discordgo.Message{
			id: {ID: id, Content: post, Author: &discordgo.User{ID: author}}}}}
	return i
}

func TestAddFromPost(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	menu := d.postMenu("2026-03-09T09:00:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5\nnitrite 2 ppm")
	m := d.edited(d.do(menu))
	if !strings.Contains(m.Content, "I understood: ammonia 0.5 mg/L, nitrite 2 mg/L") || labels(m) != "Store" || d.entries(wren) != 1 {
		t.Fatalf("answers %q with %s, holds %d entries, want a question first", m.Content, labels(m), d.entries(wren))
	}
	d.restart()
	stored := d.edited(d.do(d.press("2026-03-09T09:01:00Z", wren, m, "Store")))
	if !strings.Contains(stored.Content, "Noted for nano, day 4 (5 March 2026)") || d.entries(wren) != 2 {
		t.Errorf("answers %q, want it noted for when the post was written", stored.Content)
	}
	if all := d.do(d.press("2026-03-09T09:02:00Z", wren, m, "Store")); all[0].message.Content != gone || d.entries(wren) != 2 {
		t.Errorf("a second press sends %+v", all)
	}
	again := d.postMenu("2026-03-10T09:00:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5\nnitrite 2 ppm")
	data := again.Data.(discordgo.ApplicationCommandInteractionData)
	first := menu.Data.(discordgo.ApplicationCommandInteractionData)
	data.TargetID, data.Resolved = first.TargetID, first.Resolved
	again.Data = data
	d.do(d.press("2026-03-10T09:01:00Z", wren, d.edited(d.do(again)), "Store"))
	if d.entries(wren) != 2 {
		t.Error("the same post was stored twice")
	}
}

func TestAddFromPostOfSeveralTanks(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-01T09:00:01Z", wren, `/tank new name:"moss bowl" volume:20L`)
	m := d.edited(d.do(d.postMenu("2026-03-05T20:20:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5")))
	d.restart()
	m = d.edited(d.do(d.press("2026-03-05T20:21:00Z", wren, m, verbFor, "moss bowl")))
	if !strings.Contains(m.Content, "would stand for moss bowl") {
		t.Errorf("answers %q", m.Content)
	}
	if m := d.edited(d.do(d.press("2026-03-05T20:22:00Z", wren, m, "Store"))); !strings.Contains(m.Content, "Noted for moss bowl") {
		t.Errorf("answers %q", m.Content)
	}
}

// A post that went to the wrong tank is taken back and stored for the right one; as long
// as it stands, it is not stored again.
func TestAddFromPostAfterUndo(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	d.ask("2026-03-01T09:00:01Z", wren, "/tank new name:cube volume:20L")
	menu := d.postMenu("2026-03-05T20:20:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5")
	store := func(tank string) Message {
		again := *menu
		again.ID = d.snowflake("2026-03-05T20:20:00Z")
		m := d.edited(d.do(d.press("2026-03-05T20:21:00Z", wren, d.edited(d.do(&again)), verbFor, tank)))
		return d.edited(d.do(d.press("2026-03-05T20:22:00Z", wren, m, "Store")))
	}
	m := store("nano")
	d.do(d.press("2026-03-05T20:23:00Z", wren, m, "Undo"))
	d.restart()
	if m = store("cube"); !strings.Contains(m.Content, "Noted for cube") || d.entries(wren) != 3 {
		t.Errorf("after it was taken back it answers %q, holds %d entries", m.Content, d.entries(wren))
	}
	if m := store("nano"); !strings.Contains(m.Content, "already") || d.entries(wren) != 3 {
		t.Errorf("while it stands it answers %q, holds %d entries", m.Content, d.entries(wren))
	}
	if d.do(d.press("2026-03-05T20:24:00Z", wren, m, "Undo")); d.entries(wren) != 2 {
		t.Errorf("holds %d entries after it was taken back again", d.entries(wren))
	}
}

// A post that is looked at is kept until it is stored, and so stands in the member's export
// until then.
func TestExportHoldsThePostLookedAt(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	look := d.edited(d.do(d.postMenu("2026-03-05T20:20:00Z", wren, wren, "2026-03-05T20:15:00Z", "my fish hid, ammonia 0.5")))
	d.do(d.postMenu("2026-03-05T20:20:01Z", tern, tern, "2026-03-05T20:15:00Z", "ammonia 7 of another"))
	held := func(at string) (held, others bool) {
		m := d.ask(at, wren, "/data export")
		file := string(m.Files[0].Data)
		return strings.Contains(file, "post/"+wren) && strings.Contains(m.Content, "a post that you looked at"), strings.Contains(file, "of another")
	}
	if held, others := held("2026-03-05T20:21:00Z"); !held || others {
		t.Errorf("the export tells of the post: %v, of another's: %v", held, others)
	}
	d.do(d.press("2026-03-05T20:22:00Z", wren, look, "Store"))
	if held, _ := held("2026-03-05T20:23:00Z"); held {
		t.Error("the export holds a note of a post that was stored")
	}
}

func TestAddFromPostRefuses(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	if all := d.do(d.postMenu("2026-03-05T20:20:00Z", wren, tern, "2026-03-05T20:15:00Z", "ammonia 0.5")); len(all) != 1 || !strings.Contains(all[0].message.Content, "someone else's") {
		t.Errorf("another's post sends %+v", all)
	}
	m := d.edited(d.do(d.postMenu("2026-03-05T20:20:00Z", wren, wren, "2026-03-05T20:15:00Z", "ammonia 0.5, pH 75")))
	if slices.Contains(strings.Split(labels(m), ", "), "Store") {
		t.Errorf("a doubtful post answers %q with %s", m.Content, labels(m))
	}
}

func TestExplainMembersTank(t *testing.T) {
	d := newDesk(t)
	d.ask("2026-03-01T09:00:00Z", wren, tankNano)
	ask := func(rights int64) []sent {
		i := d.from("2026-03-05T09:00:00Z", tern, rights)
		i.Data = discordgo.ApplicationCommandInteractionData{Name: menuExplain, CommandType: discordgo.UserApplicationCommand, TargetID: wren}
		return d.do(i)
	}
	if all := ask(discordgo.PermissionSendMessages); len(all) != 1 || !strings.Contains(all[0].message.Content, "for moderators") {
		t.Errorf("a member is sent %+v", all)
	}
	if m := d.edited(ask(discordgo.PermissionManageGuild)); !strings.Contains(m.Content, "nano") || !m.Private {
		t.Errorf("a moderator reads %+v", m)
	}
	d.ask("2026-03-05T10:00:00Z", wren, "/tank close tank:nano")
	if m := d.edited(ask(discordgo.PermissionManageGuild)); !strings.Contains(m.Content, "<@"+wren+"> has no open tank here") {
		t.Errorf("names the member as %q", m.Content)
	}
}
