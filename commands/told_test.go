package commands

import (
	"strings"
	"testing"
)

func TestOpenTanks(t *testing.T) {
	b := New(newStore(t))
	for _, line := range []string{"/tank new name:nano volume:60L", "/tank new name:pond volume:60L", "/tank new name:old volume:60L", "/tank close tank:old"} {
		must(t, b, "2026-03-01T09:00:00Z", line)
	}
	names, err := b.OpenTanks(t.Context(), "club", "wren")
	if got := strings.Join(names, " "); err != nil || got != "nano pond" {
		t.Errorf("open are %q, %v", got, err)
	}
}

// TestLastKey holds what LastKey names against what /undo takes back, in two
// tanks, told at once and one behind the other, up to the end.
func TestLastKey(t *testing.T) {
	st := newStore(t)
	b := New(st)
	send := func(at, key, line string) Reply {
		t.Helper()
		r, _ := said(clock(at), "wren", line)
		r.Key = key
		return b.Do(t.Context(), r)
	}
	send("2026-03-01T09:00:00Z", "k1", "/tank new name:nano volume:60L")
	send("2026-03-01T09:00:00Z", "k2", "/tank new name:pond volume:60L")
	send("2026-03-05T09:00:00Z", "k3", "/reading tank:nano ammonia:1")
	send("2026-03-05T09:00:00Z", "k4", "/reading tank:pond ammonia:1 at:2026-03-02")
	send("2026-03-06T09:00:00Z", "k5", "/tank edit tank:nano temp:25C")
	send("2026-03-06T09:00:00Z", "k6", "/tank close tank:nano")
	for _, want := range []string{"k6", "k5", "k4", "k3", "k2", "k1", ""} {
		if got, err := b.LastKey(t.Context(), "club", "wren"); err != nil || got != want {
			t.Fatalf("last is %q, %v, want %q", got, err, want)
		}
		send("2026-03-07T09:00:00Z", "u"+want, "/undo")
	}
}
