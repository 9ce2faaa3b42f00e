package tryout

import (
	"errors"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// ErrNotLogged says that an event is not in the log that was fitted.
var ErrNotLogged = errors.New("the event is not in the log")

// Gain is what something that was done saves against not having done it.
type Gain struct {
	Saved     outlook.Quantiles // days, below zero for days lost; never nil. Days past the horizon do not count
	Helps     float64           // chance that it saves half a day or more
	Harms     float64           // chance that it costs half a day or more
	NotWithin float64           // chance that the tank is not done by the horizon, with it
	Lives     *Lives            // of a seed, how much lives on
}

// GainOf reruns a fitted tank without one of its events, known by its kind, Day and
// Seq. Before any reading that is what is expected of it; after readings, what the
// draws that agree with them owe to it. The error is ErrNotLogged.
func GainOf(p *fit.Posterior, e model.Event) (Gain, error) {
	p = p.Thin(draws)
	c := p.Plan.Case
	i := slices.IndexFunc(c.Events, func(x model.Event) bool { return x.Kind == e.Kind && x.Day == e.Day && x.Seq == e.Seq })
	if i < 0 || float64(e.Day) > p.Plan.Now {
		return Gain{}, ErrNotLogged
	}
	e = c.Events[i]
	with := rerun(p, c) // from the start, as without
	c.Events = slices.Delete(slices.Clone(c.Events), i, i+1)
	done := doneFrom(with, float64(e.Day))
	g := Gain{NotWithin: late(done, p.Plan.End())}
	g.Saved, g.Helps, g.Harms = compared(doneFrom(rerun(p, c), float64(e.Day)), done)
	if e.Kind == model.Seed {
		g.Lives = lives(with, e)
	}
	return g, nil
}

// rerun is a posterior on another case.
func rerun(p *fit.Posterior, c model.Case) *fit.Posterior {
	q := *p
	q.Plan = model.NewPlan(c, unit.Days(p.Plan.Now))
	return &q
}
