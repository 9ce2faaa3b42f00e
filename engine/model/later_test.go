package model

import "testing"

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
