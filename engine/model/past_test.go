package model

import (
	"math"
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
