package advise

import (
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Gain fits the case as known at now, in days since the start, and says what one of
// its events saves against not having been done. Errors are those of tryout.GainOf.
func (e *Engine) Gain(c model.Case, now unit.Days, of model.Event) (tryout.Gain, error) {
	plan, assumed := ready(c, now)
	return tryout.GainOf(e.fits.FitPlan(plan, assumed, fit.Hypothesis{}, fit.Draws), of)
}
