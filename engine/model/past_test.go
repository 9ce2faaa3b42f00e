package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/unit"
)

// TestSince: a tank that passes now has passed since the day after the last on which
// it failed, for a run by itself, for one that shares its past with another, and for
// one that is told how it stood on the days that are tried.
func TestSince(t *testing.T) {
	c := Case{Setup: Typical(Setup{Volume: 60, PH: 7.6, Temp: 26, Media: Sponge, Given: Given{PH: true, Temp: true}})}
	for d := 0; d < 60; d += 2 {
		c.Events = append(c.Events, Event{Day: unit.Days(d), Kind: Dose, N: c.Setup.Target / 2},
			Event{Day: unit.Days(d) + 0.5, Kind: WaterChange, Fraction: 0.2, Treated: Yes})
	}
	par := Central()
	par.Seed = [Guilds]float64{AOB: 0.01, AOA: 0.01, CMX: 0.01, NOB: 0.004}
	p := NewPlan(c, 60)
	for _, trial := range []float64{0.7, 1.4} {
		doubt := Doubt{Trial: trial, Notice: 1}
		failed := 0.
		var days []Stand
		for day := 1.; day <= 60; day++ {
			r := p.Start(&par)
			r.Suppose(doubt)
			r.To(day, nil)
			if p.Tried(int(day)) {
				days = append(days, r.Stand())
			}
			if r.Challenge() >= 1 {
				failed = day
			}
		}
		if failed < 5 || failed > 50 {
			t.Fatalf("the tank of the test fails last on day %g", failed)
		}
		var past Past
		for _, days := range [][]Stand{nil, nil, days} {
			if days != nil {
				past.Turn(days)
			}
			r := p.Start(&par)
			r.Suppose(doubt)
			r.Share(&past)
			if c := r.Finish(0, nil); !c.Passes || c.Done <= failed || c.Done > failed+float64(challengeEvery(failed-60)) {
				t.Errorf("trial %g: fails last on day %g, but is done since day %g, passes now: %v", trial, failed, c.Done, c.Passes)
			}
		}
		if r := p.Start(&par); math.IsNaN(r.Finish(0, nil).AmmoniaClear) {
			t.Error("the day on which ammonia fell is forgotten")
		}
	}
}

// TestSinceMissesNone: days that are passed by, since the tank was as able as later, are days on which
// it passed: of tanks of all sorts whose bacteria are lost again, the last day on which one
// failed is found as by trying each.
func TestSinceMissesNone(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	found, never := 0, 0
	for range 150 {
		set := Setup{Volume: 60, PH: 7 + rng.Float64(), Temp: unit.Celsius(22 + 6*rng.Float64()), KH: unit.DKH(4 + 6*rng.Float64()).CaCO3(), Given: Given{PH: true, Temp: true, KH: true}}
		if rng.IntN(2) == 0 {
			set.Method, set.Stock, set.Given.Stock = FishIn, unit.Grams(5+20*rng.Float64()), true
		}
		c := Case{Setup: Typical(set)}
		for d := 0.; d < 150; d += 1 + 3*rng.Float64() {
			e := Event{Day: unit.Days(d), Kind: Dose, N: c.Setup.Target}
			switch k := rng.IntN(12); {
			case k == 0:
				e.Kind, e.Harsh = Cleaned, rng.IntN(3) == 0
			case k < 4:
				e.Kind, e.Fraction, e.Treated = WaterChange, 0.3, Yes
			case c.Setup.Method == FishIn:
				continue
			}
			c.Events = append(c.Events, e)
		}
		par := Central()
		for g := range par.Seed {
			par.Seed[g] = 0.05 * math.Exp(rng.NormFloat64())
		}
		par.Harm = math.Exp(rng.NormFloat64())
		p := NewPlan(c, 150)
		last, next := -1., 150.
		for day := 150; day >= 1; day-- {
			r := p.Start(&par)
			r.To(float64(day), nil)
			if day < 150 && !p.Tried(day) {
				continue
			}
			if r.Challenge() >= 1 {
				last = float64(day)
				break
			}
			next = float64(day)
		}
		if last == 150 {
			continue
		}
		got := p.Start(&par).Finish(0, nil)
		switch {
		case last < 0:
			never++
			if got.Done > next {
				t.Errorf("passed on all days from %g on, done on day %g", next, got.Done)
			}
		default:
			found++
			if got.Done < last || got.Done > next {
				t.Errorf("failed last on day %g, passed on day %g, done on day %g", last, next, got.Done)
			}
		}
	}
	if found < 40 {
		t.Errorf("only %d tanks failed and then passed, %d always passed", found, never)
	}
}
