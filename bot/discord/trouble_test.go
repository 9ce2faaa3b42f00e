package discord

import (
	"strings"
	"testing"

	"ripen/bot/discord/discordtest"
)

// TestNothingIsLostOrStoredTwice plays what the script stores through a platform on
// a bad day: everything is delivered twice, sockets break while it is worked on, the
// gateway asks to connect anew, calls fail and answers to them get lost. Every
// interaction is answered, and the same is stored as on the console.
func TestNothingIsLostOrStoredTwice(t *testing.T) {
	t.Parallel()
	var storing []step
	for _, s := range cycle {
		command := strings.Fields(s.line)
		switch command[0] {
		case "/units", "/tank", "/log", "/reading", "/undo", "!add":
			storing = append(storing, s)
		}
	}
	d := newDesk(t)
	console, replies := consoleOf(d, storing)
	p := newPlatform(t, d)
	n, befell := 0, map[string]int{}
	type trouble struct {
		name string
		bad  func()
	}
	gateway := []trouble{ // a second each, which the library sleeps
		{"socket cut", p.Drop},
		{"asked to connect anew", p.Reconnect},
		{"session ended", func() { p.Close(4009) }},
	}
	calls := []trouble{
		{"answer to the acknowledgement lost", func() { p.Lose("create_interaction_response", 1) }},
		{"acknowledgement fails", func() { p.Fail("create_interaction_response", 503, 1) }},
		{"edit fails", func() { p.Fail("update_original_webhook_message", 502, 2) }},
		{"answer to the edit lost", func() { p.Lose("update_original_webhook_message", 1) }},
	}
	p.upset = func(i *discordtest.Interaction) {
		x := calls[n%len(calls)]
		if n%9 == 3 {
			x = gateway[n/9%len(gateway)]
		}
		n++
		befell[x.name]++
		if x.name == "session ended" {
			i.Callback() // what a session did not deliver ends with it
		}
		x.bad()
		p.Ready(1)
		i.Again()
	}
	var last *discordtest.Message
	for k, s := range storing {
		all := p.say(s, last, len(split(dress(words(replies[k]), nil), maxContent)))
		last = all[len(all)-1]
	}
	if got, want := kept(t, d.store), kept(t, console); got != want {
		t.Errorf("holds\n%s\nwhere the console holds\n%s", got, want)
	}
	t.Logf("%d interactions, each delivered twice: %v", n, befell)
}
