package stocking

import (
	"sync"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// read is a tank that nitrifies as the central parameters say; see kept.
func read(n int, change func(*model.Setup)) model.Case {
	par := model.Central()
	par.Seed = [model.Guilds]float64{model.AOB: 0.02, model.AOA: 0.02, model.CMX: 0.01, model.NOB: 0.01}
	return kept(n, change, &par, func() float64 { return 1 })
}

// kept is a tank read daily for n days off ordinary charts, misread by a factor, and
// dosed when it is clear, up to two days before the last.
func kept(n int, change func(*model.Setup), par *model.Params, misread func() float64) model.Case {
	s := model.Setup{Volume: 100, PH: 7.5, KH: unit.DKH(7).CaCO3(), Temp: 25, Media: model.Sponge, MediaVolume: 1, Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	change(&s)
	c := model.Case{Setup: model.Typical(s)}
	if s.Method == model.Dosed {
		c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	}
	for d := 1; d <= n; d++ {
		r := model.NewPlan(c, unit.Days(d)).Start(par)
		r.To(float64(d), nil)
		q := r.State.Pools()
		look := func(sp unit.Species) *model.Seen {
			v, top := kit.For(model.Liquid, sp).Nearest(float64(q.N(sp).Ion(sp)) * misread())
			return &model.Seen{Low: v, High: v, Over: top}
		}
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(d),
			Ammonia: look(unit.Ammonia), Nitrite: look(unit.Nitrite), Nitrate: look(unit.Nitrate)})
		if s.Method == model.Dosed && d < n-1 && q.N(unit.Ammonia) < model.ClearTAN && q.N(unit.Nitrite) < 5*model.ClearNO2 {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		}
	}
	return c
}

func plain(*model.Setup) {}

// fitted fits a tank with fewer draws than answers have, to be quick.
func fitted(c model.Case, now unit.Days) *fit.Posterior {
	return fit.Fit(c, now, fit.Hypothesis{}, 512)
}

// ready is a tank on day 22 that clears its dose within a day.
var ready = sync.OnceValue(func() *fit.Posterior { return fitted(read(22, plain), 22) })
