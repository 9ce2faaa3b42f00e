package discord

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"image/png"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
	"ripen/bot/replay"
	"ripen/commands"
	"ripen/store"
)

// step is one line of the script, and the way in which it is said on Discord:
// typed, by the form of the command, by a button under the last reply, or by the
// menu on a post.
type step struct{ at, who, line, way string }

// cycle is a member's whole cycle with its slips, and a moderator's questions. What
// is asked at one moment is worked out once.
var cycle = []step{
	{"2026-03-01T09:00:00Z", wren, `/units volume:gal`, "typed"},
	{"2026-03-01T09:01:00Z", wren, `/tank new name:"moss bowl" volume:15gal ph:7.6 kh:6dKH temp:25C method:dosed`, "form"},
	{"2026-03-01T09:02:00Z", wren, `/tank edit plants:none media:sponge source:chlorine at:start`, "typed"},
	{"2026-03-01T09:10:00Z", wren, `/log what:dose amount:2ppm`, "typed"},
	{"2026-03-01T09:10:30Z", wren, `/tank new name:"moss bowl" volume:15`, "typed"},
	{"2026-03-01T09:11:00Z", wren, `/outlook`, "typed"},
	{"2026-03-01T09:12:00Z", wren, `/tank tie tank:"moss bowl"`, "typed"},
	{"2026-03-04T09:00:00Z", wren, `/reading ammonia:2 nitrite:0 nitrate:5`, "form"},
	{"2026-03-05T09:00:00Z", wren, `!add Day 4: ammonia 1.5, nitrite 0.25 ppm\nph 7,6`, "post"},
	{"2026-03-08T09:00:00Z", wren, `!add ammonia 0.5, pH 75`, "post"},
	{"2026-03-08T09:01:00Z", wren, `/reading ammonia:0.5 nitrite:2 ph:75`, "typed"},
	{"2026-03-08T09:02:00Z", wren, `/reading ammonia:0.5 nitrite:2 nitrate:5-10 ph:7.5`, "typed"},
	{"2026-03-08T09:03:00Z", wren, `/log what:dose amount:2ppm`, "button Log a dose"},
	{"2026-03-08T09:04:00Z", wren, `/undo`, "button Undo"},
	{"2026-03-12T09:00:00Z", wren, `/reading ammonia:0.25 nitrite:5+ nitrate:10-20`, "form"},
	{"2026-03-12T09:01:00Z", wren, `/outlook tank:"moss bowl"`, "button Outlook"},
	{"2026-03-12T09:01:00Z", wren, `/why tank:"moss bowl"`, "button Why?"},
	{"2026-03-12T09:01:00Z", wren, `/next-test`, "typed"},
	{"2026-03-12T09:01:00Z", wren, `/tryout temp:27C water-change:40% conditioned:yes`, "typed"},
	{"2026-03-12T09:01:00Z", wren, `/safe ammonia:1 ph:8 temp:26C`, "typed"},
	{"2026-03-12T09:01:00Z", wren, `/chart tank:"moss bowl"`, "typed"},
	{"2026-03-12T09:01:00Z", wren, `/chart days:5`, "typed"},
	{"2026-03-12T09:01:00Z", tern, `/outlook member:` + wren, "typed"},
	{"2026-03-12T09:01:00Z", tern + "+moderator", `/outlook member:` + wren, "typed"},
	{"2026-03-12T09:01:00Z", tern + "+moderator", `/why member:` + wren, "menu"},
	{"2026-03-12T09:01:00Z", tern + "+moderator", `/club case member:` + wren, "typed"},
	{"2026-03-12T09:01:00Z", tern + "+moderator", `/club settings share:on digest:on channel:` + forum, "typed"},
	{"2026-03-12T09:01:00Z", tern + "+moderator", `/club slow`, "typed"},
	{"2026-03-20T09:00:00Z", wren, `/log what:water-change amount:50% conditioned:yes`, "typed"},
	{"2026-03-24T09:00:00Z", wren, `/reading ammonia:0 nitrite:0 nitrate:40 ph:7.2`, "form"},
	{"2026-03-25T09:00:00Z", wren, `/outlook on:2026-04-05`, "typed"},
	{"2026-03-25T09:00:00Z", wren, `/stock grams:20g`, "typed"},
	{"2026-03-25T09:00:00Z", wren, `/amount what:ammonia to:2ppm volume:60L product:9.5%`, "typed"},
	{"2026-03-25T09:00:00Z", wren, `/tank edit temp:26C at:2026-03-10`, "typed"},
	{"2026-03-25T09:04:00Z", wren, `/tank show`, "typed"},
	{"2026-03-25T09:05:00Z", wren, `/share as:markdown`, "typed"},
	{"2026-03-25T09:06:00Z", wren, `/help`, "typed"},
	{"2026-03-25T09:07:00Z", wren, `/help log`, "typed"},
	{"2026-03-25T09:08:00Z", wren, `/method`, "typed"},
	{"2026-03-26T09:00:00Z", wren, `/tank list`, "typed"},
	{"2026-03-26T09:01:00Z", wren, `/tank close tank:"moss bowl"`, "typed"},
	{"2026-03-26T09:02:00Z", wren, `/undo`, "button Undo"},
	{"2026-03-26T09:03:00Z", wren, `/tank show`, "typed"},
}

