package advise

import (
	"ripen/engine/model"
	"ripen/engine/stocking"
	"ripen/engine/unit"
)

// Stock says how much the case carries at now, in days since the start, and in
// which stages what is wished may go in. The error is that of stocking.Of.
func (e *Engine) Stock(c model.Case, now unit.Days, w stocking.Wish) (stocking.Advice, error) {
	plan, assumed := e.ready(c, now)
	defer e.long.take()()
	return stocking.Of(e.fit(plan, assumed), w)
}
