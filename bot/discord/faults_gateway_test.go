package discord

import (
	"context"
	"errors"
	"fmt"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
)

// running runs a client on a stand-in, with no pauses between connections. It
// stops with the test.
func running(t *testing.T, srv *discordtest.Server, set func(*Client), handle func(context.Context, *discordgo.Interaction)) {
	t.Helper()
	c, err := newClient(srv)
	if err != nil {
		t.Fatal(err)
	}
	c.wait = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	if set != nil {
		set(c)
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- c.Run(ctx, handle) }()
	t.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			t.Errorf("running ends with %v", err)
		}
	})
}

// got waits for what a handler tells.
func got[T any](t *testing.T, from <-chan T) (v T) {
	t.Helper()
	select {
	case v = <-from:
	case <-time.After(20 * time.Second):
		t.Fatal("waited in vain for an interaction")
	}
	return v
}

var asking = discordtest.From{User: "200000000000000001", Name: "wren", Guild: "100000000000000001", Channel: "300000000000000001"}

func TestRow1ReconnectBeforeReady(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	srv.NextReconnect()
	running(t, srv, func(c *Client) { c.opening = 1500 * time.Millisecond }, nil) // long enough for a busy machine to come to IDENTIFY
	srv.Sent("IDENTIFY", 2)
	srv.Ready(1)
}

func TestRow2Silence(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	srv.Heartbeat = 100 * time.Millisecond // keeps a good connection from silence
	srv.NextWithoutHello()
	running(t, srv, func(c *Client) { c.opening, c.silence = time.Minute, 400*time.Millisecond }, nil)
	srv.Ready(1)
}

func TestRow2Zombie(t *testing.T) {
	if testing.Short() {
		t.Skip("takes three seconds")
	}
	t.Parallel()
	srv := discordtest.New(t)
	srv.Heartbeat = time.Second // the library alone would take five of them
	running(t, srv, func(c *Client) { c.silence = 1500 * time.Millisecond }, nil)
	srv.Ready(1)
	srv.Patience = 3500 * time.Millisecond
	srv.Deafen()
	srv.Sent("RESUME", 1)
}

// unknownForm is a form sent back with fields that the library does not know.
const unknownForm = `{"id":"900","application_id":"1","type":5,"token":"t","version":1,"guild_id":"2","channel_id":"3",
"member":{"user":{"id":"4","username":"wren"},"permissions":"0","roles":[]},
"data":{"custom_id":"form","components":[
 {"type":18,"id":1,"component":{"type":4,"id":2,"custom_id":"ammonia","value":"0.5"}},
 {"type":18,"id":3,"component":{"type":99,"id":4,"custom_id":"other","values":["x"]}},
 {"type":98,"id":5}]}}`

func TestRow3UnknownComponents(t *testing.T) {
	i, err := parseInteraction([]byte(unknownForm))
	if err != nil {
		t.Fatal(err)
	}
	d := i.ModalSubmitData()
	if d.CustomID != "form" || len(d.Components) != 1 {
		t.Fatalf("the form is read as %+v", d)
	}
	field := d.Components[0].(*discordgo.ActionsRow).Components[0].(*discordgo.TextInput)
	if field.CustomID != "ammonia" || field.Value != "0.5" {
		t.Errorf("its field is read as %+v", field)
	}
	if _, err := parseInteraction([]byte(`{"id":"1","type":77,"token":"t"}`)); err == nil {
		t.Error("an interaction without data is taken")
	}
}

func TestRow3And4HandlersAreOnTheirOwn(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	names := make(chan string, 2)
	var calls atomic.Int32
	running(t, srv, nil, func(ctx context.Context, i *discordgo.Interaction) {
		if _, ok := ctx.Deadline(); !ok {
			t.Error("a handler has no deadline")
		}
		first := calls.Add(1) == 1
		names <- i.ID
		if first {
			panic("of a handler")
		}
	})
	srv.Ready(1)
	srv.Event("INTERACTION_CREATE", map[string]any{"id": "1", "type": 77, "token": "t"})
	for range 2 {
		i := srv.Slash(asking, "today", "")
		if id := got(t, names); id != i.ID {
			t.Errorf("handled %s, not %s", id, i.ID)
		}
	}
}

func TestRow7FatalCloseCodes(t *testing.T) {
	for code := range fatal {
		for _, when := range []string{"at first", "later"} {
			if when == "later" && code != 4004 && code != 4014 {
				continue // the others come at first only
			}
			t.Run(fmt.Sprint(code, " ", when), func(t *testing.T) {
				t.Parallel()
				srv := discordtest.New(t)
				c := clientOf(t, srv)
				if when == "at first" {
					srv.NextClose(code)
				}
				ctx, stop := context.WithTimeout(context.Background(), 20*time.Second)
				defer stop()
				ended := make(chan error, 1)
				go func() { ended <- c.Run(ctx, nil) }()
				if when == "later" {
					srv.Ready(1)
					srv.Close(code)
				}
				err := <-ended
				if e, ok := errors.AsType[*FatalError](err); !ok || e.Code != code {
					t.Errorf("running ends with %v", err)
				}
			})
		}
	}
}

