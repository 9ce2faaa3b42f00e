package discord

import (
	"errors"
	"strings"
	"testing"

	"ripen/bot/discord/discordtest"
)

// inspected are the findings about a stand-in that was set up: what is wrong with the
// gateway, the commands and the channels, "" for nothing.
func inspected(t *testing.T, d *desk, srv *discordtest.Server, shards int, channels map[string]string) (all []Finding) {
	t.Helper()
	c := clientOf(t, srv)
	c.options.Shards = shards
	return Inspect(t.Context(), c, "", d.flow.book.Specs(), d.store, channels)
}

func TestInspectGateway(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	for _, c := range []struct {
		name                      string
		recommended, left, shards int
		says                      string
	}{
		{"all well", 1, 1000, 0, ""},
		{"all well in shards", 4, 1000, 4, ""},
		{"too few shards", 3, 1000, 2, "run 3 processes with --shards 3"},
		{"no connections left", 1, -1, 0, "there are more in 4h"},
		{"too few connections left", 4, 3, 4, "there are more in 4h"},
	} {
		srv := discordtest.New(t)
		srv.Shards, srv.Identifies = c.recommended, c.left
		f := inspected(t, d, srv, c.shards, nil)[0]
		if (f.Err == nil) != (c.says == "") || f.Err != nil && !strings.Contains(f.Err.Error(), c.says) {
			t.Errorf("%s: %s: %v", c.name, f.What, f.Err)
		}
	}
}

// Commands that the platform lost are registered again, though they did not change.
func TestInspectCommands(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	srv := discordtest.New(t)
	what := func() string {
		f := inspected(t, d, srv, 0, nil)[1]
		if f.Err != nil {
			t.Fatal(f.Err)
		}
		return f.What
	}
	registerAll := func() {
		if err := register(t.Context(), clientOf(t, srv), d.store, discordtest.App, "", d.flow.book.Specs()); err != nil {
			t.Fatal(err)
		}
	}
	if got := what(); !strings.Contains(got, "will be") {
		t.Errorf("before they are registered it says %q", got)
	}
	registerAll()
	if got := what(); got != "the commands are registered" {
		t.Errorf("after they were registered it says %q", got)
	}
	if err := clientOf(t, srv).SetCommands(t.Context(), "", registered(d.flow.book.Specs()[:2])); err != nil {
		t.Fatal(err)
	}
	if got := what(); !strings.Contains(got, "will be") {
		t.Errorf("after the platform lost some it says %q", got)
	}
	registerAll()
	if got := what(); got != "the commands are registered" {
		t.Errorf("after serving again it says %q", got)
	}
}

func TestInspectChannels(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	srv := discordtest.New(t)
	const gone, hidden, voice = "300000000000000007", "300000000000000008", "300000000000000009"
	srv.Delete(gone)
	srv.Hide(hidden)
	srv.Channels[voice] = 2
	all := inspected(t, d, srv, 0, map[string]string{"1": forum, "2": gone, "3": hidden, "4": voice, "5": "general"})[2:]
	if len(all) != 5 {
		t.Fatalf("found %+v", all)
	}
	if all[0].Err != nil || !errors.Is(all[1].Err, ErrChannelGone) || !errors.Is(all[2].Err, ErrNotAllowed) {
		t.Errorf("channels that are there, gone and hidden: %v, %v, %v", all[0].Err, all[1].Err, all[2].Err)
	}
	for _, f := range all[3:] {
		if f.Err == nil || !strings.Contains(f.Err.Error(), "/club settings channel:") {
			t.Errorf("%s: %v", f.What, f.Err)
		}
	}
}
