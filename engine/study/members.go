package study

import (
	"math/rand/v2"

	"ripen/engine/model"
)

// Kept is a tank as its keeper told of it, and when it was truly done.
type Kept struct {
	Kind string
	Told model.Case // until two daily trials in a row passed
	Done float64    // days since the start; 180 when Late
	Late bool       // it was not done by then
	// Of tanks of the engine's own laws: the true scores of what it began with, as fit.Seeds.
	Seeds [2]float64
}

// Club draws the members of a simulated club.
type Club struct {
	Seed uint64
	Own  bool // the tanks follow the engine's own laws, else wider ones
	// Of tanks of the engine's own laws: mean and spread of the scores of what they begin
	// with, 0 and 1 for those of the general prior.
	Mean, Spread float64
}

// Member draws member i and keeps the tank to its end. The same club and number give the
// same.
func (c Club) Member(i int) Kept {
	rng := rand.New(rand.NewPCG(c.Seed, uint64(i)+1<<33))
	var ours func(*model.Setup, *rand.Rand) *own
	var seeds [2]float64
	if c.Own {
		ours = func(s *model.Setup, rng *rand.Rand) *own {
			o := newOwnOf(s, rng, c.Mean, c.Spread)
			seeds = o.seeds
			return o
		}
	}
	w := keepAny(rng, ours, false)
	return Kept{w.kind, w.told, w.done, w.late, seeds}
}
