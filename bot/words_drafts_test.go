package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"os"
	"testing"
	"time"

	"ripen/bot/replay"
	"ripen/bot/words/guard"
	"ripen/commands"
)

// Answers were written for the drafts as they stand, so -update leaves them alone.
var freeze = flag.String("freeze-drafts", "", "write testdata/words/NAME.jsonl anew, of drafts, late or fresh; what is written for them has to follow")

// TestDrafts asks today's engine for the drafts of the guard's scripts: what it says now
// passes the guard as well.
func TestDrafts(t *testing.T) {
	if testing.Short() {
		t.Skip("it asks the engine seventy times")
	}
	for name, want := range map[string]int{"drafts": 26, "late": 14, "fresh": 32} {
		t.Run(name, func(t *testing.T) { drafts(t, name, want) })
	}
}

func drafts(t *testing.T, name string, want int) {
	script, err := os.ReadFile("../testdata/words/" + name + ".script")
	if err != nil {
		t.Fatal(err)
	}
	a, err := openTemporary(&bytes.Buffer{}, commands.WithWords("none"))
	if err != nil {
		t.Fatal(err)
	}
	defer a.closeInto(&err)
	var out bytes.Buffer
	lines := json.NewEncoder(&out)
	lines.SetEscapeHTML(false)
	count := map[string]int{}
	err = replay.Run(t.Context(), a, club, bytes.NewReader(script), func(x replay.Exchange) error {
		if !x.Reply.OK && x.Asked {
			t.Errorf("%s: refused: %s", x.Typed, x.Reply.Text)
		}
		d := x.Reply.Draft
		if d == nil {
			return nil
		}
		if err := guard.Check(guard.Draft{Body: d.Body, Keep: d.Keep, Today: x.At}, d.Text()); err != nil {
			t.Errorf("the guard refuses a draft: %v\n%s", err, d.Text())
		}
		who := x.Request.Member + "-" + d.Kind
		count[who]++
		return lines.Encode(map[string]any{"id": fmt.Sprint(who, "-", count[who]), "kind": d.Kind, "today": x.At.Format(time.DateOnly), "body": d.Body, "keep": d.Keep})
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := bytes.Count(out.Bytes(), []byte("\n")); got != want {
		t.Errorf("%d drafts, want %d", got, want)
	}
	if *freeze == name {
		if err := os.WriteFile("../testdata/words/"+name+".jsonl", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
