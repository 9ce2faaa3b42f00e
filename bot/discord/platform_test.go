package discord

import (
	"context"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
	"ripen/commands"
)

// platform is the stand-in with the bot connected to it, at the time of a script.
type platform struct {
	*testing.T
	*discordtest.Server
	desk  *desk
	at    atomic.Int64                   // ms since 1970
	upset func(*discordtest.Interaction) // befalls what was just sent; nil for nothing
}

// sent lets befall an interaction what the test wants.
func (p *platform) sent(i *discordtest.Interaction) *discordtest.Interaction {
	if p.upset != nil {
		p.upset(i)
	}
	return i
}

func newPlatform(t *testing.T, d *desk) *platform {
	t.Helper()
	p := &platform{T: t, Server: discordtest.New(t), desk: d}
	p.Server.Now = func() time.Time { return time.UnixMilli(p.at.Load()) }
	p.Guilds, p.Channels[forum] = []string{guild}, 11
	p.at.Store(time.Date(2026, 3, 1, 8, 0, 0, 0, time.UTC).UnixMilli())
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, p.Server, d) }()
	t.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			t.Errorf("serving ends with %v", err)
		}
	})
	p.Ready(1)
	return p
}

// say says a step in its way and returns the messages of its answer, of which
// there are n.
func (p *platform) say(s step, last *discordtest.Message, n int) []*discordtest.Message {
	p.Helper()
	at, err := time.Parse(time.RFC3339, s.at)
	if err != nil {
		p.Fatal(err)
	}
	p.desk.settle() // answers of before belong to their time
	p.at.Store(at.UnixMilli())
	member, rights := s.rights()
	from := discordtest.From{User: member, Guild: guild, Channel: forum, Permissions: rights}
	command, sub, options, _ := commands.ParseLine(s.line)
	way, label, _ := strings.Cut(s.way, " ")
	var i *discordtest.Interaction
	switch way {
	case "typed":
		i = p.sent(p.Slash(from, command, sub, given(command, sub, options)...))
	case "menu":
		i = p.sent(p.UserMenu(from, menuExplain, discordtest.From{User: options["member"], Guild: guild}))
	case "post":
		post := strings.ReplaceAll(strings.TrimPrefix(s.line, "!add "), `\n`, "\n")
		i = p.sent(p.MessageMenu(from, menuAdd, p.Written(from, post)))
		if m := i.Message(); m.Button("Store") != nil {
			i = p.sent(p.Press(from, m, "Store"))
		}
	case "button":
		i = p.sent(p.Press(from, last, label))
		if c := i.Callback(); c.Type == 9 {
			delete(options, "what") // known to the button
			i = p.sent(p.Submit(from, i, options))
		}
	case "form":
		menu := options["method"]
		delete(options, "method")
		i = p.sent(p.Submit(from, p.sent(p.Slash(from, command, sub)), options))
		if menu != "" {
			i = p.sent(p.Select(from, i.Message(), menu))
			i = p.sent(p.Press(from, i.Message(), "Register"))
		}
	}
	all := []*discordtest.Message{i.Message()}
	for k := range n - 1 {
		all = append(all, i.Followup(k))
	}
	return all
}

// allSpecs are those of all commands.
var allSpecs = sync.OnceValue(func() []commands.Spec { return commands.New(nil).Specs() })

// given are the options of a command as its registration asks for them.
func given(command, sub string, options map[string]string) (given []discordtest.Option) {
	for _, s := range allSpecs() {
		if s.Name != command || s.Sub != sub {
			continue
		}
		for _, o := range s.Options {
			typed, ok := options[o.Name]
			if !ok {
				continue
			}
			g := discordtest.Option{Name: o.Name, Value: typed}
			if n, err := strconv.ParseFloat(typed, 64); err == nil && option(o, false).Type == discordgo.ApplicationCommandOptionNumber {
				g.Value = n
			}
			given = append(given, g)
		}
	}
	return given
}
