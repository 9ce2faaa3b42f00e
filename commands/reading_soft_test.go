package commands

import (
	"strings"
	"testing"
)

// TestReadingTellsUsedUp: a test that shows the hardness used up says so at once, with animals and
// without; not one that shows enough, nor one of days ago that a later test overtook.
func TestReadingTellsUsedUp(t *testing.T) {
	for _, x := range []struct {
		method, before, reading string
		told                    bool
	}{
		{"method:dosed", "", "ammonia:0 nitrite:0 kh:0dKH", true},
		{"method:fish-in stock:10g", "", "ammonia:0 nitrite:0 ph:6", true},
		{"method:fish-in stock:10g", "", "ammonia:0 nitrite:0 ph:7.4 kh:5dKH", false},
		{"method:dosed", "", "ammonia:0 nitrite:0", false},
		{"method:dosed", "/reading kh:5dKH", "kh:0dKH at:2026-03-02", false},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.4 kh:5dKH source:well "+x.method)
		if x.before != "" {
			must(t, b, "2026-03-05T09:00:00Z", x.before)
		}
		text := must(t, b, "2026-03-05T10:00:00Z", "/reading "+x.reading).Text
		if strings.Contains(text, "the hardness is used up") != x.told {
			t.Errorf("%s, %s: %s", x.method, x.reading, text)
		}
	}
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.4 kh:5dKH source:well method:fish-in stock:10g")
	text := must(t, b, "2026-03-05T10:00:00Z", "/reading ammonia:0 nitrite:2 kh:0dKH").Text
	if n := strings.Count(text, "the hardness is used up"); n != 1 || !strings.Contains(text, "Animals first.") {
		t.Errorf("beside a danger it is told %d times: %s", n, text)
	}
}
