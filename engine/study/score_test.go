package study

import (
	"math"
	"math/rand/v2"
	"testing"
)

// even is a forecast of a done day spread evenly over 0 to width days.
func even(width float64) forecast {
	return forecastOf(func(day float64) float64 { return min(day/width, 1) })
}

// TestCRPS: for an even forecast over 0..w the score of a truth y within is
// (y³ + (w-y)³)/(3w²), by integrating by hand; of a sure forecast, the distance.
func TestCRPS(t *testing.T) {
	for _, y := range []float64{5, 30, 55} {
		want := (y*y*y + (60-y)*(60-y)*(60-y)) / (3 * 60 * 60)
		if got := even(60).crps(y); math.Abs(got-want) > 0.05 {
			t.Errorf("even forecast, truth %g: %.3f, want %.3f", y, got, want)
		}
	}
	sure := forecastOf(func(day float64) float64 {
		if day < 40 {
			return 0
		}
		return 1
	})
	if got := sure.crps(30); math.Abs(got-10) > 0.1 {
		t.Errorf("sure of day 40, truth 30: %.3f, want 10", got)
	}
}

// TestCoverage: truths drawn from the forecast itself are held as often as the
// interval says, also when a part of them lies past the horizon.
func TestCoverage(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	f := even(300) // two in five lie past the horizon
	const n = 20000
	var in [3]float64
	for range n {
		y := 300 * rng.Float64()
		for j, level := range Levels {
			v, _ := f.within(min(y, horizon), y > horizon, level)
			in[j] += v / n
		}
	}
	for j, level := range Levels {
		if math.Abs(in[j]-level) > 0.015 {
			t.Errorf("%.0f %% interval holds %.1f %%", 100*level, 100*in[j])
		}
	}
	if _, side := even(60).within(1, false, 0.8); side != -1 {
		t.Errorf("day 1 of an even 60 lies on side %g of the 80 %% interval, want before", side)
	}
}

// TestPondBalances: nothing but plants' and gas losses leaves a wild tank, so
// nitrogen in all pools keeps constant without either, food and fish.
func TestPondBalances(t *testing.T) {
	for i := range 20 {
		rng := rand.New(rand.NewPCG(3, uint64(i)))
		f := someFacts(rng)
		p := dig(&f, rng)
		p.plants, p.gas, p.fish, p.dirt = 0, 0, 0, 0
		p.now.tan = 2
		sum := func() float64 {
			s := p.now.tan + p.now.no2 + p.now.no3 + p.now.food + p.now.soil
			for _, b := range p.now.bio {
				s += b
			}
			return s
		}
		before := sum()
		p.to(40)
		if after := sum(); math.Abs(after-before) > 1e-3*before {
			t.Errorf("tank %d: %.4f mg N/L became %.4f", i, before, after)
		}
	}
}

// TestStagesPick: even a forecaster who is right, and is told that the tank is not
// done yet, misses the mark at stages of the true way when it knows little. Here
// log(done day) is normal about what it knows, with a spread of 0.8 (a factor of 2.8 from
// p10 to p50): by drawing, its 80 % interval holds about nine in ten at half the
// way, and at 80 % of the way under three in four, nearly all misses before the interval. On
// a day of the calendar it is right, by the definition of chance.
func TestStagesPick(t *testing.T) {
	const spread, n = 0.8, 20000
	by := func(z float64) float64 { return 0.5 * math.Erfc(-z/math.Sqrt2) }
	at := func(now func(done float64) float64) (held, before float64) {
		rng := rand.New(rand.NewPCG(7, 7))
		asked := 0.0
		for range n {
			z := rng.NormFloat64()
			past := math.Log(now(math.Exp(spread*z))) / spread
			if past >= z {
				continue // done already
			}
			asked++
			switch level := (by(z) - by(past)) / (1 - by(past)); {
			case level < 0.1:
				before++
			case level <= 0.9:
				held++
			}
		}
		return held / asked, before / asked
	}
	for _, x := range []struct {
		name      string
		now       func(done float64) float64
		low, high float64
	}{
		{"half the way", func(d float64) float64 { return 0.5 * d }, 0.86, 0.92},
		{"80 % of the way", func(d float64) float64 { return 0.8 * d }, 0.68, 0.77},
		{"a day that is soon", func(float64) float64 { return 0.5 }, 0.78, 0.82},
		{"a day that is late", func(float64) float64 { return 1.5 }, 0.78, 0.82},
	} {
		held, before := at(x.now)
		t.Logf("asked at %s: held %.0f %%, before %.0f %%", x.name, 100*held, 100*before)
		if held < x.low || held > x.high {
			t.Errorf("asked at %s a right 80 %% interval holds %.3f, want %.2f to %.2f", x.name, held, x.low, x.high)
		}
	}
}