// rights are those of who says a step.
func (s step) rights() (member string, rights int64) {
	member, moderator := strings.CutSuffix(s.who, "+moderator")
	if moderator {
		return member, discordgo.PermissionManageMessages
	}
	return member, discordgo.PermissionSendMessages
}

// witness is a book whose last reply a test looks at.
type witness struct {
	Book
	change func(*commands.Request) // nil for none
	mu     sync.Mutex
	reply  commands.Reply
}

func (w *witness) Do(ctx context.Context, r commands.Request) commands.Reply {
	if w.change != nil {
		w.change(&r)
	}
	reply := w.Book.Do(ctx, r)
	w.mu.Lock()
	defer w.mu.Unlock()
	w.reply = reply
	return reply
}

func (w *witness) last() commands.Reply {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.reply
}

// TestCycleAnswersAsTheConsole plays the script twice, in the console's text form
// and as Discord would bring it, each on its own database: every reply must have
// the same data, words and pictures, and the same must be stored.
func TestCycleAnswersAsTheConsole(t *testing.T) {
	if testing.Short() {
		t.Skip("asks the engine many times")
	}
	t.Parallel()
	d := newDesk(t)
	console, replies := consoleOf(d, cycle)
	said := &witness{Book: d.flow.book}
	d.flow.book = said
	p := newPlatform(t, d)
	var last *discordtest.Message
	for k, s := range cycle {
		want := replies[k]
		all := p.say(s, last, len(split(dress(words(want), nil), maxContent)))
		last = all[len(all)-1]
		var parts []string
		for _, m := range all {
			if !m.Private() {
				t.Errorf("%s is answered to everyone", s.line)
			}
			parts = append(parts, m.Content)
		}
		got := strings.NewReplacer("<@"+wren+">", `"`+wren+`"`, "<#"+forum+">", `"`+forum+`"`).Replace(plain(parts...))
		if !sameWords(got, words(want)) {
			t.Errorf("%s is answered\n%s\nwhere the console says\n%s", s.line, got, words(want))
		}
		if got, want := asJSON(t, said.last().Data), asJSON(t, want.Data); got != want {
			t.Errorf("%s has the data\n%s\nwhere the console has\n%s", s.line, got, want)
		}
		checkPictures(t, s.line, last, want.Files)
		if o, ok := want.Data.(commands.Outlook); ok && o.DoneDate.P50 != nil && (len(last.Embeds) != 1 || !strings.Contains(last.Embeds[0].Description, "<t:")) {
			t.Errorf("%s shows no date of the reader's own: %+v", s.line, last.Embeds)
		}
	}
	if got, want := kept(t, d.store), kept(t, console); got != want {
		t.Errorf("holds\n%s\nwhere the console holds\n%s", got, want)
	}
	if again := p.Press(discordtest.From{User: wren, Guild: guild, Channel: forum}, last, "Show to everyone"); again.Followup(0).Private() {
		t.Error("what is shown to everyone is private")
	}
}

