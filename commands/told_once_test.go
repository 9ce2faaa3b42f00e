package commands

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// spreadOf returns quantiles of days.
func spreadOf(p10, p50 float64, p90 *float64) outlook.Quantiles {
	return outlook.Quantiles{P10: &p10, P50: &p50, P90: p90}
}

// TestOutlookDone: of a tank that is likely done, no day in the past is told as one that
// is to come, and "already" once.
func TestOutlookDone(t *testing.T) {
	late := 34.0
	for _, q := range []outlook.Quantiles{spreadOf(21, 28, &late), spreadOf(21, 28, nil)} {
		r := Outlook{DoneDay: q, HorizonDays: 180, Chart: Chart{Now: 30}}
		if text := r.answer(); strings.Count(text, "already") != 1 || strings.Contains(text, "before day 21") {
			t.Error(text)
		}
	}
}

// TestOutlookPlants: a tank that plants carry is not told of a long nitrite stage.
func TestOutlookPlants(t *testing.T) {
	for plants, want := range map[bool]bool{true: false, false: true} {
		if text := (Outlook{Stage: "nitrite", Plants: plants}).stageWords(); strings.Contains(text, "longest") != want {
			t.Errorf("plants %v: %s", plants, text)
		}
	}
	c := model.Case{Events: []model.Event{{Day: 5, Kind: model.PlantsAdded, Plants: model.ManyFast}}}
	for day, want := range map[unit.Days]bool{4: false, 6: true} {
		if wellPlanted(c, day) != want {
			t.Errorf("day %g: %v", float64(day), !want)
		}
	}
}

// TestNextTestDone: a tank that is done is not asked to narrow the day it was.
func TestNextTestDone(t *testing.T) {
	end := 6.0
	r := NextTest{Head: Head{Tank: "nano"}, Now: 5, Stage: "ready", Done: spreadOf(4, 5, &end), Best: &TestAhead{What: "nitrite", Day: 6, Date: "2026-03-07", High: 0.25, Unit: " mg/L", If: []IfShown{{Done: spreadOf(4, 5, &end)}, {Done: spreadOf(4, 5, &end)}}}}
	if text := r.Text(); !strings.Contains(text, "done already") || strings.Contains(text, "anywhere") || strings.Contains(text, "If it shows") {
		t.Error(text)
	}
}

// TestWaitSaysWhen: who is told to wait with animals is not told to come back when the
// tests read what they read today.
func TestWaitSaysWhen(t *testing.T) {
	text := strings.Join(Stock{Now: "wait", Reason: "capacity"}.do(), " ")
	if strings.Contains(text, "read 0") || !strings.Contains(text, "/outlook") {
		t.Error(text)
	}
}

// TestSafeIsNotStock: water that is safe in a tank without animals is no word for them.
func TestSafeIsNotStock(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7")
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:0 nitrite:0")
	if text := must(t, b, "2026-03-05T09:00:00Z", "/safe").Text; !strings.Contains(text, "/stock") {
		t.Error(text)
	}
}

// TestWhyReady: what cost a tank nothing is not held up to one that is done.
func TestWhyReady(t *testing.T) {
	w := Why{Head: Head{Tank: "old"}, Verdict: "ready", Causes: []Cause{{Cause: "plants-take-up", Chance: 0.4, DaysCost: 0.2}}}
	if text := w.Text(); strings.Contains(text, "worth a look") {
		t.Error(text)
	}
	w.Causes[0].DaysCost = 5
	if text := w.Text(); !strings.Contains(text, "worth a look") {
		t.Error(text)
	}
}

// TestAsIons: keepers whose kits read as nitrogen are told where words do not.
func TestAsIons(t *testing.T) {
	causes := []Cause{{Cause: "ammonia-overdose", Chance: 0.8, DaysCost: 4, Evidence: []string{"ammonia read 8.0 mg/L on day 12"}, Fix: "stop"}}
	for scale, want := range map[string]bool{"n": true, "ion": false} {
		for _, text := range []string{Why{Verdict: "slow", Scale: scale, Causes: causes}.Text(), Outlook{Scale: scale, KeepUp: "you go on as now, dosing 2.6 mg/L ammonia"}.Text()} {
			if strings.Contains(text, "as NH4") != want {
				t.Errorf("%s: %s", scale, text)
			}
		}
	}
}

// TestShownUnits: a number told without a unit is shown with it, apart.
func TestShownUnits(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	must(t, b, "2026-03-01T09:00:00Z", "/log what:dose amount:2")
	if text := must(t, b, "2026-03-01T09:01:00Z", "/tank show").Text; !strings.Contains(text, "dose: 2 mg/L") {
		t.Error(text)
	}
	must(t, b, "2026-03-01T09:02:00Z", "/reading ammonia:2 nitrite:0")
	if text := must(t, b, "2026-03-01T09:03:00Z", "/reading ammonia:20 nitrite:0").Text; !strings.Contains(text, "shortly before") {
		t.Error(text)
	}
}

// TestStockShows: no animals go in while the last test shows ammonia or nitrite, however
// much the filter should carry.
func TestStockShows(t *testing.T) {
	for _, tt := range []struct{ reading, shows string }{
		{"ammonia:0.5 nitrite:0", "ammonia 0.5 mg/L"},
		{"ammonia:0 nitrite:0.25", "nitrite 0.25 mg/L"},
		{"ammonia:0 nitrite:0", ""},
	} {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
		must(t, b, "2026-03-20T09:00:00Z", "/reading ammonia:0 nitrite:0")
		before := must(t, b, "2026-03-20T09:01:00Z", "/stock grams:5g").Data.(Stock)
		if before.Now == "wait" {
			t.Fatalf("the adviser waits: %+v", before)
		}
		must(t, b, "2026-03-21T09:00:00Z", "/reading "+tt.reading)
		reply := must(t, b, "2026-03-21T09:01:00Z", "/stock grams:5g")
		s := reply.Data.(Stock)
		if waits := s.Reason == "shows" && s.Now == "wait"; waits != (tt.shows != "") || !strings.Contains(reply.Text, tt.shows) {
			t.Errorf("%s: %s %s: %s", tt.reading, s.Now, s.Reason, reply.Text)
		}
	}
}

// TestSafeChlorine: who grows bacteria is told what chlorine does to them.
func TestSafeChlorine(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.5")
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:1 nitrite:0 chlorine:0.2")
	if text := must(t, b, "2026-03-05T09:00:00Z", "/safe").Text; !strings.Contains(text, "kills the bacteria") {
		t.Error(text)
	}
}

// TestSafeChloride: what a reply asks for is taken as it is asked: chloride: alone is
// about the member's own tank.
func TestSafeChloride(t *testing.T) {
	b := New(newStore(t))
	if r := tell(t, b, "2026-03-01T09:00:00Z", "/safe chloride:60"); r.OK || r.Err.Code != CodeMissing {
		t.Errorf("without a tank: %s", r.Text)
	}
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.5 method:fish-in")
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:0 nitrite:1")
	bare := must(t, b, "2026-03-05T09:00:00Z", "/safe").Data.(Safe)
	salted := must(t, b, "2026-03-05T09:00:00Z", "/safe chloride:60").Data.(Safe)
	if bare.Verdict != "danger" || salted.Verdict != "caution" || salted.NitriteLimit <= bare.NitriteLimit || salted.Tank != "a" {
		t.Errorf("%s at %g, with chloride %s at %g in %q", bare.Verdict, bare.NitriteLimit, salted.Verdict, salted.NitriteLimit, salted.Tank)
	}
}
