package study

import (
	"math/rand/v2"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// kept is a tank that runs by the model itself: its log, and the draw of the
// prior that made it.
type kept struct {
	plan  *model.Plan
	hyp   fit.Hypothesis
	truth fit.Scores
}

// keepTank draws a tank from the prior and keeps it: readings come from the
// model's own likelihood, and whatever the keeper does next depends on these
// readings and on chance alone, never on the hidden state. Were it otherwise,
// the log would tell more than the likelihood knows, and ranks could not be
// uniform.
func keepTank(rng *rand.Rand) kept {
	now := 4 + rng.IntN(32)
	k := kept{hyp: supposed(rng, now)}
	k.hyp.Independent = true // as Read draws them
	for i := range k.truth {
		k.truth[i] = rng.NormFloat64()
	}
	c := model.Case{Setup: someSetup(rng)}
	dosed := c.Setup.Method == model.Dosed || c.Setup.Method == model.Seeded
	gap, weekly := 1+rng.IntN(4), rng.Float64() < 0.4
	tool := model.Liquid
	if rng.Float64() < 0.25 {
		tool = model.Strip
	}
	log := func(day, seq int, e model.Event) {
		e.Day, e.Seq = unit.Days(day), seq
		c.Events = append(c.Events, e)
	}
	switch {
	case c.Setup.Method == model.Seeded:
		log(0, 0, model.Event{Kind: model.Seed})
	case rng.Float64() < 0.2:
		log(0, 0, model.Event{Kind: model.Culture})
	}
	if dosed {
		log(0, 1, model.Event{Kind: model.Dose, N: c.Setup.Target})
	}
	for day := 1; day <= now; day++ {
		if rng.Float64() < 0.008 {
			log(day, 0, model.Event{Kind: []model.EventKind{model.Cleaned, model.Outage, model.Medicine}[rng.IntN(3)]})
		}
		if weekly && day%7 == 0 {
			log(day, 1, model.Event{Kind: model.WaterChange, Fraction: 0.3, Treated: model.Treated(rng.IntN(3))})
		}
		if day%gap != 0 {
			continue
		}
		d := fit.NewDensity(model.NewPlan(c, unit.Days(day)), k.hyp)
		par := d.Params(&k.truth)
		run := model.NewPlan(c, unit.Days(day)).Start(&par)
		run.To(float64(day), nil)
		seen := d.Read(run.State.Pools(), tool, &k.truth, rng)
		for sp := range seen {
			if rng.Float64() < 0.1 { // not read today
				seen[sp] = nil
			}
		}
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(day), Seq: 2, Kit: tool,
			Ammonia: seen[unit.Ammonia], Nitrite: seen[unit.Nitrite], Nitrate: seen[unit.Nitrate]})
		if a := seen[unit.Ammonia]; dosed && a != nil && a.Low <= 0.25 {
			log(day, 3, model.Event{Kind: model.Dose, N: c.Setup.Target, Salt: rng.Float64() < 0.5})
		}
	}
	k.plan = model.NewPlan(c, unit.Days(now))
	return k
}

// supposed draws a hypothesis: mostly none.
func supposed(rng *rand.Rand, now int) (h fit.Hypothesis) {
	switch u := rng.Float64(); {
	case u < 0.1:
		h.Unseen, h.To = true, float64(now)
	case u < 0.15:
		h.Bound = true
	case u < 0.2:
		h.Phosphate = true
	}
	return h
}

// someSetup draws a set-up of any kind, some of its facts left unstated.
func someSetup(rng *rand.Rand) model.Setup {
	volume := unit.Litres(20 + 180*rng.Float64())
	s := model.Setup{
		Volume: volume, PH: 6.4 + 1.8*rng.Float64(), Temp: unit.Celsius(19 + 10*rng.Float64()),
		KH: unit.DKH(2 + 8*rng.Float64()).CaCO3(), Method: model.Method(rng.IntN(6)), Plants: model.Plants(rng.IntN(4)),
		Media: model.Media(1 + rng.IntN(5)), MediaVolume: volume * unit.Litres(0.003+0.02*rng.Float64()),
		Flow: model.Flow(rng.IntN(3)), Source: model.Source(rng.IntN(5)),
	}
	stated := func() bool { return rng.Float64() < 0.75 }
	s.Given = model.Given{PH: stated(), KH: stated(), Temp: true, Media: stated(), MediaVolume: stated(),
		Flow: stated(), Source: true}
	return model.Typical(s)
}
