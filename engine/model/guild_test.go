package model

import (
	"math"
	"testing"
)

// What Rosso et al. (1993, 1995) ask of their functions: 1 at the optimum, which is
// the maximum, nil at and beyond the cardinal values, and at the lowest temperature
// no slope either.
func TestCardinal(t *testing.T) {
	for i := range Defaults {
		g := &Defaults[i]
		for _, x := range []struct {
			name             string
			f                func(float64) float64
			low, best, upper float64
		}{
			{"temperature", func(v float64) float64 { return CardinalTemperature(v, g.TMin, g.TOpt, g.TMax) }, g.TMin, g.TOpt, g.TMax},
			{"pH", func(v float64) float64 { return CardinalPH(v, g.PHMin, g.PHOpt, g.PHMax) }, g.PHMin, g.PHOpt, g.PHMax},
		} {
			if at := x.f(x.best); math.Abs(at-1) > 1e-12 {
				t.Errorf("%s: %s factor at the optimum is %g, want 1", g.Name, x.name, at)
			}
			for _, v := range []float64{x.low - 1, x.low, x.upper, x.upper + 1} {
				if at := x.f(v); at != 0 {
					t.Errorf("%s: %s factor at %g is %g, want nil", g.Name, x.name, v, at)
				}
			}
			before := 0.0
			for s := 1; s < 200; s++ {
				v := x.low + (x.upper-x.low)*float64(s)/200
				at := x.f(v)
				if at <= 0 || at > 1 || v <= x.best && at < before || v > x.best+(x.upper-x.low)/200 && at > before {
					t.Fatalf("%s: %s factor is %g at %g after %g: it has to rise to the optimum and fall after", g.Name, x.name, at, v, before)
				}
				before = at
			}
		}
		const d = 1e-4
		if slope := CardinalTemperature(g.TMin+d, g.TMin, g.TOpt, g.TMax) / d; slope > 1e-3 {
			t.Errorf("%s: the temperature factor begins with slope %g, want none", g.Name, slope)
		}
	}
	// Worked apart from the code: Tmin 0, Topt 30, Tmax 40 at 20 C is
	// (20-40)(20-0)²/(30·(30·(20-30)-(30-40)(30+0-40))) = -8000/(30·(-300-100)) = 2/3.
	if f := CardinalTemperature(20, 0, 30, 40); math.Abs(f-2./3) > 1e-12 {
		t.Errorf("CardinalTemperature(20, 0, 30, 40) = %g, want 2/3", f)
	}
	// pHmin 5, pHopt 8, pHmax 10 at 7: (2·-3)/(2·-3 - 1) = 6/7.
	if f := CardinalPH(7, 5, 8, 10); math.Abs(f-6./7) > 1e-12 {
		t.Errorf("CardinalPH(7, 5, 8, 10) = %g, want 6/7", f)
	}
}

// Inhibition by its definition: nitrous acid at Ki halves the rate (non-competitive);
// with the Haldane form (Anthonisen et al. 1976; Andrews 1968) the rate is highest at
// the root of K/ρ, and the same at x and at K/(ρx).
func TestInhibition(t *testing.T) {
	par := typicalParams()
	r := NewPlan(typicalCase(), 1).Start(&par)
	w := r.k.at(r.State.Alk, r.State.acid)
	ki := Defaults[AOB].KiHNO2 / w.term[hno2Term].at(r.State.Alk-w.mid) // nitrite with Ki of nitrous acid in it
	var free, held pace
	r.k.pace(r.State.Alk, r.State.acid, 7, 1, 0, 0, 0, 0, 0, &free)
	r.k.pace(r.State.Alk, r.State.acid, 7, 1, ki, 0, 0, 0, 0, &held)
	if f := held.a / free.a; math.Abs(f-0.5) > 1e-12 {
		t.Errorf("at Ki the rate is %g of the whole, want half", f)
	}
	const k, rho = 0.5, 0.02
	best := math.Sqrt(k / rho)
	if _, _, slope := saturation(best, k, rho); math.Abs(slope) > 1e-12 {
		t.Errorf("slope %g at the best concentration, want none", slope)
	}
	for _, x := range []float64{0.1, 1, 3} {
		a, _, _ := saturation(x, k, rho)
		b, _, _ := saturation(k/(rho*x), k, rho)
		if math.Abs(a-b) > 1e-12 {
			t.Errorf("rates %g and %g at %g and its mirror image, want the same", a, b, x)
		}
	}
}
