package advise

import (
	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Tryout fits the case as known at now, in days since the start, and compares going
// on as now with the changes, each alone and all together. Errors are those of
// tryout.Of.
func (e *Engine) Tryout(c model.Case, now unit.Days, changes ...tryout.Change) (tryout.Result, error) {
	plan, assumed := e.ready(c, now)
	defer e.long.take()()
	return tryout.Of(e.fit(plan, assumed), changes...)
}
