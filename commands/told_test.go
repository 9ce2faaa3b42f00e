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
