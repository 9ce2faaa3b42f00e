package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/unit"

	"pgregory.net/rapid"
)

// randomCase invents a tank of any kind with anything done to it, wild values
// included.
func randomCase(rng *rand.Rand, days float64) Case {
	pick := func(n int) int { return rng.IntN(n) }
	s := Setup{
		Volume: unit.Litres(5 + 500*rng.Float64()), PH: 4.5 + 5*rng.Float64(),
		KH: unit.DKH(15 * rng.Float64()).CaCO3(), Temp: unit.Celsius(4 + 36*rng.Float64()),
		Salinity: 35 * rng.Float64() * float64(pick(2)), Method: Method(pick(6)), Plants: Plants(pick(5)),
		Media: Media(pick(6)), MediaVolume: unit.Litres(3 * rng.Float64()), Flow: Flow(pick(3)), Source: Source(pick(5)),
		Conditioner: pick(2) == 0, Stock: unit.Grams(100 * rng.Float64()), Feed: unit.Grams(3 * rng.Float64()),
	}
	s.Given = Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true,
		Conditioner: true, Stock: true, Feed: true}
	c := Case{Setup: Typical(s)}
	for range pick(12) {
		day := unit.Days(days * rng.Float64())
		c.Events = insert(c.Events, Event{Day: day, Kind: EventKind(pick(int(Losses) + 1)), N: unit.MgN(8 * rng.Float64()),
			Salt: pick(2) == 0, Mass: unit.Grams(5 * rng.Float64()), Fraction: rng.Float64(), Alk: unit.DKH(4 * rng.Float64()).CaCO3(),
			Volume: unit.Litres(2 * rng.Float64()), Hours: 100 * rng.Float64(), DonorPH: 5 + 4*rng.Float64(), Plants: Plants(pick(5)),
			Treated: Treated(pick(3)), Harsh: pick(2) == 0})
	}
	for i := range pick(4) {
		ph, kh, temp, o2 := 4.5+5*rng.Float64(), unit.DKH(12*rng.Float64()).CaCO3(), unit.Celsius(5+33*rng.Float64()), 9*rng.Float64()
		r := Reading{Day: unit.Days(days * float64(i+1) / 5), PH: &ph}
		if pick(2) == 0 {
			r.KH, r.Temp, r.Oxygen = &kh, &temp, &o2
		}
		c.Readings = append(c.Readings, r)
	}
	return c
}

// randomParams draws parameters some way beyond the prior.
func randomParams(rng *rand.Rand) Params {
	f := func(sd float64) float64 { return math.Exp(sd * rng.NormFloat64()) }
	p := Params{GrowA: f(0.5), GrowN: f(0.5), HalfA: f(0.8), HalfN: f(0.8), Decay: f(0.5), Area: f(1), Source: f(1.2), Plant: f(1), PHOffset: 0.3 * rng.NormFloat64(),
		AlkRatio: f(0.5), PHMin: 0.4 * rng.NormFloat64(), FreeNH3: f(1.2), Chlorine: f(1.2), Harm: f(1.2), Gift: f(1.5),
		Dose: f(0.3), TapNO3: f(1.5), Loss: 0.01 * f(1.5), Rise: 0.02 * f(1), Ask: rng.Float64(), Phos: rng.Float64()}
	for i := range p.Seed {
		p.Seed[i] = 0.02 * f(2.5)
	}
	if rng.IntN(3) == 0 {
		p.Unseen = Unseen{Day: 30 * rng.Float64(), Kill: rng.Float64()}
	}
	return p
}

// checkState fails when a pool is negative or not a number, or when the
// nitrogen in the tank is not what went in less what went out.
func checkState(t interface {
	Helper()
	Fatalf(string, ...any)
}, r *Run) {
	t.Helper()
	s := &r.State
	for _, v := range append([]float64{s.TAN, s.NO2, s.NO3, s.Org, s.Soil, s.Plant, s.Gone, s.O2, s.Cl}, s.B[:]...) {
		if v < 0 || math.IsNaN(v) {
			t.Fatalf("day %g: a pool is %g in %+v", r.Day, v, *s)
		}
	}
	if math.IsNaN(s.Alk) {
		t.Fatalf("day %g: alkalinity is not a number", r.Day)
	}
	want := r.Ledger.In - r.Ledger.Out
	if got := s.Nitrogen(); math.Abs(got-want) > 1e-9*max(r.Ledger.In, 1e-3) {
		t.Fatalf("day %g: %.12g mg N/L in the tank, %.12g by the ledger (in %g)", r.Day, got, want, r.Ledger.In)
	}
}

// TestRandomTanks holds 10,000 random tanks to the two laws that the integrator
// keeps by construction: nothing negative, no nitrogen made or lost (1e-9).
func TestRandomTanks(t *testing.T) {
	const perCheck = 100 // times rapid's 100 checks
	tanks := 0
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		for range perCheck {
			const days = 30
			c := randomCase(rng, days)
			par := randomParams(rng)
			r := NewPlan(c, days).Start(&par)
			for d := 3.0; d <= days; d += 3 {
				r.To(d, nil)
				checkState(t, r)
			}
			tanks++
		}
	})
	t.Logf("%d tanks", tanks)
	if tanks < 10000 && !testing.Short() { // in short mode rapid tries a fifth
		t.Errorf("only %d tanks; run with -rapid.checks=100 or more", tanks)
	}
}

// TestNitrogenBalance180 runs tanks of every method to the horizon.
func TestNitrogenBalance180(t *testing.T) {
	for m := Dosed; m <= FishIn; m++ {
		c := typicalCase()
		c.Setup.Method = m
		full, _ := Complete(Case{Setup: Typical(c.Setup)}, 0)
		for d := 5; d < Horizon; d += 7 {
			full.Events = append(full.Events, Event{Day: unit.Days(d), Kind: WaterChange, Fraction: 0.3, Treated: No},
				Event{Day: unit.Days(d), Seq: 1, Kind: Dose, N: 1.5})
		}
		par := typicalParams()
		r := NewPlan(full, Horizon).Start(&par)
		r.To(Horizon, nil)
		checkState(t, r)
		s := &r.State
		t.Logf("method %d: in %.3f, out %.3f, left %.3f mg N/L, difference %.1e", m, r.Ledger.In, r.Ledger.Out,
			s.Nitrogen(), r.Ledger.In-r.Ledger.Out-s.Nitrogen())
	}
}
