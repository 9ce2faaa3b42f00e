package discord

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
	"ripen/bot/replay"
	"ripen/commands"
	"ripen/store"
	"ripen/store/sqlite"
)

// step is one line of the script, and the way in which it is said on Discord:
// typed, by the form of the command, by a button under the last reply, or by the
// menu on a post.
type step struct{ at, who, line, way string }

// cycle is a member's whole cycle with its slips, and a moderator's questions.
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
	{"2026-03-12T09:02:00Z", wren, `/why tank:"moss bowl"`, "button Why?"},
	{"2026-03-12T09:03:00Z", wren, `/next-test`, "typed"},
	{"2026-03-12T09:04:00Z", wren, `/tryout temp:27C water-change:40% conditioned:yes`, "typed"},
	{"2026-03-12T09:05:00Z", wren, `/safe ammonia:1 ph:8 temp:26C`, "typed"},
	{"2026-03-14T09:00:00Z", tern, `/outlook member:` + wren, "typed"},
	{"2026-03-14T09:01:00Z", tern + "+moderator", `/outlook member:` + wren, "typed"},
	{"2026-03-14T09:02:00Z", tern + "+moderator", `/why member:` + wren, "menu"},
	{"2026-03-20T09:00:00Z", wren, `/log what:water-change amount:50% conditioned:yes`, "typed"},
	{"2026-03-24T09:00:00Z", wren, `/reading ammonia:0 nitrite:0 nitrate:40 ph:7.2`, "form"},
	{"2026-03-25T09:00:00Z", wren, `/outlook on:2026-04-05`, "typed"},
	{"2026-03-25T09:01:00Z", wren, `/stock grams:20g`, "typed"},
	{"2026-03-25T09:02:00Z", wren, `/amount what:ammonia to:2ppm volume:60L product:9.5%`, "typed"},
	{"2026-03-25T09:03:00Z", wren, `/tank edit temp:26C at:2026-03-10`, "typed"},
	{"2026-03-25T09:04:00Z", wren, `/tank show`, "typed"},
	{"2026-03-25T09:05:00Z", wren, `/share as:markdown`, "typed"},
	{"2026-03-25T09:06:00Z", wren, `/help`, "typed"},
	{"2026-03-25T09:07:00Z", wren, `/help log`, "typed"},
	{"2026-03-25T09:08:00Z", wren, `/method`, "typed"},
	{"2026-03-26T09:00:00Z", wren, `/tank list`, "typed"},
	{"2026-03-26T09:01:00Z", wren, `/tank close tank:"moss bowl"`, "typed"},
	{"2026-03-26T09:02:00Z", wren, `/undo`, "button Undo"},
}

// rights are those of who says a step.
func (s step) rights() (member string, rights int64) {
	member, moderator := strings.CutSuffix(s.who, "+moderator")
	if moderator {
		return member, discordgo.PermissionManageMessages
	}
	return member, discordgo.PermissionSendMessages
}

// TestCycleAnswersAsTheConsole plays the script twice, in the console's text form
// and as Discord would bring it, each on its own database: every reply must be the
// same words, and the same must be stored.
func TestCycleAnswersAsTheConsole(t *testing.T) {
	if testing.Short() {
		t.Skip("asks the engine many times")
	}
	d := newDesk(t)
	console, replies := consoleCycle(d)
	p := newPlatform(t, d)
	var last *discordtest.Message
	for k, s := range cycle {
		want := replies[k]
		all := p.say(s, last, len(split(dress(want, nil), maxContent)))
		last = all[len(all)-1]
		var parts []string
		for _, m := range all {
			if !m.Private() {
				t.Errorf("%s is answered to everyone", s.line)
			}
			parts = append(parts, m.Content)
		}
		got := strings.ReplaceAll(plain(parts...), "<@"+wren+">", `"`+wren+`"`)
		if !sameWords(got, want) {
			t.Errorf("%s is answered\n%s\nwhere the console says\n%s", s.line, got, want)
		}
	}
	if got, want := kept(t, d.store), kept(t, console); got != want {
		t.Errorf("holds\n%s\nwhere the console holds\n%s", got, want)
	}
}

// sameWords compares texts but for the blank lines at which messages are split.
func sameWords(a, b string) bool {
	tidy := func(s string) string {
		var lines []string
		for _, l := range strings.Split(s, "\n") {
			if l = strings.TrimRight(l, " "); l != "" {
				lines = append(lines, l)
			}
		}
		return strings.Join(lines, "\n")
	}
	return tidy(a) == tidy(b)
}

// consoleCycle replays the script and returns the replies as a person reads them.
func consoleCycle(d *desk) (st store.Store, replies []string) {
	d.Helper()
	st, err := sqlite.OpenTemp(d.TempDir())
	if err != nil {
		d.Fatal(err)
	}
	d.Cleanup(func() { st.Close() })
	var script strings.Builder
	for _, s := range cycle {
		if strings.HasPrefix(s.line, "/tank tie") {
			s.line = "/tank show" // the console has no threads; see below
		}
		fmt.Fprintf(&script, "%s @%s %s\n", s.at, s.who, s.line)
	}
	book := commands.New(st, commands.WithAdviser(d.engine))
	err = replay.Run(context.Background(), book, guild, strings.NewReader(script.String()), func(x replay.Exchange) error {
		text := x.Reply.Text
		if !x.Reply.OK {
			text = refused + text
		}
		if strings.HasPrefix(cycle[len(replies)].line, "/tank tie") {
			text = "This thread is about moss bowl from now on: commands here take that tank when none is named."
		}
		replies = append(replies, text)
		return nil
	})
	if err != nil || len(replies) != len(cycle) {
		d.Fatalf("%d replies of %d, %v", len(replies), len(cycle), err)
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
