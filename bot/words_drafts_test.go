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
	"ripen/commands"
)

// Paraphrases are written for the drafts as they stand, so -update leaves them alone.
var freeze = flag.Bool("freeze-drafts", false, "write testdata/words/drafts.jsonl anew; what is written for them has to follow")

// TestFreezeDrafts writes the drafts that the guard is checked on. Without its flag it
// checks that the script still runs and gives a draft for each.
func TestFreezeDrafts(t *testing.T) {
	if testing.Short() {
		t.Skip("it asks the engine 26 times")
	}
	script, err := os.ReadFile("../testdata/words/drafts.script")
	if err != nil {
		t.Fatal(err)
	}
	a, err := openTemporary(&bytes.Buffer{})
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
		r, ok := x.Reply.Data.(interface{ Draft(bool) commands.Draft })
		if !ok {
			return nil
		}
		d := r.Draft(false)
		name := x.Request.Member + "-" + d.Kind
		count[name]++
		return lines.Encode(map[string]any{"id": fmt.Sprint(name, "-", count[name]), "kind": d.Kind, "today": x.At.Format(time.DateOnly), "body": d.Body, "keep": d.Keep})
	})
	if err != nil {
		t.Fatal(err)
	}
	if got := bytes.Count(out.Bytes(), []byte("\n")); got != 26 {
		t.Errorf("%d drafts, want 26", got)
	}
	if *freeze {
		if err := os.WriteFile("../testdata/words/drafts.jsonl", out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
