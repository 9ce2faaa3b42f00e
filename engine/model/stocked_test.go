package model

import (
	"testing"

	"ripen/engine/unit"
)

// TestStockedIsHeldToItsRation: once animals that are fed went in, nobody doses the
// tank any more, and its challenge is their food instead of the dose; before, and
// where nothing tells of food, it is the dose.
func TestStockedIsHeldToItsRation(t *testing.T) {
	with := func(grams, feed unit.Grams) (Habit, *Plan, *Run) {
		c := typicalCase()
		c.Setup.Method, c.Setup.Stock, c.Setup.Feed = Dosed, 0, 0
		c.Setup.Target = unit.MgIon(2).N(unit.Ammonia)
		c.Events = []Event{{Day: 0, Kind: Dose, N: c.Setup.Target}}
		if grams > 0 {
			c.Events = append(c.Events, Event{Day: 10, Kind: Stocked, Mass: grams})
			c.Changes = []Change{{Day: 10, Feed: &feed}}
		}
		p := NewPlan(c, 20)
		par := typicalParams()
		return p.Habit, p, p.Start(&par)
	}
	for _, tt := range []struct {
		reason      string
		grams, feed unit.Grams
		doses       bool
		rationed    bool
	}{
		{"no animals", 0, 0, true, false},
		{"fed animals", 5, 0.075, false, true},
		{"animals of whose food nothing is known", 5, 0, false, false},
	} {
		h, p, r := with(tt.grams, tt.feed)
		if (h.Dose > 0) != tt.doses || h.Prove != tt.doses {
			t.Errorf("%s: goes on dosing %g, proving %v", tt.reason, float64(h.Dose), h.Prove)
		}
		if p.Rationed() != tt.rationed {
			t.Errorf("%s: held to the ration: %v", tt.reason, p.Rationed())
		}
		r.To(9, nil)
		before := *r
		r.To(20, nil)
		if dosed := r.plan.conds[r.seg].stocked(&p.Case.Setup); dosed != tt.rationed || before.plan.conds[before.seg].stocked(&p.Case.Setup) {
			t.Errorf("%s: on day 20 held to the ration: %v", tt.reason, dosed)
		}
	}
	// A small stock is carried long before the whole dose is.
	_, p, small := with(2, 0.03)
	_, _, none := with(0, 0)
	if a, b := small.Finish(0, nil).Done, none.Finish(0, nil).Done; !(a <= b) || b > p.End() {
		t.Errorf("2 g are carried from day %.1f, the dose cleared from day %.1f", a, b)
	}
}
