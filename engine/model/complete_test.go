package model

import (
	"slices"
	"testing"

	"ripen/engine/unit"
)

// TestRise: ammonia that rose though nobody logged a dose was dosed, but not onto animals.
func TestRise(t *testing.T) {
	seen := func(v float64) *Seen { return &Seen{Low: v, High: v} }
	c := Case{Setup: Setup{Volume: 60, PH: 7.5, Temp: 25},
		Events:   []Event{{Kind: Dose, N: 1.5}},
		Readings: []Reading{{Day: 10, Ammonia: seen(0)}, {Day: 20, Ammonia: seen(0)}, {Day: 24, Ammonia: seen(2)}}}
	assumed := func(c Case) bool {
		full, _ := Complete(c, 24)
		return slices.ContainsFunc(full.Events, func(e Event) bool { return e.Assumed && e.Day > 20 })
	}
	if !assumed(c) {
		t.Error("a tank without animals was not taken to be dosed")
	}
	c.Events = append(c.Events, Event{Day: 21, Kind: Stocked, Mass: 20})
	if assumed(c) {
		t.Error("a dose was taken to be given onto animals")
	}
	c.Events = append(c.Events, Event{Day: unit.Days(22), Kind: Losses, Mass: 20})
	if !assumed(c) {
		t.Error("a tank whose animals died was not taken to be dosed again")
	}
}
