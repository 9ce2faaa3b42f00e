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
