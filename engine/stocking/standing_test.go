package stocking

import (
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// TestStanding: ammonia that the last two tests show, though no draw explains it, keeps
// animals out, as the outlook has it.
func TestStanding(t *testing.T) {
	c := read(16, func(*model.Setup) {})
	zero := func() *model.Seen { return new(model.Seen) }
	for _, day := range []float64{20, 21, 22} {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(day), Ammonia: zero(), Nitrite: zero()})
	}
	calm := must(t, fit.Fit(c, 23, fit.Hypothesis{}, 512), Wish{Animals: 20})
	for _, day := range []float64{50, 53} {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(day), Ammonia: &model.Seen{Low: 2, High: 2}, Nitrite: zero()})
	}
	p := fit.Fit(c, 53.5, fit.Hypothesis{}, 512)
	if outlook.Stands(p) == nil {
		t.Fatal("nothing stands")
	}
	if a := must(t, p, Wish{Animals: 20}); calm.Now == "wait" || a.Now != "wait" || len(a.Steps) > 0 && a.Steps[0].Day < 56 {
		t.Errorf("%s before, %s with ammonia of 2 mg/L, steps %v", calm.Now, a.Now, a.Steps)
	}
}
