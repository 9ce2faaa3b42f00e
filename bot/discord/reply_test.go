package discord

import (
	"strings"
	"testing"

	"github.com/bwmarrin/discordgo"

	"ripen/commands"
)

func TestLongAnswerGoesIntoAFile(t *testing.T) {
	d := newDesk(t)
	for _, c := range []struct {
		lines, messages int
		file            bool
	}{{1, 1, false}, {20, 1, false}, {21, 2, false}, {100, 5, false}, {101, 5, true}, {5000, 5, true}} {
		text := strings.TrimSuffix(strings.Repeat(strings.Repeat("a", 99)+"\n", c.lines), "\n")
		all := d.flow.messages(t.Context(), commands.Request{Command: "help"}, commands.Reply{OK: true, Text: text})
		last := all[len(all)-1]
		if len(all) != c.messages || (len(last.Files) == 1) != c.file {
			t.Errorf("%d lines make %d messages with %d files", c.lines, len(all), len(last.Files))
		}
		if c.file && string(last.Files[0].Data) != text {
			t.Errorf("%d lines: the file lacks some", c.lines)
		}
		for _, m := range all {
			if length(m.Content) > maxContent {
				t.Errorf("%d lines: a message of %d characters", c.lines, length(m.Content))
			}
		}
	}
}

func TestNoButtonWhoseStateDoesNotFit(t *testing.T) {
	d := newDesk(t)
	long := map[string]string{"temp": "27C", "kh": "6dKH", "ph": "7.5", "water-change": "40%", "dose": "2ppm", "plants": "many-fast", "seed": "0.5L", "flow": "strong"}
	ask := func(options map[string]string) string {
		return labels(d.flow.messages(t.Context(), commands.Request{Command: "tryout", Member: wren, Options: options}, commands.Reply{OK: true, Text: "x"})[0])
	}
	if got := ask(map[string]string{"temp": "27C"}); got != "Show to everyone" {
		t.Errorf("a short question has %q", got)
	}
	if got := ask(long); got != "" {
		t.Errorf("a long question has %q", got)
	}
}

func TestSettingsShowTheChannel(t *testing.T) {
	d := newDesk(t)
	ask := func(channel string) Message {
		i := d.slash("2026-03-01T09:00:00Z", tern, "/club settings digest:on channel:"+channel)
		i.Member.Permissions = discordgo.PermissionManageGuild
		return d.edited(d.do(i))
	}
	if m := ask(forum); !strings.Contains(m.Content, "in <#"+forum+">") {
		t.Errorf("a channel is shown as %q", m.Content)
	}
	if m := ask("cycling"); !strings.Contains(m.Content, `in "cycling"`) {
		t.Errorf("no channel of the platform is shown as %q", m.Content)
	}
}
