package safety

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// A change that is advised reaches its goal, a hundredth less does not, and its equal
// steps one after another come to the same water.
func TestChangeReaches(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, a := anyWater(t), anyAnimals(t)
		w.Chlorine = nil
		fresh := NewWater{Ammonia: unit.MgN(rapid.Float64Range(0, 0.3).Draw(t, "new ammonia")), Nitrite: unit.MgN(rapid.Float64Range(0, 0.03).Draw(t, "new nitrite"))}
		if rapid.Bool().Draw(t, "new pH known") {
			ph := rapid.Float64Range(6, 9).Draw(t, "new pH")
			fresh.PH = &ph
		}
		goal := rapid.SampledFrom([]string{Caution, Safe}).Draw(t, "goal")
		c, ok := ToReach(goal, w, fresh, a)
		reaches := func(share float64) bool { return rank(Assess(w.Mixed(fresh, share), a).Verdict) <= rank(goal) }
		if !ok {
			for p := range 100 {
				if reaches(float64(p) / 100) {
					t.Fatalf("%d %% reaches it", p)
				}
			}
			return
		}
		if !reaches(c.Share) {
			t.Fatalf("%g does not reach %s", c.Share, goal)
		}
		if c.Share > 0 && reaches(c.Share-0.01) {
			t.Fatalf("%g reaches it too", c.Share-0.01)
		}
		if c.Each > MostAtOnce+1e-9 || c.Times < 1 || c.Times > 7 {
			t.Fatalf("%d times %g", c.Times, c.Each)
		}
		step := w
		for range c.Times {
			step = step.Mixed(fresh, c.Each)
		}
		whole := w.Mixed(fresh, c.Share)
		for _, x := range [][2]*unit.MgN{{step.Ammonia, whole.Ammonia}, {step.Nitrite, whole.Nitrite}} {
			if x[0] != nil && math.Abs(float64(*x[0]-*x[1])) > 1e-9 {
				t.Fatalf("in steps %g, at once %g", float64(*x[0]), float64(*x[1]))
			}
		}
	})
}

// Worked by hand: 1 mg NO2/L without chloride is 0.304 mg N/L, held to 0.06 and 0.02.
func TestChangeByHand(t *testing.T) {
	for _, tt := range []struct {
		reason string
		goal   string
		fresh  NewWater
		share  float64
		times  int
		ok     bool
	}{
		{"1 - 0.06/0.3045 = 0.803, in three steps of at most half", Caution, NewWater{}, 0.81, 3, true},
		{"1 - 0.02/0.3045 = 0.934; four halves replace 0.9375, so in five", Safe, NewWater{}, 0.94, 5, true},
		{"with 0.03 in the new water (0.3045-0.06)/(0.3045-0.03) = 0.891", Caution, NewWater{Nitrite: 0.03}, 0.90, 4, true},
		{"new water above the limit never gets there", Safe, NewWater{Nitrite: 0.03}, 0, 0, false},
	} {
		c, ok := ToReach(tt.goal, Water{Nitrite: mgN(float64(unit.MgIon(1).N(unit.Nitrite))), Temp: 25}, tt.fresh, Mussels)
		if ok != tt.ok || math.Abs(c.Share-tt.share) > 1e-9 || c.Times != tt.times {
			t.Errorf("%s: %g in %d, %v; want %g in %d", tt.reason, c.Share, c.Times, ok, tt.share, tt.times)
		}
	}
}

// Alkaline new water on ammonia in acidic water frees more than it takes away, and
// water like the tank's does not.
func TestChangeWorsens(t *testing.T) {
	acid, alkaline := 6.2, 8.2
	w := Water{Ammonia: mgN(4), PH: &acid, Temp: 25}
	before := Assess(w, Mussels)
	for _, tt := range []struct {
		ph   *float64
		want bool
	}{{&alkaline, true}, {&acid, false}, {nil, false}} {
		c, ok := ToReach(Safe, w, NewWater{PH: tt.ph}, Mussels)
		if !ok || c.Worsens(before) != tt.want {
			t.Errorf("new water of pH %v worsens it: %v (change %+v)", tt.ph, c.Worsens(before), c)
		}
	}
}

// The salt advised brings the chloride that it says, by its formula mass, never more
// than the limit for chloride, never lowers the nitrite limit, and is not advised where
// it would do nothing.
func TestSalt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWater(t)
		s, ok := Against(w)
		if !ok {
			if w.Nitrite != nil && w.Salinity == 0 && w.Chloride == nil && *w.Nitrite > 0.02 {
				t.Fatal("no salt against nitrite in water without chloride")
			}
			return
		}
		got := w.chloride() + 1000*s.PerLitre*35.45/58.44 // NaCl, IUPAC 2021
		if math.Abs(got-s.Chloride) > 0.001*s.Chloride {
			t.Fatalf("salt brings %g mg/L, want %g", got, s.Chloride)
		}
		if s.Chloride > chem.ChlorideChronic || s.PerLitre <= 0 || s.NitriteMax < LimitsOf(w, Mussels).NitriteMax {
			t.Fatalf("%+v", s)
		}
	})
	// 2 mg NO2/L asks for 20 mg Cl/L, 33 mg of salt: 1 g in 30 L, and the guideline's
	// last step, 0.60 mg N/L.
	s, _ := Against(Water{Nitrite: mgN(float64(unit.MgIon(2).N(unit.Nitrite)))})
	if math.Abs(s.Chloride-20) > 0.01 || math.Abs(30*s.PerLitre-1) > 0.02 || s.NitriteMax != 0.60 {
		t.Errorf("against 2 mg NO2/L: %+v", s)
	}
}

// The chloramine counted on is that of the model's tap water: a whole untreated change
// brings its ammonia.
func TestChloramineLeaves_Model(t *testing.T) {
	setup := model.Typical(model.Setup{Volume: 60, Source: model.Chloraminated, Given: model.Given{Source: true}})
	c := model.Case{Setup: setup, Events: []model.Event{{Day: 1, Kind: model.WaterChange, Fraction: 1, Treated: model.No}}}
	par := model.Central()
	r := model.NewPlan(c, 2).Start(&par)
	r.To(1+1e-9, nil)
	if got := unit.MgN(r.State.TAN); math.Abs(float64(got-ChloramineLeaves)) > 1e-4 {
		t.Errorf("the model's tap water brings %.4f mg N/L, counted here %.4f", float64(got), float64(ChloramineLeaves))
	}
}

// A chart that topped out is never safe, and a change is counted from what it shows.
func TestOpenChart(t *testing.T) {
	ph := 6.0
	w := Water{Ammonia: mgN(1), PH: &ph, Temp: 20}
	if v := Assess(w, Mussels).Verdict; v != Safe {
		t.Fatalf("1 mg N/L at pH 6 is %s", v)
	}
	w.Open = true
	if v := Assess(w, Mussels).Verdict; v != Caution {
		t.Errorf("at least 1 mg N/L at pH 6 is %s", v)
	}
	if c, ok := ToReach(Safe, w, NewWater{}, Mussels); !ok || c.Share != 0 {
		t.Errorf("a change of %g for what is told", c.Share)
	}
}
