package fit

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// thirtyReadings is a dosed tank read daily over a month, in the middle of its
// nitrite stage.
func thirtyReadings() model.Case {
	s := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 24, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	c := model.Case{Setup: s}
	am := []float64{2, 2, 2, 2, 2, 2, 1, 1, 1, 0.5, 0.5, 0.25, 0, 1, 0.5, 0, 1, 0.25, 0, 1, 0, 1, 0, 0.5, 0, 0.5, 0, 0.25, 0, 0.25}
	ni := []float64{0, 0, 0, 0, 0.25, 0.25, 0.5, 0.5, 1, 1, 2, 2, 2, 2, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 2, 2, 1}
	na := []float64{5, 5, 5, 5, 5, 5, 5, 5, 5, 5, 10, 10, 10, 10, 10, 20, 20, 20, 20, 20, 20, 40, 40, 40, 40, 40, 40, 40, 80, 80}
	dose := unit.MgIon(2).N(unit.Ammonia)
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: dose})
	for i := range am {
		d := unit.Days(i + 1)
		at := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
		c.Readings = append(c.Readings, model.Reading{Day: d, Ammonia: at(am[i]), Nitrite: at(ni[i]), Nitrate: at(na[i])})
		if am[i] == 0 {
			c.Events = append(c.Events, model.Event{Day: d, Seq: 1, Kind: model.Dose, N: dose})
		}
	}
	return c
}

// BenchmarkFit30 is a full fit from nothing with 30 readings.
func BenchmarkFit30(b *testing.B) {
	c := thirtyReadings()
	b.ReportAllocs()
	for b.Loop() {
		p := Fit(c, 30, Hypothesis{}, Draws)
		b.ReportMetric(float64(p.Passes), "passes/op")
		b.ReportMetric(p.Accepted, "accepted")
	}
}
