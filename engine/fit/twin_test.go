package fit

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestTwins: draws that share a run are draws for which the whole way would be the
// same, whatever happened to the tank since its last renewal.
func TestTwins(t *testing.T) {
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 60, PH: 7.4, Temp: 25, Media: model.Sponge, Plants: model.FewSlow})}
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	c.Events = []model.Event{{Kind: model.Dose, N: c.Setup.Target}, {Day: 9, Kind: model.WaterChange, Fraction: 0.5, Treated: model.No},
		{Day: 15, Kind: model.Cleaned, Harsh: true}, {Day: 17, Kind: model.Dose, N: c.Setup.Target}}
	for d, v := range []float64{2, 2, 2, 2, 1, 1, 0.5, 0.25, 0.25, 0, 0, 0, 0, 0, 0, 0, 0, 2, 2, 1} {
		r := model.Reading{Day: unit.Days(d + 1), Ammonia: seen(v)}
		if d > 11 {
			r.Nitrate = seen(10)
		}
		c.Readings = append(c.Readings, r)
	}
	for _, now := range []unit.Days{8, 12, 20} {
		p := Fit(c, now, Hypothesis{}, 512)
		twins := 0
		for i, j := range p.at {
			if i == j {
				continue
			}
			twins++
			run := p.Plan.Start(&p.Draws[i])
			run.Coarse()
			run.To(float64(now), nil)
			if got, want := p.runs[j].State, run.State; got != want {
				t.Fatalf("day %v: draw %d shares the run of %d, which stands at %+v, but by itself stands at %+v", now, i, j, got, want)
			}
		}
		if twins < 50 {
			t.Errorf("day %v: only %d draws share a run", now, twins)
		}
	}
}
