package advise

import (
	"fmt"
	"hash/fnv"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/pool"
	"ripen/engine/unit"
)

// Learned returns an engine that takes what the tanks of a club taught into account. It
// shares the memory of e, in which its answers stand apart.
func (e *Engine) Learned(p pool.Prior) *Engine {
	x := *e
	h := fnv.New64a()
	fmt.Fprintf(h, "%+v", p)
	x.prior, x.taught = p, h.Sum64()
	return &x
}

// Says returns what a tank's log up to now says of what it began with, for pool.Learn.
func (e *Engine) Says(c model.Case, now unit.Days) pool.Tank {
	plan, assumed := e.ready(c, now)
	defer e.long.take()()
	return pool.Of(e.fits.FitPlan(plan, assumed, fit.Hypothesis{}, fit.Draws))
}

// fit fits a plan and takes in what was learnt.
func (e *Engine) fit(plan *model.Plan, assumed []string) *fit.Posterior {
	return e.prior.Apply(e.fits.FitPlan(plan, assumed, fit.Hypothesis{}, fit.Draws))
}
