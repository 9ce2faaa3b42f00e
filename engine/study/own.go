package study

import (
	"math/rand/v2"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// own is a tank that follows the engine's own laws, drawn from the prior of what
// its keeper states: what outlooks reach on it, they reach for want of readings
// and by the ways of keepers alone, not for want of the right laws.
type own struct {
	run   *model.Run
	set   *model.Setup
	alk0  float64
	seeds [2]float64 // scores of what it began with
}

// newOwn draws such a tank.
func newOwn(set *model.Setup, rng *rand.Rand) *own { return newOwnOf(set, rng, 0, 1) }

// newOwnOf draws a tank of a club whose tanks begin with other seeds than the prior has:
// their scores are normal with that mean and spread.
func newOwnOf(set *model.Setup, rng *rand.Rand, mean, spread float64) *own {
	plan := model.NewPlan(model.Case{Setup: *set}, horizon+1) // nothing is planned: the keeper does it all
	d := fit.NewDensity(plan, fit.Hypothesis{})
	var x fit.Scores
	for i := range x {
		x[i] = rng.NormFloat64()
	}
	var seeds [2]float64
	for k, i := range fit.Seeds {
		x[i] = mean + spread*x[i]
		seeds[k] = x[i]
	}
	par := d.Params(&x)
	par.Dose = 1 // keepers here err by themselves
	o := &own{run: plan.Start(&par), set: set, seeds: seeds}
	o.alk0 = o.run.State.Alk
	return o
}

func (o *own) to(day float64)              { o.run.To(day, nil) }
func (o *own) trial(float64, bool) float64 { return o.run.Challenge() }
func (o *own) carries() float64            { return o.run.Challenge() }
func (o *own) ph() float64                 { return o.run.PH() }
func (o *own) temp() float64               { return float64(o.set.Temp) }
func (o *own) fast(bool)                   {}

func (o *own) pools() (tan, no2, no3 float64) {
	s := &o.run.State
	return s.TAN, s.NO2, s.NO3
}

func (o *own) alkalinity() (meq, share float64) {
	return o.run.State.Alk, o.run.State.Alk / o.alk0
}

func (o *own) dose(n float64) { o.run.Do(model.Event{Kind: model.Dose, N: unit.MgN(n)}) }

func (o *own) change(share float64) {
	o.run.Do(model.Event{Kind: model.WaterChange, Fraction: share, Treated: model.Yes})
}

func (o *own) lose(share float64) {
	o.run.Do(model.Event{Kind: model.Cleaned, Fraction: share, Harsh: true})
}

func (o *own) seed(culture bool, _ float64, _ *rand.Rand) {
	if culture {
		o.run.Do(model.Event{Kind: model.Culture})
		return
	}
	o.run.Do(model.Event{Kind: model.Seed})
}
