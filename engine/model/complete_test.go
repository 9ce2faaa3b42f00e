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

// TestFirstDose: a first dose that nobody told of was given on day 0, or just before the test
// that shows it where others showed none, or some days before the first test of a keeper who
// begins to tell after weeks.
func TestFirstDose(t *testing.T) {
	read := func(day unit.Days, ammonia, nitrite float64) Reading {
		return Reading{Day: day, Ammonia: &Seen{Low: ammonia, High: ammonia}, Nitrite: &Seen{Low: nitrite, High: nitrite}}
	}
	for _, x := range []struct {
		name     string
		readings []Reading
		want     unit.Days
	}{
		{"tested soon", []Reading{read(4, 2, 0)}, 0},
		{"none at first", []Reading{read(2, 0, 0), read(8, 2, 0)}, 7},
		{"none until the day before", []Reading{read(7, 0, 0), read(8, 2, 0)}, 7.5},
		{"first test after four weeks", []Reading{read(28, 2, 0)}, 25},
		{"the same with nitrite", []Reading{read(28, 1, 1)}, 18},
	} {
		full, _ := Complete(Case{Setup: Setup{Volume: 60, PH: 7.5, Temp: 25}, Readings: x.readings}, 30)
		i := slices.IndexFunc(full.Events, func(e Event) bool { return e.Kind == Dose && e.Assumed && !e.Perhaps })
		if i < 0 || full.Events[i].Day != x.want {
			t.Errorf("%s: %+v, want a dose on day %g", x.name, full.Events, float64(x.want))
		}
	}
}
