package demo

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"ripen/bot/replay"
	"ripen/commands"
)

// yes is a book that agrees to everything and keeps what it was asked; no
// refuses the request of that number.
type yes struct {
	got []commands.Request
	no  int
}

func (y *yes) Do(_ context.Context, r commands.Request) commands.Reply {
	y.got = append(y.got, r)
	if len(y.got) == y.no {
		return commands.Reply{Text: "no", Err: &commands.Error{Code: "range"}}
	}
	return commands.Reply{OK: true, Text: "answer"}
}

func TestRun(t *testing.T) {
	var b yes
	var out bytes.Buffer
	if err := Run(t.Context(), &b, "club", &out); err != nil {
		t.Fatal(err)
	}
	tanks, asked := 0, map[string]bool{}
	for i, r := range b.got {
		if r.Command == "tank" && r.Sub == "new" {
			tanks++
		}
		asked[r.Command] = true
		if r.At.After(Now) {
			t.Errorf("request %d is at %s, after the demonstration's end", i+1, r.At)
		}
	}
	if tanks != 12 {
		t.Errorf("%d tanks, want a dozen", tanks)
	}
	for _, c := range []string{"tank", "reading", "add", "log", "outlook", "why", "safe"} {
		if !asked[c] {
			t.Errorf("the walk shows no /%s", c)
		}
	}
	for _, s := range []string{"RIPEN, A WALK", "wren> /outlook", "  answer", "HOW TO GO ON", "--stay"} {
		if !strings.Contains(out.String(), s) {
			t.Errorf("the walk lacks %q", s)
		}
	}
	for l := range strings.Lines(out.String()) {
		if n := len([]rune(strings.TrimSuffix(l, "\n"))); n > 80 {
			t.Errorf("%d columns: %s", n, l)
		}
	}
}

// A club that can't be loaded is an error that names the line.
func TestRun_refusedClub(t *testing.T) {
	err := Run(t.Context(), &yes{no: 3}, "club", &bytes.Buffer{})
	if err == nil || !strings.Contains(err.Error(), "line 6") {
		t.Errorf("got %v, want an error that names line 6", err)
	}
}

var _ replay.Book = &yes{}