func TestRow7ResumesWhereThePlatformKeepsTheSession(t *testing.T) {
	for code, resumes := range map[int]bool{1006: true, 4000: true, 4008: true, 4007: false, 4009: false} {
		t.Run(strconv.Itoa(code), func(t *testing.T) {
			t.Parallel()
			srv := discordtest.New(t)
			running(t, srv, nil, nil)
			srv.Ready(1)
			if code == 1006 {
				srv.Drop()
			} else {
				srv.Close(code)
			}
			if resumes {
				srv.Sent("RESUME", 1)
			} else {
				srv.Sent("IDENTIFY", 2)
			}
			srv.Ready(1)
			if n := srv.Sent("IDENTIFY", 1); (n == 1) != resumes {
				t.Errorf("close code %d: identified %d times", code, n)
			}
		})
	}
}

// The library's own reconnecting, its state and what it notes of heartbeats are
// unguarded. Driven under the race detector, there is one
// connection at a time, heartbeats go on while all handlers are busy, and no guild is
// kept. It fails where a session reconnects by itself (two resume), handles in the
// reading loop (heartbeats stop) or keeps state.
func TestRow10NothingRacyIsUsed(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	srv.Heartbeat = 200 * time.Millisecond // the library gives a connection up after five without an answer
	for k := range 50 {
		srv.Guilds = append(srv.Guilds, strconv.Itoa(100000000000000000+k))
	}
	c := clientOf(t, srv)
	c.wait = func(ctx context.Context, _ time.Duration) error { return ctx.Err() }
	var sessions []*discordgo.Session
	c.made = func(s *discordgo.Session) { sessions = append(sessions, s) }
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	handled, goOn := make(chan bool), make(chan bool)
	go func() {
		ended <- c.Run(ctx, func(context.Context, *discordgo.Interaction) {
			handled <- true
			<-goOn
		})
	}()
	srv.Ready(1)
	const n = 20
	for range n {
		srv.Slash(discordtest.From{User: wren, Guild: srv.Guilds[0], Channel: forum}, "today", "")
	}
	for range n {
		got(t, handled)
	}
	beats := func() { srv.Sent("HEARTBEAT", srv.Sent("HEARTBEAT", 0)+2) }
	beats()
	srv.Drop()
	srv.Sent("RESUME", 1)
	srv.Ready(1)
	beats()
	if resumed, identified := srv.Sent("RESUME", 0), srv.Sent("IDENTIFY", 0); resumed != 1 || identified != 1 {
		t.Errorf("after a drop it has resumed %d times and identified %d times", resumed, identified)
	}
	close(goOn)
	stop()
	if err := <-ended; err != nil {
		t.Error(err)
	}
	for _, s := range sessions {
		if s.State != nil && len(s.State.Guilds) > 0 {
			t.Errorf("a session keeps %d guilds", len(s.State.Guilds))
		}
	}
}

// What was begun is finished before Run returns; nothing more is begun.
func TestStoppingFinishesWhatWasBegun(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c, err := newClient(srv)
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	begun, goOn, ended := make(chan bool), make(chan bool), make(chan error, 1)
	go func() {
		ended <- c.Run(ctx, func(ctx context.Context, i *discordgo.Interaction) {
			private := &Message{Private: true}
			if err := c.Respond(ctx, i, Response{Type: discordgo.InteractionResponseDeferredChannelMessageWithSource, Message: private}); err != nil {
				t.Error(err)
			}
			begun <- true
			<-goOn
			if err := c.Edit(ctx, i, Message{Content: "done"}); err != nil {
				t.Error(err)
			}
		})
	}()
	srv.Ready(1)
	i := srv.Slash(asking, "today", "")
	<-begun
	stop()
	select {
	case err := <-ended:
		t.Fatalf("running ends with %v before what was begun is done", err)
	default:
	}
	close(goOn)
	if m := i.Message(); m.Content != "done" {
		t.Errorf("the answer is %q", m.Content)
	}
	if err := <-ended; err != nil {
		t.Errorf("running ends with %v", err)
	}
}

// What is not finished within the grace is told of, and Run returns all the same.
func TestStoppingTellsWhatIsNotFinished(t *testing.T) {
	t.Parallel()
	srv := discordtest.New(t)
	c := clientOf(t, srv)
	c.grace = 20 * time.Millisecond
	ctx, stop := context.WithCancel(context.Background())
	begun, late, ended := make(chan bool), make(chan error, 1), make(chan error, 1)
	go func() {
		ended <- c.Run(ctx, func(ctx context.Context, i *discordgo.Interaction) {
			if err := c.Respond(ctx, i, Response{Type: discordgo.InteractionResponseDeferredChannelMessageWithSource, Message: &Message{Private: true}}); err != nil {
				t.Error(err)
			}
			begun <- true
			<-ctx.Done()
			late <- c.Edit(ctx, i, Message{Content: "late"})
		})
	}()
	srv.Ready(1)
	i := srv.Slash(asking, "today", "")
	<-begun
	stop()
	if err := <-ended; err != nil {
		t.Errorf("running ends with %v", err)
	}
	if m := i.Message(); !strings.Contains(m.Content, "stopped before this was done") {
		t.Errorf("the asker reads %q", m.Content)
	}
	if err := <-late; err == nil {
		t.Error("a late answer took the place of that")
	}
}
