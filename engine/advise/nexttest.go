package advise

import (
	"ripen/engine/model"
	"ripen/engine/nexttest"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// NextTest fits the case as known at now, in days since the start, and says which
// reading on which day tells most about its done day; it returns the outlook too.
// The error is nil today, as with Outlook.
func (e *Engine) NextTest(c model.Case, now unit.Days) (nexttest.Advice, outlook.Outlook, error) {
	plan, assumed := e.ready(c, now)
	k := e.keyOf(plan)
	defer e.long.take()()
	o, known := e.outlooks.get(k)
	p := e.fit(plan, assumed)
	if !known {
		o = outlook.Of(p)
		e.outlooks.put(k, o)
	}
	return nexttest.Of(p), o, nil
}
