package model

import (
	"testing"

	"ripen/engine/unit"
)

// TestRationed: a tank with animals of a told weight is done once its film
// carries their ammonia, not before, and later for more animals.
func TestRationed(t *testing.T) {
	done := func(stock unit.Grams) float64 {
		s := typicalCase().Setup
		s.Method, s.Stock, s.Given.Stock = FishIn, stock, true
		c, _ := Complete(Case{Setup: s}, 0)
		if !c.Setup.Rationed() {
			t.Fatal("a tank with animals of a told weight is not rationed")
		}
		par := typicalParams()
		r := NewPlan(c, 0).Start(&par)
		if m := r.Challenge(); m < 1 {
			t.Errorf("%.0f g: passes on day 0, before any film has grown (%.2f)", stock, m)
		}
		return r.Finish(0, nil).Done
	}
	few, many := done(10), done(60)
	t.Logf("10 g: done on day %.1f; 60 g: day %.1f", few, many)
	if !(few < many && many < Horizon) {
		t.Errorf("done on day %.1f with 10 g and %.1f with 60 g, want later with more, but done", few, many)
	}
	s := typicalCase().Setup
	s.Method, s.Stock, s.Given.Stock, s.Given.Target = FishIn, 10, true, true
	if s.Rationed() {
		t.Error("a tank with a stated target is held to it")
	}
}
