package weekly

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"testing"
	"time"

	"ripen/commands"
)

// mailbox is where notes to members arrive.
type mailbox struct {
	got  []string // member and key
	fail error
}

func (m *mailbox) DirectReply(_ context.Context, member string, _ commands.Reply, key string) error {
	if m.fail == nil {
		m.got = append(m.got, member+" "+key)
	}
	return m.fail
}

// always notes two members.
type always struct{}

func (always) WeekNotes(context.Context, string, time.Time, time.Time) ([]commands.MemberNote, error) {
	return []commands.MemberNote{{Member: "tern"}, {Member: "wren"}}, nil
}

// Each member gets a note a week: not again after a restart, not late after a long absence,
// and what could not be sent is let go.
func TestNotes(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	r := commands.Request{At: c.at, Club: "reef", Member: "wren", Command: "tank", Sub: "new", Options: map[string]string{"name": "nano", "volume": "60L"}}
	box := &mailbox{}
	look := func(w *Weekly) { w.Notes(t.Context(), always{}, box) }
	db := c.open()
	defer db.Close()
	if reply := commands.New(db).Do(t.Context(), r); !reply.OK {
		t.Fatal(reply.Text)
	}
	process := func() *Weekly {
		return &Weekly{Store: db, Now: func() time.Time { return c.at }, Log: slog.New(slog.DiscardHandler)}
	}
	want := func(n int, why string) {
		t.Helper()
		if len(box.got) != n {
			t.Errorf("%s: %d notes, want %d: %v", why, len(box.got), n, box.got)
		}
	}
	c.at = monday.Add(time.Minute)
	first := process()
	look(first)
	look(first)
	want(2, "when they are due")
	look(process())
	want(2, "after a restart")
	c.at = monday.AddDate(0, 0, 9)
	look(process())
	want(2, "two days late")
	c.at = monday.AddDate(0, 0, 14)
	box.fail = errors.New("closed")
	second := process()
	look(second)
	box.fail = nil
	look(second)
	look(process())
	want(2, "where messages are closed")
	c.at = monday.AddDate(0, 0, 21)
	box.fail = fmt.Errorf("no line: %w", ErrNotSent)
	for range 2 {
		look(second)
		look(process())
	}
	box.fail = nil
	c.at = c.at.Add(time.Hour)
	look(second)
	want(4, "a week later, when the line was back")
	look(second)
	look(process())
	want(4, "after that")
	c.at = monday.AddDate(0, 0, 28)
	box.fail = ErrNotSent
	look(second)
	box.fail = nil
	c.at = monday.AddDate(0, 0, 30)
	look(second)
	want(4, "where the line was down for two days")
}
