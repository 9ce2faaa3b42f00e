package discord

import (
	"fmt"
	"net/http"
	"os"
	"strings"
	"testing"
	"time"

	"ripen/bot/discord/discordtest"
)

// ordeal is a trouble of the platform or the network, before an interaction is sent
// or while it is worked on.
type ordeal struct {
	name   string
	before func(*platform)
	after  func(*platform, *discordtest.Interaction)
	says   string // what is counted of the bot afterwards
	hangs  bool   // the library, so that a connection has to be given up
}

const (
	routeAck  = "create_interaction_response"
	routeEdit = "update_original_webhook_message"
)

// again is a connection that is cut, so that the next meets with what was planned.
func again(plan func(*discordtest.Server)) func(*platform) {
	return func(p *platform) {
		was := p.Sent("IDENTIFY", 1) + p.Sent("RESUME", 0)
		plan(p.Server)
		p.Drop()
		for p.Sent("IDENTIFY", 0)+p.Sent("RESUME", 0) == was {
			p.Ready(1)
		}
	}
}

var ordeals = []ordeal{
	{"none", nil, nil, "connected 1, resumed 0; acknowledged in 1, answered in 1", false},
	{"asked to connect anew (opcode 7)", (*platform).reconnected, nil, "connected 1, resumed 1; acknowledged in 1, answered in 1", false},
	{"opcode 7 in the place of READY", func(p *platform) { again((*discordtest.Server).NextReconnect)(p); p.Sent("IDENTIFY", 2) }, nil, "connected 2, resumed 1; acknowledged in 1, answered in 1", true},
	{"no HELLO", again((*discordtest.Server).NextWithoutHello), nil, "connected 2, resumed 0; acknowledged in 1, answered in 1", true},
	{"session invalid (opcode 9) when it resumes", again((*discordtest.Server).NextInvalid), nil, "connected 2, resumed 1; acknowledged in 1, answered in 1", false},
	{"session invalid while connected", (*platform).invalidated, nil, "connected 2, resumed 0; acknowledged in 1, answered in 1", false},
	{"socket cut while it works", nil, func(p *platform, i *discordtest.Interaction) { i.Callback(); p.Drop() }, "connected 1, resumed 1; acknowledged in 1, answered in 1", false},
	{"closed with 4000 or 4008", func(p *platform) { p.closed(4000); p.closed(4008) }, nil, "connected 1, resumed 2; acknowledged in 1, answered in 1", false},
	{"closed with 4007 or 4009", func(p *platform) { p.closed(4007); p.closed(4009) }, nil, "connected 3, resumed 0; acknowledged in 1, answered in 1", false},
	{"429 on the acknowledgement, twice", func(p *platform) { p.Limit(routeAck, 50*time.Millisecond, false, 2) }, nil, "connected 1, resumed 0; acknowledged in 3, answered in 1", false},
	{"429 for all calls", func(p *platform) { p.Limit(routeEdit, 50*time.Millisecond, true, 1) }, nil, "connected 1, resumed 0; acknowledged in 1, answered in 2", false},
	{"429 that is no JSON", func(p *platform) { p.LimitPlain(routeEdit, 50*time.Millisecond, 1) }, nil, "connected 1, resumed 0; acknowledged in 1, answered in 2", false},
	{"500, 502, 503 on the acknowledgement", func(p *platform) { p.failing(routeAck, 500, 502, 503) }, nil, "connected 1, resumed 0; acknowledged in 4, answered in 1", false},
	{"500, 502, 504 on the answer", func(p *platform) { p.failing(routeEdit, 500, 502, 504) }, nil, "connected 1, resumed 0; acknowledged in 1, answered in 4", false},
	{"acknowledgement done, its echo lost", func(p *platform) { p.Lose(routeAck, 1) }, nil, "connected 1, resumed 0; acknowledged in 2, answered in 1", false},
	{"answer done, its echo lost", func(p *platform) { p.Lose(routeEdit, 1) }, nil, "connected 1, resumed 0; acknowledged in 1, answered in 2", false},
	{"slow calls", func(p *platform) { p.Slow("", 300*time.Millisecond, 2) }, nil, "connected 1, resumed 0; acknowledged in 1, answered in 1", false},
	{"delivered three times", nil, func(p *platform, i *discordtest.Interaction) { i.Again(); i.Again() }, "connected 1, resumed 0; acknowledged in 1, answered in 1", false},
	{"events once more, out of order", nil, func(p *platform, _ *discordtest.Interaction) { p.Again(3) }, "connected 1, resumed 0; acknowledged in 1, answered in 1", false},
	{"events that nobody knows, or no JSON", func(p *platform) {
		p.Event("NO_SUCH_EVENT", map[string]any{"a": []int{1}})
		p.Event("INTERACTION_CREATE", map[string]any{"id": "1", "type": 77, "token": "t"})
		p.Event("INTERACTION_CREATE", []string{"no interaction"})
		p.Raw(`{"op":0,"t":"INTERACTION_CREATE","d":{"id`)
	}, nil, "connected 1, resumed 0; acknowledged in 1, answered in 1", false},
}

