package discord

import (
	"strings"
	"testing"

	"ripen/bot/discord/discordtest"
	"ripen/commands"
)

// A member takes their data to another club: exported as a file, attached there.
func TestDataMovesByAttachment(t *testing.T) {
	t.Parallel()
	d := newDesk(t)
	p := newPlatform(t, d)
	from := discordtest.From{User: wren, Guild: guild, Channel: forum}
	d.ask("2026-03-01T08:00:00Z", wren, tankNano)
	d.ask("2026-03-01T08:00:00Z", wren, "/reading ammonia:2")
	out := p.Slash(from, "data", "export").Message()
	if len(out.Files) != 1 || out.Button("Show to everyone") != nil {
		t.Fatalf("the export has %d files and is offered to everyone: %s", len(out.Files), out.Content)
	}
	in := func(f discordtest.File) *discordtest.Message {
		to := discordtest.From{User: tern, Guild: guild, Channel: forum}
		return p.Slash(to, "data", "import", discordtest.Option{Name: "file", File: &f}).Message()
	}
	for range 2 {
		if m := in(out.Files[0]); strings.HasPrefix(m.Content, refused) || !m.Private() || d.entries(tern) != d.entries(wren) {
			t.Errorf("taking it in is answered %q; %d entries of %d", m.Content, d.entries(tern), d.entries(wren))
		}
	}
	for name, f := range map[string]discordtest.File{
		"is no export":   {Name: "notes.txt", Type: "text/plain", Data: []byte("hello")},
		"bytes; at most": {Name: "big.json", Type: "application/json", Data: make([]byte, commands.MaxFile+1)},
	} {
		if m := in(f); !strings.HasPrefix(m.Content, refused) || !strings.Contains(m.Content, name) {
			t.Errorf("%s is answered %q", f.Name, m.Content)
		}
	}
}

func TestFetchAsksThePlatformOnly(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	for _, address := range []string{"http://127.0.0.1:9/x", "https://192.0.2.1/x", "file:///etc/passwd", "http://cdn.discordapp.com/x", "https://cdn.discordapp.com.example/x", ":"} {
		if _, err := c.Fetch(t.Context(), address, 10); err == nil || strings.Contains(err.Error(), "refused") {
			t.Errorf("%s is asked: %v", address, err)
		}
	}
	if _, err := c.Fetch(t.Context(), strings.TrimSuffix(srv.API(), "/api/v10")+"/attachments/1", 10); err == nil || !strings.Contains(err.Error(), "404") {
		t.Errorf("what is not there is %v", err)
	}
}
