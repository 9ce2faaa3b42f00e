package dosing

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/testdata"
)

func TestDilute_Laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := rapid.Float64Range(0.1, 100).Draw(t, "now")
		goal := now * rapid.Float64Range(0.01, 0.99).Draw(t, "goal")
		fresh := goal * rapid.Float64Range(0, 0.8).Draw(t, "fresh")
		c, err := Dilute(now, goal, fresh)
		if err != nil {
			t.Fatal(err)
		}
		level := now
		for range c.Times {
			level = Mix(level, fresh, c.Single)
		}
		if math.Abs(level-goal) > 1e-9*now || c.Single > MostAtOnce+1e-9 {
			t.Fatalf("%d changes of %.3f lead from %g to %g, want %g", c.Times, c.Single, now, level, goal)
		}
		if c.Times > 1 && 1-math.Pow(1-MostAtOnce, float64(c.Times-1)) >= c.Share {
			t.Fatalf("%d changes for a share of %g, fewer would do", c.Times, c.Share)
		}
		if math.Abs(Mix(now, fresh, c.Share)-goal) > 1e-9*now {
			t.Fatalf("share %g leads to %g, want %g", c.Share, Mix(now, fresh, c.Share), goal)
		}
	})
}

func TestDilute_Refused(t *testing.T) {
	if _, err := Dilute(1, 2, 0); !errors.Is(err, ErrNoRise) {
		t.Errorf("below the goal already: %v", err)
	}
	for _, fresh := range []float64{0.5, 0.7, 0.4999} {
		if n, ok := errors.AsType[*NewWater](second(Dilute(2, 0.5, fresh))); !ok || n.New != fresh {
			t.Errorf("new water of %g to 0.5: %v", fresh, n)
		}
	}
	for _, x := range []float64{-1, 2000, math.NaN(), math.Inf(1)} {
		if _, ok := errors.AsType[*RangeError](second(Dilute(x, 0.5, 0))); !ok {
			t.Errorf("level %g is taken", x)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func TestRaise_Gently(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := Water{
			Volume: 60, PH: rapid.Float64Range(5.5, 8.2).Draw(t, "pH"), KH: unit.DKH(rapid.Float64Range(0, 6).Draw(t, "KH")).CaCO3(),
			Temp: unit.Celsius(rapid.Float64Range(15, 30).Draw(t, "temperature")), Ammonia: 1,
		}
		to := w.KH + unit.DKH(rapid.Float64Range(0.1, 10).Draw(t, "rise")).CaCO3()
		once, err := Raise(w, to, SodiumBicarbonate, 0)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Raise(w, to, SodiumBicarbonate, 0.3)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(b.Mass-once.Mass)) > 1e-6*float64(once.Mass) || len(once.Portions) != 1 {
			t.Fatalf("%g g in %d portions, %g at once", b.Mass, len(b.Portions), once.Mass)
		}
		before := b.Before
		for _, p := range b.Portions {
			if p.PH > before.PH+0.3+1e-6 || p.PH < before.PH || p.KH <= before.KH || p.Free < before.Free {
				t.Fatalf("a portion leads from %+v to %+v", before, p)
			}
			before = p
		}
		if math.Abs(float64(before.KH-to)) > 1e-6 {
			t.Fatalf("the portions end at %g, want %g", before.KH, to)
		}
	})
}

func TestRaise_Calcium(t *testing.T) {
	w := Water{Volume: 100, PH: 6.6, KH: unit.DKH(1).CaCO3(), Temp: 25}
	far, err := Raise(w, unit.DKH(30).CaCO3(), CalciumCarbonate, 0)
	if err != nil || far.Ends >= unit.DKH(30).CaCO3() || far.Ends <= w.KH || far.Portions[0].KH != far.Ends {
		t.Errorf("to 30 dKH: %+v, %v; want it to end at the saturation", far, err)
	}
	near, err := Raise(w, unit.DKH(2).CaCO3(), CalciumCarbonate, 0)
	if err != nil || near.Ends != far.Ends || math.Abs(float64(near.Mass)-1.7848) > 1e-3 {
		t.Errorf("by 1 dKH: %.4g g, %v; want 1.785 g, as it is all carbonate", float64(near.Mass), err)
	}
	full, err := Raise(Water{Volume: 100, PH: 8.4, KH: unit.DKH(15).CaCO3(), Temp: 25}, unit.DKH(18).CaCO3(), CalciumCarbonate, 0)
	if err != nil || len(full.Portions) != 0 || full.Mass != 0 {
		t.Errorf("in hard alkaline water: %+v, %v; want none to dissolve", full, err)
	}
}