// words is what a reply of the console says, without the drawing in letters where
// there is a picture.
func words(r commands.Reply) string {
	text := r.Text
	if !r.OK {
		text = refused + text
	}
	var c commands.Chart
	switch d := r.Data.(type) {
	case commands.Outlook:
		c = d.Chart
	case commands.ChartShown:
		c = d.Chart
	}
	if len(r.Files) > 0 {
		text = strings.Replace(text, c.Text(), "", 1)
		text = strings.Replace(text, " The letters show all.", "", 1)
	}
	return text
}

// checkPictures holds what a message has attached to the files of a reply.
func checkPictures(t *testing.T, line string, m *discordtest.Message, want []commands.File) {
	t.Helper()
	if len(m.Files) != len(want) || len(m.Attachments) != len(want) {
		t.Errorf("%s has %d files and %d attachments, want %d", line, len(m.Files), len(m.Attachments), len(want))
		return
	}
	for k, f := range want {
		got := m.Files[k]
		if got.Name != f.Name || got.Type != "image/png" || !bytes.Equal(got.Data, f.Data) {
			t.Errorf("%s: the picture %s (%s) is not the console's %s", line, got.Name, got.Type, f.Name)
		}
		if alt := m.Attachments[k].Description; alt != f.Alt || alt == "" {
			t.Errorf("%s: the picture is described by %q, want %q", line, alt, f.Alt)
		}
		if _, err := png.Decode(bytes.NewReader(got.Data)); err != nil {
			t.Errorf("%s: the picture can't be read: %v", line, err)
		}
	}
}

func asJSON(t *testing.T, v any) string {
	t.Helper()
	raw, err := json.Marshal(v)
	if err != nil {
		t.Fatal(err)
	}
	return string(raw)
}

// sameWords compares texts but for the blank lines at which messages are split, and
// for how far lines are indented.
func sameWords(a, b string) bool {
	tidy := func(s string) string {
		var lines []string
		for _, l := range strings.Split(s, "\n") {
			if l = strings.TrimSpace(l); l != "" {
				lines = append(lines, l)
			}
		}
		return strings.Join(lines, "\n")
	}
	return tidy(a) == tidy(b)
}

// consoleOf replays the script, as a console that saves pictures and stands in
// a thread would, and returns its replies.
func consoleOf(d *desk, script []step) (st store.Store, replies []commands.Reply) {
	d.Helper()
	st = newStore(d)
	var lines strings.Builder
	for _, s := range script {
		fmt.Fprintf(&lines, "%s @%s %s\n", s.at, s.who, s.line)
	}
	book := &witness{Book: commands.New(st, commands.WithAdviser(d.engine)), change: func(r *commands.Request) { r.Plain, r.Place = false, forum }}
	err := replay.Run(context.Background(), book, guild, strings.NewReader(lines.String()), func(x replay.Exchange) error {
		replies = append(replies, x.Reply)
		return nil
	})
	if err != nil || len(replies) != len(script) {
		d.Fatalf("%d replies of %d, %v", len(replies), len(script), err)
	}
	return st, replies
}

// kept is all that a store holds of the people of the script, but for the keys of
// the deliveries.
func kept(t *testing.T, st store.Store) string {
	t.Helper()
	var b strings.Builder
	for _, who := range []string{wren, tern} {
		tanks, err := st.Tanks(t.Context(), guild, who)
		if err != nil {
			t.Fatal(err)
		}
		for _, tank := range tanks {
			fmt.Fprintln(&b, who, tank.Name, tank.Started.Format(time.RFC3339), tank.Closed)
			entries, err := st.Entries(t.Context(), tank.ID)
			if err != nil {
				t.Fatal(err)
			}
			for _, e := range entries {
				values, _ := json.Marshal(e.Values)
				fmt.Fprintln(&b, e.Kind, e.At.Format(time.RFC3339), e.Recorded.Format(time.RFC3339), string(values))
			}
		}
	}
	return b.String()
}
