package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// foodCase is a tank in which so much food a day rots.
func foodCase(feed unit.Grams, ammonia ...float64) Case {
	s := typicalCase().Setup
	s.Method, s.Feed, s.Given.Feed = Food, feed, true
	c := Case{Setup: Typical(s)}
	for i, v := range ammonia {
		c.Readings = append(c.Readings, Reading{Day: unit.Days(5 * (i + 1)), Ammonia: &Seen{Low: v, High: v}})
	}
	return c
}

// TestHoldsOff: who holds food off gives none between a test of 4 mg/L and one of less.
func TestHoldsOff(t *testing.T) {
	plan := NewPlan(foodCase(1.2, 4, 4, 2), 20)
	in := func(holds bool, from, to float64) float64 {
		par := typicalParams()
		par.HoldsOff = holds
		r := plan.Start(&par)
		r.To(from, nil)
		before := r.Ledger.In
		r.To(to, nil)
		return r.Ledger.In - before
	}
	day := FoodN * 1.2 / 60
	for _, x := range []struct {
		holds          bool
		from, to, want float64
	}{
		{true, 0, 5, 5 * day}, {true, 5, 15, 0}, {true, 15, 20, 5 * day}, {false, 5, 15, 10 * day},
	} {
		if got := in(x.holds, x.from, x.to); !near(got, x.want, 1e-9) {
			t.Errorf("holds off %t: %g mg N/L from day %g to %g, want %g", x.holds, got, x.from, x.to, x.want)
		}
	}
}

// TestHoldsOffToCome: with hardly any bacteria, food that is held off keeps ammonia near
// 4 mg/L and what still rots; that of others goes on rising.
func TestHoldsOffToCome(t *testing.T) {
	plan := NewPlan(foodCase(1.2), 0)
	most := func(holds bool) (most float64) {
		par := typicalParams()
		par.Seed, par.HoldsOff = [Guilds]float64{}, holds
		r := plan.Start(&par)
		r.Watch(40, func(_ int, p Pools) { most = max(most, float64(p.N(unit.Ammonia).Ion(unit.Ammonia))) })
		return most
	}
	if held, others := most(true), most(false); held > 12 || others < 40 {
		t.Errorf("ammonia gets up to %.1f mg/L where food is held off, %.1f where not", held, others)
	}
}

// TestSated: the ration of animals grows until it is a little more than what the tank is
// asked to carry, and not where it was told.
func TestSated(t *testing.T) {
	s := typicalCase().Setup
	s.Method, s.Feed = FishIn, 0.3
	par := typicalParams()
	par.Rise, par.Ask = 0.1, 0.5
	rate := func(s Setup, day float64) float64 {
		r := NewPlan(Case{Setup: Typical(s)}, 0).Start(&par)
		r.To(day, nil)
		before := r.Ledger.In
		r.To(day+1, nil)
		return r.Ledger.In - before
	}
	first := FoodN * 0.3 / 60
	r := NewPlan(Case{Setup: Typical(s)}, 0).Start(&par)
	want := 1.1 * r.target()
	if want < 1.5*first {
		t.Fatalf("a first ration of %g mg N/L leaves no room to grow to %g", first, want)
	}
	if got := rate(s, 100); !near(got, want, 1e-6) {
		t.Errorf("the ration comes to %g mg N/L a day, want %g", got, want)
	}
	s.Given.Feed = true
	if got := rate(s, 100); !near(got, first, 1e-6) {
		t.Errorf("a ration that was told comes to %g mg N/L a day, want %g", got, first)
	}
}

func near(a, b, share float64) bool { return math.Abs(a-b) <= share*max(math.Abs(a), math.Abs(b)) }
