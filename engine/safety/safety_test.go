package safety

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/chem"
	"ripen/engine/unit"
)

func mgN(x float64) *unit.MgN { n := unit.MgN(x); return &n }

// anyWater draws water that kits can show.
func anyWater(t *rapid.T) Water {
	w := Water{Temp: unit.Celsius(rapid.Float64Range(4, 35).Draw(t, "temperature"))}
	maybe := func(name string, low, high float64) *float64 {
		if !rapid.Bool().Draw(t, name+" known") {
			return nil
		}
		x := rapid.Float64Range(low, high).Draw(t, name)
		return &x
	}
	w.PH, w.Chloride, w.Chlorine = maybe("pH", 4, 10), maybe("chloride", 0, 300), maybe("chlorine", 0, 3)
	if x := maybe("salinity", 0, 40); x != nil {
		w.Salinity = *x
	}
	if x := maybe("ammonia", 0, 10); x != nil {
		w.Ammonia = mgN(*x)
	}
	if x := maybe("nitrite", 0, 10); x != nil {
		w.Nitrite = mgN(*x)
	}
	return w
}

func anyAnimals(t *rapid.T) Animals {
	return rapid.SampledFrom([]Animals{Mussels, Trout, WarmWater}).Draw(t, "animals")
}

// rank orders verdicts.
func rank(v string) int { return map[string]int{Safe: 0, Caution: 1, Danger: 2}[v] }

// The verdict is that of the worst level, the strictest is one of the levels, and no
// level is nearer to its limit.
func TestStrictestWins(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Assess(anyWater(t), anyAnimals(t))
		worst := Safe
		for _, l := range r.Levels {
			if l.Long > l.Short || !(l.Long > 0) {
				t.Fatalf("%s has limits %g and %g", l.Name, l.Short, l.Long)
			}
			worst = Worse(worst, l.Verdict())
		}
		if worst != r.Verdict {
			t.Fatalf("%s of levels that are %s", r.Verdict, worst)
		}
		strictest, known := r.Level(r.Strictest)
		if known != (len(r.Levels) > 0) {
			t.Fatalf("strictest %q of %v", r.Strictest, r.Levels)
		}
		for _, l := range r.Levels {
			if l.Value/l.Long > strictest.Value/strictest.Long {
				t.Fatalf("%v is stricter than %v", l, strictest)
			}
		}
	})
}

// More ammonia, nitrite or chlorine, a higher pH (in fresh water), less chloride, and
// mussels or trout among the animals never make water better.
func TestNothingBadHelps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, a := anyWater(t), anyAnimals(t)
		before := rank(Assess(w, a).Verdict)
		worse := w
		switch what := rapid.SampledFrom([]string{"ammonia", "nitrite", "chlorine", "pH", "chloride", "animals"}).Draw(t, "what"); what {
		case "ammonia":
			if w.Ammonia != nil {
				worse.Ammonia = mgN(float64(*w.Ammonia) + 0.5)
			}
		case "nitrite":
			if w.Nitrite != nil {
				worse.Nitrite = mgN(float64(*w.Nitrite) + 0.5)
			}
		case "chlorine":
			if w.Chlorine != nil {
				x := *w.Chlorine + 0.01
				worse.Chlorine = &x
			}
		case "pH":
			if w.PH != nil {
				x := *w.PH + 0.2
				worse.PH = &x
			}
		case "chloride":
			if w.Chloride != nil {
				x := *w.Chloride / 2
				worse.Chloride = &x
			}
		case "animals":
			a = map[Animals]Animals{WarmWater: Mussels, Mussels: Trout, Trout: Trout}[a]
		}
		if after := rank(Assess(worse, a).Verdict); after < before {
			t.Fatalf("from %d to %d", before, after)
		}
	})
}

// Every limit of a grid falls or stays as pH and temperature rise, and each kind of
// animals is never held to less than the kinds that bear more.
func TestLimitsGrid(t *testing.T) {
	for _, salinity := range []float64{0, 5, 15, 35} {
		for ph := 6.0; ph <= 9.5; ph += 0.25 {
			for temp := unit.Celsius(5); temp <= 32; temp++ {
				at := func(ph float64, temp unit.Celsius, a Animals) Limits {
					return LimitsOf(Water{PH: &ph, Temp: temp, Salinity: salinity}, a)
				}
				for _, a := range []Animals{Mussels, Trout, WarmWater} {
					here := at(ph, temp, a)
					for _, up := range []Limits{at(ph+0.25, temp, a), at(ph, temp+1, a)} {
						if up.AcuteTAN > here.AcuteTAN || up.ChronicTAN > here.ChronicTAN {
							t.Fatalf("limits rise from %v to %v at pH %g, %g C, %g g/kg", here, up, ph, float64(temp), salinity)
						}
					}
				}
				trout, mussels, warm := at(ph, temp, Trout), at(ph, temp, Mussels), at(ph, temp, WarmWater)
				if trout.AcuteTAN > mussels.AcuteTAN || mussels.AcuteTAN > warm.AcuteTAN || trout.ChronicTAN > mussels.ChronicTAN || mussels.ChronicTAN > warm.ChronicTAN {
					t.Fatalf("pH %g, %g C: trout %v, mussels %v, warm water %v", ph, float64(temp), trout, mussels, warm)
				}
			}
		}
	}
}

// The limits of each kind are those of its source.
func TestLimitsByAnimals(t *testing.T) {
	const epa = "US EPA 2013, EPA-822-R-13-001, pH 7 and 20 C, mg TAN/L"
	two := func(x unit.MgN) float64 {
		k := math.Pow(10, 1-math.Floor(math.Log10(float64(x))))
		return math.Round(float64(x)*k) / k
	}
	for _, tt := range []struct {
		animals        Animals
		ph             float64
		temp           unit.Celsius
		salinity       float64
		acute, chronic float64
		source         string
	}{
		{Mussels, 7, 20, 0, 17, 1.9, epa},
		{Trout, 7, 20, 0, 17, 1.9, epa},
		{WarmWater, 7, 20, 0, 38, 6.5, epa + "; mussels absent, Appendix N"},
		{Mussels, 7, 10, 0, 38, 3.6, "US EPA 2013, the formulae of Tables 5b and 6: 37.6 and 3.62"},
		{Trout, 7, 10, 0, 24, 3.6, "US EPA 2013, Table 5a: 24 at pH 7 and 10 C"},
		{Mussels, 8, 20, 9.9, 3.9, 0.78, "below 10 g/kg as in fresh water, British Columbia 2006; US EPA 2013, Tables 5b and 6"},
	} {
		ph := tt.ph
		l := LimitsOf(Water{PH: &ph, Temp: tt.temp, Salinity: tt.salinity}, tt.animals)
		if two(l.AcuteTAN) != tt.acute || two(l.ChronicTAN) != tt.chronic {
			t.Errorf("animals %d, pH %g, %g C: %.3g and %.3g, want %g and %g: %s", tt.animals, tt.ph, float64(tt.temp), float64(l.AcuteTAN), float64(l.ChronicTAN), tt.acute, tt.chronic, tt.source)
		}
	}
	ph := 8.2
	sea := LimitsOf(Water{PH: &ph, Temp: 25, Salinity: 35}, Trout)
	acute, chronic := chem.SeaTAN(8.2, 25, 35)
	if !sea.Sea || sea.AcuteTAN != acute || sea.ChronicTAN != chronic || sea.ChlorineAcute != 0.013 || sea.NitriteMax != 0.60 {
		t.Errorf("the sea: %+v", sea)
	}
}
