package kit

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"

	"pgregory.net/rapid"
)

// TestStepsAddUp: for any true value and bias, the probabilities of all steps
// of a chart add up to one.
func TestStepsAddUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := model.Kit(rapid.IntRange(0, 1).Draw(t, "kit"))
		sp := unit.Species(rapid.IntRange(0, 2).Draw(t, "species"))
		v := rapid.Float64Range(0, 500).Draw(t, "true")
		bias := rapid.Float64Range(0.5, 2).Draw(t, "bias")
		extra := rapid.Float64Range(0, 0.6).Draw(t, "extra")
		c := For(k, sp)
		sum := 0.0
		for _, s := range c.Steps {
			b := c.Bin(model.Seen{Low: s, High: s}, sp).Wider(extra)
			p := b.Prob(v, bias)
			if p < 0 || p > 1 {
				t.Fatalf("step %g of a true %g has probability %g", s, v, p)
			}
			sum += p
		}
		if math.Abs(sum-1) > 1e-6 {
			t.Fatalf("the steps of %v for a true %g add up to %g", c.Steps, v, sum)
		}
	})
}

// TestMost: no true value is read as a bin more probably than Most says, and one
// comes near to it.
func TestMost(t *testing.T) {
	for k := range charts {
		for sp := range charts[k] {
			c := For(model.Kit(k), unit.Species(sp))
			steps := c.Steps
			if steps == nil {
				steps = []float64{0, 0.02, 0.3, 40}
			}
			for i, x := range steps {
				for _, over := range []bool{false, i == len(steps)-1} {
					b := c.Bin(model.Seen{Low: x, High: x, Over: over}, unit.Species(sp)).Wider(0.3)
					best := b.Prob(0, 1)
					for v := 1e-3; v < 1e5; v *= 1.001 {
						best = max(best, b.Prob(v, 1))
					}
					if most := b.Most(); best > most+1e-8 || best < most-1e-4 {
						t.Errorf("%v of kit %v is read as %g with a probability of %.6f at most, not %.6f", unit.Species(sp), model.Kit(k), x, best, most)
					}
				}
			}
		}
	}
}

// TestReads: what a perfect view of a value is read as, and that the step read
// is the likeliest one.
func TestReads(t *testing.T) {
	for _, x := range []struct {
		kit  model.Kit
		sp   unit.Species
		true float64
		want float64
		top  bool
	}{
		{model.Liquid, unit.Ammonia, 0.02, 0, false},
		{model.Liquid, unit.Ammonia, 0.26, 0.25, false},
		{model.Liquid, unit.Ammonia, 1.1, 1, false},
		{model.Liquid, unit.Ammonia, 30, 8, true},
		{model.Liquid, unit.Nitrite, 9, 5, true},
		{model.Strip, unit.Nitrite, 0.4, 0.5, false},
		{model.Liquid, unit.Nitrate, 22, 20, false},
		{model.Meter, unit.Ammonia, 0.333, 0.33, false},
	} {
		c := For(x.kit, x.sp)
		got, top := c.Nearest(x.true)
		if got != x.want || top != x.top {
			t.Errorf("%v of a true %g is read as %g (top %v), want %g (%v)", x.sp, x.true, got, top, x.want, x.top)
		}
		best, at := 0.0, -1.0
		for _, s := range c.Steps {
			b := c.Bin(model.Seen{Low: s, High: s}, x.sp)
			if p := b.Prob(x.true, 1); p > best {
				best, at = p, s
			}
		}
		if c.Steps != nil && at != x.want {
			t.Errorf("the likeliest step for a true %v of %g is %g, want %g", x.sp, x.true, at, x.want)
		}
	}
}

// TestOpenTopAndScale: "5+" is as likely as reading above the last step, a
// range spans both its steps, and a value on the nitrogen scale is the same
// reading as its ion's.
func TestOpenTopAndScale(t *testing.T) {
	c := For(model.Liquid, unit.Nitrite)
	over := c.Bin(model.Seen{Low: 5, High: 5, Over: true}, unit.Nitrite).Wider(0.1)
	if p := over.Prob(20, 1); p < 0.99 {
		t.Errorf("5+ for a true 20 mg/L has probability %.3f, want nearly one", p)
	}
	if p := over.Prob(0.5, 1); p > 0.01 {
		t.Errorf("5+ for a true 0.5 mg/L has probability %.3f, want nearly none", p)
	}
	n := For(model.Liquid, unit.Nitrate)
	wide := n.Bin(model.Seen{Low: 20, High: 40}, unit.Nitrate)
	low, high := n.Bin(model.Seen{Low: 20, High: 20}, unit.Nitrate), n.Bin(model.Seen{Low: 40, High: 40}, unit.Nitrate)
	if got, want := wide.Prob(30, 1), low.Prob(30, 1)+high.Prob(30, 1); math.Abs(got-want) > 1e-9 {
		t.Errorf("20-40 for a true 30 has probability %.4f, its two steps together %.4f", got, want)
	}
	asN := c.Bin(model.Seen{Low: 0.3045, High: 0.3045, AsN: true}, unit.Nitrite)
	asIon := c.Bin(model.Seen{Low: 1, High: 1}, unit.Nitrite)
	if math.Abs(asN.Prob(1, 1)-asIon.Prob(1, 1)) > 0.01 {
		t.Errorf("0.3045 mg N/L and 1 mg NO2/L differ: %.3f and %.3f", asN.Prob(1, 1), asIon.Prob(1, 1))
	}
}

// TestChartInNitrogen: a value on the nitrogen scale that is one of the chart's own
// numbers and no converted step was read on a chart printed in nitrogen, whose
// neighbouring steps are larger by the same factor.
func TestChartInNitrogen(t *testing.T) {
	c := For(model.Liquid, unit.Nitrate)
	k := unit.Nitrate.IonPerN()
	ion := c.Bin(model.Seen{Low: 10, High: 10}, unit.Nitrate)
	n := c.Bin(model.Seen{Low: 10, High: 10, AsN: true}, unit.Nitrate)
	if low, high := c.middle(5*k, 10*k), c.middle(10*k, 20*k); n.Low != low || n.High != high {
		t.Errorf("10 mg N/L is %g to %g, want %g to %g, half way to 5 and 20 mg N/L", n.Low, n.High, low, high)
	}
	if wide, first := n.High/n.Low, ion.High/ion.Low; math.Abs(wide/first-1) > 0.1 {
		t.Errorf("10 mg N/L spans a factor of %.2f, 10 mg/L one of %.2f: want about the same", wide, first)
	}
	both := c.Bin(model.Seen{Low: 5, High: 10, AsN: true}, unit.Nitrate)
	if both.High != n.High {
		t.Errorf("5-10 mg N/L ends at %g, want %g", both.High, n.High)
	}
	converted := c.Bin(model.Seen{Low: 2.26, High: 2.26, AsN: true}, unit.Nitrate) // 10 mg/L as nitrogen
	if converted.Low != ion.Low || converted.High != ion.High {
		t.Errorf("2.26 mg N/L is %g to %g, want that of 10 mg/L", converted.Low, converted.High)
	}
}
