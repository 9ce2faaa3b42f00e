package commands

import (
	"strings"
	"testing"
)

// TestUntreatedChange: a change of chlorinated water without conditioner is never just
// noted; animals come first.
func TestUntreatedChange(t *testing.T) {
	for _, tt := range []struct{ tank, line, says, reason string }{
		{"source:chlorine conditioner:yes", "conditioned:no", "condition new water before it goes in", "the habit was broken"},
		{"source:chloramine conditioner:no", "", "condition new water before it goes in", "the habit is not to"},
		{"", "", "Was the new water conditioned?", "nobody said"},
		{"method:fish-in source:chlorine conditioner:no", "", "add a conditioner now", "gills do not wait"},
		{"method:fish-in", "conditioned:no", "add a conditioner now", "the source is the tap where nobody said"},
		{"method:fish-in", "conditioned:no at:start", "condition new water before it goes in", "long over"},
		{"source:chlorine conditioner:yes", "", "", "conditioned by habit"},
		{"source:well", "conditioned:no", "", "no chlorine in it"},
		{"source:chlorine conditioner:no", "conditioned:yes", "", "conditioned this time"},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+tt.tank)
		r := must(t, b, "2026-03-05T09:00:00Z", "/log what:water-change amount:50% "+tt.line).Data.(Logged)
		if tt.says == "" && r.Hint != "" || !strings.Contains(r.Hint, tt.says) {
			t.Errorf("%s, %s (%s): hint %q, want %q", tt.tank, tt.line, tt.reason, r.Hint, tt.says)
		}
	}
}

// TestChangeSaysCondition: /amount what:water-change never sends anybody to the tap
// without a conditioner, nor puts fresh water into salt water.
func TestChangeSaysCondition(t *testing.T) {
	for _, tt := range []struct{ tank, line, says string }{
		{"source:chlorine conditioner:no", "", "conditioned first"},
		{"", "", "conditioned first"},
		{"source:chloramine", "new-chlorine:1", "Condition the new water"},
		{"source:ro salinity:35", "", "same salt"},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+tt.tank)
		if text := must(t, b, "2026-03-05T09:00:00Z", "/amount what:water-change of:nitrite from:5 to:2 "+tt.line).Text; !strings.Contains(text, tt.says) {
			t.Errorf("%s %s: no %q in %s", tt.tank, tt.line, tt.says, text)
		}
	}
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L source:ro salinity:35 method:fish-in ph:8.2")
	if text := must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:2 nitrite:0").Text; !strings.Contains(text, "same salt") {
		t.Errorf("/reading sends new water without salt: %s", text)
	}
}

// TestFreeAmmoniaOnce: one reply never prints two figures for the free ammonia. 2 mg/L
// at pH 8 and 25.6 C are 0.1052 mg/L.
func TestFreeAmmoniaOnce(t *testing.T) {
	b := New(newStore(t))
	for _, line := range []string{"ammonia:2 ph:8 temp:78F", "ammonia:2 ph:8.03 temp:78F", "ammonia:4.1 ph:7.9 temp:25.1C"} {
		text := must(t, b, "2026-03-05T09:00:00Z", "/safe "+line).Text
		first, ok1 := strings.CutPrefix(text[strings.Index(text, "free ammonia is "):], "free ammonia is ")
		second := text[strings.Index(text, "C, ")+3:]
		if i := strings.Index(text, "F, "); i >= 0 {
			second = text[i+3:]
		}
		a, _, _ := strings.Cut(first, " ")
		b, _, _ := strings.Cut(second, " ")
		if !ok1 || a != b {
			t.Errorf("/safe %s: %q and %q in %s", line, a, b, text)
		}
	}
}

// TestHarmHint: what may cost bacteria while animals are in is not just noted.
func TestHarmHint(t *testing.T) {
	for _, tt := range []struct {
		tank, line string
		want       bool
	}{
		{"method:fish-in", "what:outage hours:20", true},
		{"method:fish-in", "what:outage hours:1", false},
		{"method:fish-in", "what:clean detail:\"hot tap\"", true},
		{"method:fish-in", "what:clean detail:\"in tank water\"", false},
		{"", "what:outage hours:20", false},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+tt.tank)
		if text := must(t, b, "2026-03-05T09:00:00Z", "/log "+tt.line).Text; strings.Contains(text, "ask /safe") != tt.want {
			t.Errorf("%s, %s: %s", tt.tank, tt.line, text)
		}
	}
}

// TestJumpExplained: a change that the log explains is no slip.
func TestJumpExplained(t *testing.T) {
	for _, tt := range []struct {
		log, first, second string
		want               bool
	}{
		{"", "ph:5.8", "ph:7.4", true},
		{"/log what:buffer amount:8g", "ph:5.8", "ph:7.4", false},
		{"/log what:buffer amount:8g", "ph:7.8", "ph:6.4", true},
		{"/log what:dose amount:4ppm", "ammonia:0", "ammonia:4", false},
		{"/log what:water-change amount:90%", "nitrate:80", "nitrate:5", false},
		{"/log what:water-change amount:90%", "nitrite:0", "nitrite:5", true},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
		must(t, b, "2026-03-05T09:00:00Z", "/reading "+tt.first)
		if tt.log != "" {
			must(t, b, "2026-03-05T10:00:00Z", tt.log)
		}
		if r := must(t, b, "2026-03-06T09:00:00Z", "/reading "+tt.second).Data.(ReadingNoted); len(r.Jumps) > 0 != tt.want {
			t.Errorf("%s, %q, %s: %v", tt.first, tt.log, tt.second, r.Jumps)
		}
	}
}

// TestBufferAtOnce: where no animals are, nobody is sent to weigh out ten pinches.
func TestBufferAtOnce(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.2 kh:2dKH source:rain")
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:2 nitrite:5+ ph:5.8 kh:0dKH")
	if r := must(t, b, "2026-03-05T09:01:00Z", "/amount what:buffer to:6dKH").Data.(BufferAmount); len(r.Portions) != 1 {
		t.Errorf("%d portions", len(r.Portions))
	}
	if r := must(t, b, "2026-03-05T09:01:00Z", "/amount what:buffer to:6dKH animals:yes").Data.(BufferAmount); len(r.Portions) < 2 {
		t.Errorf("%d portions with animals", len(r.Portions))
	}
}
