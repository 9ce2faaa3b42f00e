package commands

import (
	"context"
	"strings"
	"testing"
	"time"
)

// What may be said in other words goes without what members wrote, and comes back into the
// reply that it was taken from.
func TestDraft(t *testing.T) {
	const name = "is at day TAN"
	at := clock("2026-03-01T09:00:00Z")
	ask := func(b *Book, member, line string) Reply {
		t.Helper()
		at = at.Add(time.Minute)
		r, err := said(at, member, line)
		if err != nil {
			t.Fatal(err)
		}
		r.Key, r.Moderator = at.String(), true
		reply := b.Do(context.Background(), r)
		if !reply.OK {
			t.Fatalf("%s: %s", line, reply.Text)
		}
		return reply
	}
	st := newStore(t)
	b, without := New(st, WithAdviser(fakeAdviser{}), WithWords("small")), New(st, WithAdviser(fakeAdviser{}))
	ask(b, "wren", `/tank new name:"`+name+`" volume:60L ph:7.6 kh:6dKH temp:25C method:dosed`)
	for _, tt := range []struct{ line, chart string }{{"/outlook", "mg/L   A ammonia"}, {"/why", ""}, {"/club case member:wren", "mg/L   A ammonia"}} {
		reply := ask(b, "wren", tt.line)
		d := reply.Draft
		if d == nil {
			t.Fatalf("%s has no draft", tt.line)
		}
		if strings.Contains(d.Text(), name) || strings.Contains(d.Text(), "wren") || strings.Contains(d.Text(), "mg/L   A") {
			t.Errorf("%s: the draft has a name or a drawing: %s", tt.line, d.Text())
		}
		whole := d.Said(d.Text())
		if !strings.Contains(whole, tt.chart) || tt.line != "/club case member:wren" && !strings.Contains(whole, name) || strings.Contains(whole, NamePlace) {
			t.Errorf("%s: the whole lacks a name or a drawing: %s", tt.line, whole)
		}
		if tt.line != "/outlook" && whole != reply.Text { // whose chart moves to the end
			t.Errorf("%s: said as it was it is %q, want %q", tt.line, whole, reply.Text)
		}
		if got := ask(without, "wren", tt.line); got.Draft != nil {
			t.Errorf("%s has a draft where there is no model", tt.line)
		}
	}
	if d := ask(b, "wren", "/tank show").Draft; d != nil {
		t.Errorf("/tank show may be said in other words: %v", d)
	}
	ask(b, "wren", "/club settings words:off")
	if d := ask(b, "wren", "/why").Draft; d != nil {
		t.Errorf("words are off, and /why may be said in others: %v", d)
	}
}
