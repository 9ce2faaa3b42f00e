package commands

import (
	"strings"
	"testing"
)

// Notes go to members who asked for them before they were due, about those tanks only,
// whether these may be shown to others or not.
func TestWeekNotes(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	notes := func(at string) []MemberNote {
		t.Helper()
		now := clock(at)
		all, err := b.WeekNotes(t.Context(), "club", now, now)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range all {
			checkReply(t, "note", n.Reply)
		}
		return all
	}
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L")
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:other volume:60L")
	if all := notes("2026-03-09T18:00:00Z"); len(all) != 0 {
		t.Errorf("notes that nobody asked for: %+v", all)
	}
	reply := must(t, b, "2026-03-09T19:00:00Z", "/tank edit tank:nano note:weekly share:no")
	if !strings.Contains(reply.Text, "private note about it each week") {
		t.Errorf("asked for, it says %s", reply.Text)
	}
	if all, err := b.WeekNotes(t.Context(), "club", clock("2026-03-09T18:00:00Z"), clock("2026-03-09T19:01:00Z")); err != nil || len(all) != 0 {
		t.Errorf("a note for the week before it was asked for: %+v, %v", all, err)
	}
	all := notes("2026-03-16T18:00:00Z")
	if len(all) != 1 || all[0].Member != "wren" || !all[0].Reply.Private {
		t.Fatalf("the notes are %+v", all)
	}
	text := all[0].Reply.Text
	if !strings.Contains(text, "nano, day 15: ammonia stage, on track, likely done around 25 March (11 March to 22 April). No test yet") || strings.Contains(text, "other") {
		t.Errorf("it says %s", text)
	}
	must(t, b, "2026-03-16T19:00:00Z", "/tank edit tank:nano note:off")
	if all := notes("2026-03-23T18:00:00Z"); len(all) != 0 {
		t.Errorf("notes that were ended: %+v", all)
	}
}
