package commands

import (
	"strings"
	"testing"

	"ripen/engine/outlook"
)

// TestWhyUnexplained: a delay that the named causes do not come up to is said to be
// unexplained, and one that they do is not.
func TestWhyUnexplained(t *testing.T) {
	late := func(days float64) outlook.Quantiles { return outlook.Quantiles{P50: &days} }
	const says = "explains only a part"
	for _, tt := range []struct {
		reason string
		why    Why
		want   bool
	}{
		{"nitrite that costs nothing", Why{Verdict: "slow", DelayDays: late(26), Causes: []Cause{{Cause: "nitrite-backlog", Chance: 0.7, DaysCost: 0.4}}}, true},
		{"a long shot explains nothing", Why{Verdict: "slow", DelayDays: late(26), Causes: []Cause{{Cause: "low-phosphate", Chance: 0.15, DaysCost: 130}}}, true},
		{"cold enough", Why{Verdict: "stalled", DelayDays: late(40), Causes: []Cause{{Cause: "cold-water", Chance: 0.9, DaysCost: 50}}}, false},
		{"hardly late", Why{Verdict: "slow", DelayDays: late(3), Causes: []Cause{{Cause: "nitrite-backlog", Chance: 0.7, DaysCost: 0.4}}}, false},
	} {
		if got := strings.Contains(tt.why.Text(), says); got != tt.want {
			t.Errorf("%s: %v in %s", tt.reason, got, tt.why.Text())
		}
	}
}

// TestWhyPlants: a tank that plants carry is not told to look for nitrite.
func TestWhyPlants(t *testing.T) {
	day, date := 40.0, "2026-04-10"
	w := Why{Verdict: "on-track", Stage: "nitrite", DoneDay: outlook.Quantiles{P50: &day}, DoneDate: Dates{P50: &date}, Causes: []Cause{{Cause: "plants-take-up", Chance: 0.9}}}
	if text := w.Text(); strings.Contains(text, "look for nitrite") {
		t.Error(text)
	}
	w.Causes = nil
	if text := w.Text(); !strings.Contains(text, "look for nitrite") {
		t.Error(text)
	}
}
