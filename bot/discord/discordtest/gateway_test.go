package discordtest

import (
	"errors"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
	"github.com/gorilla/websocket"
)

// echo answers slash commands with their names.
func echo(t *testing.T, c *discordgo.Session) {
	answering(c, func(i *discordgo.Interaction) {
		if err := c.InteractionRespond(i, text(i.ApplicationCommandData().Name)); err != nil {
			t.Error(err)
		}
	})
}

// What befalls a connected session, and what the library is seen to do with it.
// An interaction that comes meanwhile is answered after it.
func TestGatewayTrouble(t *testing.T) {
	if testing.Short() {
		t.Skip("the library waits a second to close, and another to connect anew")
	}
	tests := []struct {
		name   string
		beat   time.Duration
		happen func(*Server)
		sent   string
		times  int
	}{
		{"a dropped socket is resumed", 0, (*Server).Drop, "RESUME", 1},
		{"opcode 7 is resumed", 0, (*Server).Reconnect, "RESUME", 1},
		{"close code 4000 is resumed", 0, func(s *Server) { s.Close(4000) }, "RESUME", 1},
		{"close code 4009 ends the session", 0, func(s *Server) { s.Close(4009) }, "IDENTIFY", 2},
		{"opcode 9 is identified anew", 0, (*Server).Invalidate, "IDENTIFY", 2},
		{"opcode 9 to a resumption", 0, func(s *Server) { s.NextInvalid(); s.Drop() }, "IDENTIFY", 2},
		{"opcode 1 is answered", 0, (*Server).AskBeat, "HEARTBEAT", 2},
		{"heartbeats go on", 20 * time.Millisecond, func(*Server) {}, "HEARTBEAT", 5},
		{"a deaf gateway is left", 20 * time.Millisecond, (*Server).Deafen, "RESUME", 1},
		{"no JSON", 0, func(s *Server) { s.Raw("{"); s.AskBeat() }, "HEARTBEAT", 2},
		{"an unknown opcode", 0, func(s *Server) { s.Raw(`{"op":99,"d":null}`); s.AskBeat() }, "HEARTBEAT", 2},
		{"an unknown event", 0, func(s *Server) { s.Event("TANK_OVERFLOW", map[string]any{"a": 1}); s.AskBeat() }, "HEARTBEAT", 2},
		{"an event of the wrong shape", 0, func(s *Server) { s.Event("CHANNEL_CREATE", []int{1}); s.AskBeat() }, "HEARTBEAT", 2},
		{"events out of order", 0, func(s *Server) { s.Again(2); s.AskBeat() }, "HEARTBEAT", 2},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			s := New(t)
			s.Heartbeat, s.Guilds, s.Patience = test.beat, []string{wren.Guild}, 10*time.Second
			c := client(t, s)
			echo(t, c)
			open(t, s, c)
			s.Sent("HEARTBEAT", 1)
			test.happen(s)
			if test.sent == "IDENTIFY" {
				s.Sent(test.sent, test.times) // what a session that ends was sent is lost
			}
			i := s.Slash(wren, "help", "")
			s.Sent(test.sent, test.times)
			if got := i.Message(); got.Content != "help" {
				t.Errorf("answered %+v", got)
			}
		})
	}
}

// What befalls a session on its way in.
func TestFirstConnection(t *testing.T) {
	closes := func(code int, change func(*Server, *discordgo.Session)) func(*testing.T) {
		return func(t *testing.T) {
			t.Parallel()
			s := New(t)
			c := client(t, s)
			change(s, c)
			var closed *websocket.CloseError
			if err := c.Open(); !errors.As(err, &closed) || closed.Code != code {
				t.Errorf("opened: %v, want close code %d", err, code)
			}
		}
	}
	t.Run("a wrong token", closes(4004, func(_ *Server, c *discordgo.Session) { c.Identify.Token = "Bot x" }))
	t.Run("a shard that is not", closes(4010, func(_ *Server, c *discordgo.Session) { c.Identify.Shard = &[2]int{2, 2} }))
	t.Run("privileged intents", closes(4014, func(_ *Server, c *discordgo.Session) { c.Identify.Intents |= discordgo.IntentMessageContent }))
	t.Run("a planned code", closes(4013, func(s *Server, _ *discordgo.Session) { s.NextClose(4013) }))
	hangs := func(plan func(*Server)) func(*testing.T) {
		return func(t *testing.T) {
			t.Parallel()
			s := New(t)
			plan(s)
			opened := make(chan error, 1)
			c := client(t, s)
			go func() { opened <- c.Open() }()
			select {
			case err := <-opened:
				t.Errorf("opened (%v), although nothing was said", err)
			case <-time.After(200 * time.Millisecond):
			}
		}
	}
	t.Run("no HELLO", hangs((*Server).NextWithoutHello))
	t.Run("opcode 7 before READY", hangs((*Server).NextReconnect))
}

// Interactions go to the shard of their guild.
func TestShards(t *testing.T) {
	s := New(t)
	guilds := []string{"100000000000000001", "100000000004194305"} // 1 << 22 apart
	for shard := range 2 {
		c := client(t, s)
		c.ShardID, c.ShardCount = shard, 2
		answering(c, func(i *discordgo.Interaction) {
			if err := c.InteractionRespond(i, text([]string{"zero", "one"}[shard])); err != nil {
				t.Error(err)
			}
		})
		open(t, s, c)
	}
	said := map[string]bool{}
	for _, g := range guilds {
		from := wren
		from.Guild = g
		said[s.Slash(from, "help", "").Message().Content] = true
	}
	if !said["zero"] || !said["one"] {
		t.Errorf("answered by %v, want both shards", said)
	}
}