func (p *platform) reconnected() {
	p.Reconnect()
	p.Sent("RESUME", 1)
}

func (p *platform) invalidated() {
	p.Invalidate()
	p.Sent("IDENTIFY", 2)
}

func (p *platform) closed(code int) {
	was := p.Sent("IDENTIFY", 0) + p.Sent("RESUME", 0)
	p.Close(code)
	for p.Sent("IDENTIFY", 0)+p.Sent("RESUME", 0) == was {
		p.Ready(1)
	}
}

func (p *platform) failing(route string, statuses ...int) {
	for _, s := range statuses {
		p.Fail(route, s, 1)
	}
}

// TestOrdeals lets a member note something through each trouble: it is answered, and
// stored once. The table of DEVELOPERS.md says so.
func TestOrdeals(t *testing.T) {
	if testing.Short() {
		t.Skip("counts connections, which the library closes twice now and then where the race detector slows it")
	}
	pages, err := os.ReadFile("../../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, o := range ordeals {
		t.Run(o.name, func(t *testing.T) {
			t.Parallel()
			d := newDesk(t)
			if o.hangs {
				d.tune = func(c *Client) { c.opening = 2 * time.Second }
			}
			p := newPlatform(t, d)
			d.ask("2026-03-01T08:00:00Z", wren, tankNano)
			before, calls := d.entries(wren), len(p.Calls())
			if o.before != nil {
				o.before(p)
				p.Ready(1)
			}
			i := p.Slash(discordtest.From{User: wren, Guild: guild, Channel: forum}, "log", "", given("log", "", map[string]string{"what": "note", "detail": "moved"})...)
			if o.after != nil {
				o.after(p, i)
			}
			if m := i.Message(); !strings.HasPrefix(m.Content, "Noted") {
				t.Errorf("answered %q", m.Content)
			}
			p.Ready(1)
			d.settle()
			if n := d.entries(wren) - before; n != 1 {
				t.Errorf("stored %d times", n)
			}
			tries := map[string]int{}
			for _, c := range p.Calls()[calls:] {
				if c.Method != http.MethodGet {
					tries[c.Route]++
				}
			}
			did := fmt.Sprintf("connected %d, resumed %d; acknowledged in %d, answered in %d", p.Sent("IDENTIFY", 1), p.Sent("RESUME", 0), tries[routeAck], tries[routeEdit])
			if did != o.says {
				t.Errorf("it %s; want: %s", did, o.says)
			}
			if row := fmt.Sprintf("| %s | %s | once |", o.name, did); !strings.Contains(string(pages), row) {
				t.Errorf("DEVELOPERS.md lacks %s", row)
			}
		})
	}
}