func TestRefused(t *testing.T) {
	for _, x := range []struct {
		reason string
		err    error
		what   string
	}{
		{"no water", second(Ammonia(1, 0, Product{Salt: true})), "volume"},
		{"water that is no number", second(Ammonia(1, unit.Litres(math.NaN()), Product{Salt: true})), "volume"},
		{"a strength of 400 %", second(Ammonia(1, 60, Product{Percent: 400})), "percent"},
		{"no strength", second(Ammonia(1, 60, Product{})), "percent"},
		{"a density of lead", second(Ammonia(1, 60, Product{Percent: 10, Density: 11})), "density"},
		{"a kilogram a litre", second(Ammonia(1e6, 60, Product{Salt: true})), "level"},
		{"a buffer for no water", second(Raise(Water{}, 100, SodiumBicarbonate, 0)), "volume"},
		{"chlorine below none", second(Dechlorinate(-1, 60, false)), "level"},
	} {
		if e, ok := errors.AsType[*RangeError](x.err); !ok || e.What != x.what {
			t.Errorf("%s: %v, want a RangeError of %s", x.reason, x.err, x.what)
		}
	}
	if _, err := Ammonia(0, 60, Product{Salt: true}); !errors.Is(err, ErrNoRise) {
		t.Errorf("no rise: %v", err)
	}
	w := Water{Volume: 60, PH: 7, KH: 100, Temp: 25}
	if e, ok := errors.AsType[*LowerKH](second(Raise(w, 50, SodiumBicarbonate, 0))); !ok || e.Now != 100 {
		t.Errorf("to a lower KH: %v", e)
	}
}

// A solution of the salt holds what is weighed dry: 10 g in 100 ml, so 1 g in 10 ml.
func TestAmmonia_SaltSolution(t *testing.T) {
	dry, _ := Ammonia(1, 60, Product{Salt: true})
	wet, err := Ammonia(1, 60, Product{Salt: true, Percent: 10})
	if err != nil || wet.Mass != dry.Mass || math.Abs(wet.ML-10*float64(dry.Mass)) > 1e-9 || dry.ML != 0 || wet.Brings != 0 {
		t.Errorf("dry %+v, dissolved %+v, %v", dry, wet, err)
	}
}

// A label that counts NH4OH names twice the strength: 20.58 % NH4OH is 10 % NH3.
func TestAmmonia_Hydroxide(t *testing.T) {
	a, _ := Ammonia(1, 60, Product{Percent: 10})
	b, err := Ammonia(1, 60, Product{Percent: 10 * 35.046 / 17.031, Hydroxide: true})
	if err != nil || math.Abs(a.ML/b.ML-1) > 1e-9 {
		t.Errorf("%g and %g ml, %v", a.ML, b.ML, err)
	}
}

func TestBurdenOf(t *testing.T) {
	// Half of the growth is left at the model's own constant.
	ki := model.Defaults[model.NOB].KiNH3
	compared := 0
	for _, r := range testdata.Table(t, "kinetics.csv") {
		if r.Text("parameter") != "free_ammonia_inhibition_onset" || !strings.Contains(r.Text("guild"), "NOB") || r.Text("unit") != "mg NH3/L" {
			continue
		}
		// Anthonisen et al. (1976): inhibition sets in from 0.1 to 1.0 mg NH3/L, so that at
		// the lower end most of the growth is left and at the upper end little.
		if low, high := GrowthLeft(r.Number("low")), GrowthLeft(r.Number("high")); low < 0.5 || high > 0.5 {
			t.Errorf("line %d: %.2f of the growth is left at the onset's lower end, %.2f at its upper", r.Line(), low, high)
		}
		compared++
	}
	if compared == 0 {
		t.Error("kinetics.csv has no onset of inhibition for NOB")
	}
	low := BurdenOf(0, 8, 25, 0)
	if low.Free != 0 || low.Growth != 1 {
		t.Errorf("no ammonia: %+v", low)
	}
	// At pH 9.25, near the pKa of 25 C (Emerson et al. 1975: 9.246), half is free.
	half := BurdenOf(unit.MgN(2*ki), 9.2464, 25, 0)
	if math.Abs(half.Growth-0.5) > 0.001 || math.Abs(half.Free-ki*17.031/14.007) > 0.001 {
		t.Errorf("at half free: %+v, want half the growth", half)
	}
}
