package commands

import (
	"context"
	"strings"
	"testing"
)

// in sends a line from a place and returns the reply.
func in(t *testing.T, b *Book, place, member string, moderator bool, line string) Reply {
	t.Helper()
	r, err := said(clock("2026-03-10T09:00:00Z"), member, line)
	if err != nil {
		t.Fatal(err)
	}
	r.Place, r.Moderator = place, moderator
	return b.Do(context.Background(), r)
}

func TestTankTie(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	for _, name := range []string{"nano", "pond"} {
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:"+name+" volume:60L")
	}
	steps := []struct {
		reason, place, member string
		moderator             bool
		line, code, text      string
	}{
		{"two tanks and no tie", "t1", "wren", false, "/tank show", CodeAmbiguous, ""},
		{"which of the two to tie has to be said", "t1", "wren", false, "/tank tie", CodeAmbiguous, ""},
		{"a console has no threads", "", "wren", false, "/tank tie tank:nano", CodeUnavailable, ""},
		{"nothing to untie", "t1", "wren", false, "/tank tie off:yes", CodeNothing, ""},
		{"tied", "t1", "wren", false, "/tank tie tank:pond", "", "about pond"},
		{"the tie stands for the name", "t1", "wren", false, "/tank show", "", "pond, "},
		{"a name goes before the tie", "t1", "wren", false, "/tank show tank:nano", "", "nano, "},
		{"a post in the thread is about its tank", "t1", "wren", false, "!add ammonia 0.5", "", "Noted for pond"},
		{"a post names another tank", "t1", "wren", false, "!add nano: ammonia 0.5", "", "Noted for nano"},
		{"other threads are not tied", "t2", "wren", false, "/tank show", CodeAmbiguous, ""},
		{"another member has no part in it", "t1", "tern", false, "/tank show", CodeUnknownTank, "you have no tank yet"},
		{"another member can't take it over", "t1", "tern", false, "/tank tie off:yes", CodeRights, ""},
		{"a moderator in the thread asks about its tank", "t1", "tern", true, "/outlook", "", "pond is at"},
		{"a moderator elsewhere asks about his own", "t2", "tern", true, "/outlook", CodeUnknownTank, "you have no tank yet"},
		{"what moderators note stays their own", "t1", "tern", true, "/reading ammonia:1", CodeUnknownTank, "you have no tank yet"},
		{"a closed tank is no longer meant", "t1", "wren", false, "/tank close tank:pond", "", ""},
		{"the other one is", "t1", "wren", false, "/tank show", "", "nano, "},
		{"a moderator may untie", "t1", "tern", true, "/tank tie off:yes", "", "no tank any longer"},
	}
	for _, s := range steps {
		r := in(t, b, s.place, s.member, s.moderator, s.line)
		code := ""
		if r.Err != nil {
			code = r.Err.Code
		}
		if code != s.code || !strings.Contains(r.Text, s.text) {
			t.Errorf("%s: %s answers %q (%s), want %q (%s)", s.reason, s.line, r.Text, code, s.text, s.code)
		}
	}
}

func TestAddLook(t *testing.T) {
	st := newStore(t)
	b := New(st)
	for _, name := range []string{"nano", "pond"} {
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:"+name+" volume:60L")
	}
	before := dump(t, st, "wren")
	r := Request{At: clock("2026-03-10T09:00:00Z"), Club: "club", Member: "wren", Command: "add", Post: "day 4: ammonia 0.5, nitrite 2", Look: true}
	if reply := b.Do(t.Context(), r); reply.OK || reply.Err.Code != CodeAmbiguous {
		t.Errorf("answers %q, want a question for the tank", reply.Text)
	}
	r.Options = map[string]string{"tank": "pond"}
	reply := b.Do(t.Context(), r)
	a, ok := reply.Data.(Added)
	if !ok || a.Stored || a.Ahead == nil || a.Ahead.Tank != "pond" || a.Ahead.AtDay != 4 || !strings.Contains(reply.Text, "Nothing is stored yet") {
		t.Fatalf("answers %q with %+v, want what would stand for pond on day 4", reply.Text, reply.Data)
	}
	if missing := unfounded(reply.Text, reply.Data); len(missing) > 0 {
		t.Errorf("%q holds %v, which its data does not", reply.Text, missing)
	}
	if got := dump(t, st, "wren"); got != before {
		t.Errorf("looking changed the store: %s", got)
	}
	r.Look = false
	if reply := b.Do(t.Context(), r); !reply.OK || !reply.Data.(Added).Stored || !strings.Contains(reply.Text, "pond, day 4") {
		t.Errorf("answers %q, want it stored", reply.Text)
	}
}
