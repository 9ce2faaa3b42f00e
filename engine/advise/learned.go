package advise

import (
	"ripen/engine/diagnose"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Learned returns an engine that takes what the tanks of a club taught into account. It
// shares the fits of e, which know nothing of clubs, and remembers its own answers.
func (e *Engine) Learned(p pool.Prior) *Engine {
	x := *e
	x.prior = p
	x.outlooks, x.whys, x.gains = newRecent[outlook.Outlook](256), newRecent[diagnose.Diagnosis](256), newRecent[tryout.Gain](256)
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
