package commands

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// typicalTarget is the dose that must clear within a day, of the command book.
const typicalTarget unit.MgIon = 2

// typical returns the set-up that s describes, with the engine's typical values
// for what it leaves out; the engine knows that they were not given and keeps
// its doubt wide.
func typical(s statement) model.Setup {
	t := model.Setup{Target: typicalTarget.N(unit.Ammonia)}
	put(&t.Method, s.Method, nil)
	if t.Method == model.Planted {
		t.Plants = model.ManySlow
	}
	s.merge(&t)
	return model.Typical(t)
}
