package model

import (
	"testing"

	"ripen/engine/unit"
)

// TestWhatEndsLater: an outage or a course of medicine logged just now ends when
// it will, and so ends no later than one that was logged in full; plants put in
// just now go on to root.
func TestWhatEndsLater(t *testing.T) {
	par := typicalParams()
	done := func(e ...Event) float64 {
		c, _ := Complete(typicalCase(), 10)
		c.Events = append(c.Events, e...)
		return NewPlan(c, 10).Start(&par).Finish(0, nil).Done
	}
	for _, kind := range []EventKind{Outage, Medicine} {
		just := done(Event{Day: 10, Kind: kind, Hours: 24})
		none := done()
		t.Logf("kind %v on day 10: done on day %.1f, without on day %.1f", kind, just, none)
		if !(just > none && just < none+30) {
			t.Errorf("kind %v for a day on day 10: done on day %.1f, without on day %.1f; want later, by days", kind, just, none)
		}
	}
	c := typicalCase()
	c.Events = append(c.Events, Event{Day: 10, Kind: PlantsAdded, Plants: ManyFast})
	r := NewPlan(c, 10).Start(&par)
	r.To(10, nil)
	young := r.k.plant
	r.To(32, nil)
	if !(r.k.plant > 4*young) {
		t.Errorf("plants take up %.3f a day when put in and %.3f three weeks later, want five times as much", young, r.k.plant)
	}
}

// TestPlannedFood: food told of a tank without animals is planned, and does not
// rot in it; food that starts a cycle does.
func TestPlannedFood(t *testing.T) {
	tan := func(m Method, feed unit.Grams) unit.MgN {
		s := typicalCase().Setup
		s.Method, s.Feed, s.Given.Feed = m, feed, true
		par := typicalParams()
		r := NewPlan(Case{Setup: Typical(s)}, 4).Start(&par)
		r.To(4, nil)
		return r.State.Pools().N(unit.Ammonia)
	}
	if a, b := tan(Dosed, 0), tan(Dosed, 0.6); a != b {
		t.Errorf("planned food brings a dosed tank from %.2f to %.2f mg N/L, want no change", a, b)
	}
	if a, b := tan(Food, 0.3), tan(Food, 0.6); !(b > 1.5*a) {
		t.Errorf("twice the food brings ammonia from %.2f to %.2f mg N/L, want about twice", a, b)
	}
}
