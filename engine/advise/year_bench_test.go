package advise

import (
	"slices"
	"testing"
	"time"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// yearOfReadings is a dosed tank that nitrifies as the central parameters say, read n
// times in so many days off ordinary charts. It is dosed whenever it is clear for two
// months; then animals come in, and a third of the water is changed every week.
func yearOfReadings(n int, days float64, change func(*model.Setup)) model.Case {
	s := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 22, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	change(&s)
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	par := model.Central()
	par.Seed = [model.Guilds]float64{model.AOB: 0.01, model.AOA: 0.01, model.CMX: 0.01, model.NOB: 0.004}
	week := 61
	for i := 1; i <= n; i++ {
		d := unit.Days(days * float64(i) / float64(n))
		r := model.NewPlan(c, d).Start(&par)
		r.To(float64(d), nil)
		q := r.State.Pools()
		look := func(sp unit.Species) *model.Seen {
			v, top := kit.For(model.Liquid, sp).Nearest(float64(q.N(sp).Ion(sp)))
			return &model.Seen{Low: v, High: v, Over: top}
		}
		c.Readings = append(c.Readings, model.Reading{Day: d,
			Ammonia: look(unit.Ammonia), Nitrite: look(unit.Nitrite), Nitrate: look(unit.Nitrate)})
		switch {
		case d <= 60 && q.N(unit.Ammonia) < model.ClearTAN:
			c.Events = append(c.Events, model.Event{Day: d, Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		case float64(d) >= float64(week):
			if week == 61 {
				c.Events = append(c.Events, model.Event{Day: d, Seq: 1, Kind: model.Stocked, Mass: 30})
			}
			c.Events = append(c.Events, model.Event{Day: d, Seq: 2, Kind: model.WaterChange, Fraction: 1. / 3, Treated: model.Yes})
			week += 7
		}
	}
	return c
}

// BenchmarkYear500 is an outlook from nothing with 500 readings over a year, against
// one with 60 over two months of the same tank, on several waters. It prints the median and the highest
// ratio of their times; the mark is two.
func BenchmarkYear500(b *testing.B) {
	type tank struct{ short, year model.Case }
	var tanks []tank
	for _, ph := range []float64{6.8, 7.4, 7.8} {
		for _, temp := range []unit.Celsius{20, 22, 24, 26} {
			water := func(s *model.Setup) { s.PH, s.Temp, s.KH = ph, temp, unit.DKH(2*ph-8).CaCO3() }
			tanks = append(tanks, tank{yearOfReadings(60, 60, water), yearOfReadings(500, 365, water)})
		}
	}
	took := func(c model.Case, now unit.Days) float64 {
		start := time.Now()
		if _, err := new(Engine).Outlook(c, now); err != nil {
			b.Fatal(err)
		}
		return time.Since(start).Seconds() * 1000
	}
	var year, ratio []float64
	for b.Loop() {
		for _, t := range tanks {
			y := took(t.year, 365)
			year, ratio = append(year, y), append(ratio, y/took(t.short, 60))
		}
	}
	slices.Sort(year)
	slices.Sort(ratio)
	b.ReportMetric(year[len(year)/2], "ms-median")
	b.ReportMetric(ratio[len(ratio)/2], "times-median")
	b.ReportMetric(ratio[len(ratio)-1], "times-most")
}
