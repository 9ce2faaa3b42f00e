package advise

import (
	"fmt"
	"hash/fnv"

	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Gain fits the case as known at now, in days since the start, and says what one of
// its events saves against not having been done. Errors are those of tryout.GainOf.
func (e *Engine) Gain(c model.Case, now unit.Days, of model.Event) (tryout.Gain, error) {
	plan, assumed := e.ready(c, now)
	k := e.keyOf(plan)
	h := fnv.New64a()
	fmt.Fprint(h, k.log, of.Kind, float64(of.Day), of.Seq)
	k.log = h.Sum64()
	if g, ok := e.gains.get(k); ok {
		return g, nil
	}
	defer e.long.take()()
	g, err := tryout.GainOf(e.fit(plan, assumed), of)
	if err == nil {
		e.gains.put(k, g)
	}
	return g, err
}
