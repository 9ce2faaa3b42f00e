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

// TestWhyUnjudged: what can't be said is not called right nor late.
func TestWhyUnjudged(t *testing.T) {
	r := Why{Head: Head{Tank: "moss bowl", Day: 40}, Verdict: "on-track", Unjudged: "nothing was told of it so far. Test ammonia", Horizon: 180}
	text := r.Text()
	if !strings.Contains(text, "Whether moss bowl is late at day 40 can't be said: nothing was told of it so far. Test ammonia.") || strings.Contains(text, "Nothing is wrong") {
		t.Error(text)
	}
}

// TestWhyAgain: a tank that was done before did not begin with few bacteria.
func TestWhyAgain(t *testing.T) {
	r := Why{Head: Head{Tank: "moss bowl", Day: 65}, Verdict: "slow", DelayDays: outlook.Quantiles{P10: new(40.0), P50: new(50.0), P90: new(60.0)}, Horizon: 180}
	if text := r.Text(); !strings.Contains(text, "begin with few bacteria") {
		t.Error(text)
	}
	r.Again = true
	if text := r.Text(); strings.Contains(text, "begin with few bacteria") {
		t.Error(text)
	}
}

// TestStageWords: the stage is told by what the tests show of it.
func TestStageWords(t *testing.T) {
	for _, tt := range []struct {
		reason, says, never string
		r                   Outlook
	}{
		{"nothing shows yet", "nitrite comes once it falls", "", Outlook{Stage: "ammonia"}},
		{"nitrite shows", "at work, as nitrite shows", "comes once", Outlook{Stage: "ammonia", Shows: true}},
		{"ammonia is used up", "needs ammonia", "stands", Outlook{Stage: "ammonia", DoseNow: 2}},
		{"it was further", "Back in the first stage", "nitrite comes", Outlook{Stage: "ammonia", Again: true}},
		{"so was nitrite", "Back in the second stage", "", Outlook{Stage: "nitrite", Again: true}},
		{"hardness is used up", "hardness is used up (KH 0.0 dKH on day 18)", "nitrite comes", Outlook{Stage: "ammonia", Again: true, Crash: "KH 0.0 dKH on day 18"}},
		{"nothing was told", "Nothing was told", "stage:", Outlook{Stage: "proving", Untold: true}},
	} {
		if got := tt.r.stageWords(); !strings.Contains(got, tt.says) || tt.never != "" && strings.Contains(got, tt.never) {
			t.Errorf("%s: %q, want %q and not %q", tt.reason, got, tt.says, tt.never)
		}
	}
}

// TestOutlookAgainst: a last test that speaks against a tank that is done comes first.
func TestOutlookAgainst(t *testing.T) {
	r := Outlook{Stage: "proving", Against: "ammonia 2 mg/L on day 62", DoneDay: outlook.Quantiles{P10: new(15.0), P50: new(16.0), P90: new(20.0)}, Chart: Chart{Now: 62}}
	r.Advice = r.advice()
	if text := r.Text(); !strings.HasPrefix(text, "The last test shows ammonia 2 mg/L on day 62") || !strings.Contains(text, "Next: test again tomorrow") {
		t.Error(text)
	}
}
