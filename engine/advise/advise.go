// Package advise is the engine's front door: a tank's log in, an outlook or a
// diagnosis out.
package advise

import (
	"ripen/engine/diagnose"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Engine answers questions about tanks. The zero value is ready.
type Engine struct{}

// Outlook fits the case as known at now, in days since the start, and projects
// it. A now before the start counts as the start.
func (Engine) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	_, o := project(c, now)
	return o, nil
}

// Why diagnoses the case as known at now.
func (Engine) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	p, o := project(c, now)
	return diagnose.Of(p, o), o, nil
}

func project(c model.Case, now unit.Days) (*fit.Posterior, outlook.Outlook) {
	p := fit.Fit(c, max(now, 0), fit.Hypothesis{}, fit.Draws)
	return p, outlook.Of(p)
}
