package advise

import (
	"slices"
	"testing"
	"time"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// monthOfReadings is a dosed tank that nitrifies as the central parameters say,
// read daily for n days off ordinary charts, dosed when it is clear, with weekly
// water changes after four weeks.
func monthOfReadings(n int, change func(*model.Setup)) model.Case {
	s := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 22, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	change(&s)
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	par := model.Central()
	par.Seed = [model.Guilds]float64{model.AOB: 0.01, model.AOA: 0.01, model.CMX: 0.01, model.NOB: 0.004}
	for d := 1; d <= n; d++ {
		r := model.NewPlan(c, unit.Days(d)).Start(&par)
		r.To(float64(d), nil)
		q := r.State.Pools()
		look := func(sp unit.Species) *model.Seen {
			v, top := kit.For(model.Liquid, sp).Nearest(float64(q.N(sp).Ion(sp)))
			return &model.Seen{Low: v, High: v, Over: top}
		}
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(d),
			Ammonia: look(unit.Ammonia), Nitrite: look(unit.Nitrite), Nitrate: look(unit.Nitrate)})
		if d >= 28 && d%7 == 0 {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.WaterChange, Fraction: 0.4})
		}
		if q.N(unit.Ammonia) < model.ClearTAN {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		}
	}
	return c
}

func benchmarkOutlook(b *testing.B, c model.Case, now unit.Days) {
	benchmarkOutlookOf(b, new(Engine), c, now)
}

func benchmarkOutlookOf(b *testing.B, e *Engine, c model.Case, now unit.Days) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.Outlook(c, now); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOutlook30 is an outlook from nothing with 30 readings; the mark is
// half a second on two cores.
func BenchmarkOutlook30(b *testing.B) {
	benchmarkOutlook(b, monthOfReadings(30, func(*model.Setup) {}), 30)
}

// BenchmarkFit30 is the fit of those readings alone; the mark is 16 MB of all that it allocates.
func BenchmarkFit30(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	b.ReportAllocs()
	for b.Loop() {
		fit.Fit(c, 30, fit.Hypothesis{}, fit.Draws)
	}
}

// BenchmarkOutlook60 is the same with 60 daily readings, on tanks of several
// waters that are done sooner or later or not at all. It prints the median and
// the highest of their times; the mark is 150 ms.
func BenchmarkOutlook60(b *testing.B) {
	var cases []model.Case
	for _, ph := range []float64{6.6, 7.0, 7.4, 7.8} {
		for _, temp := range []unit.Celsius{20, 24, 28} {
			cases = append(cases, monthOfReadings(60, func(s *model.Setup) { s.PH, s.Temp, s.KH = ph, temp, unit.DKH(2*ph-8).CaCO3() }))
		}
	}
	var took []float64
	for b.Loop() {
		for _, c := range cases {
			start := time.Now()
			if _, err := new(Engine).Outlook(c, 60); err != nil {
				b.Fatal(err)
			}
			took = append(took, time.Since(start).Seconds()*1000)
		}
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "ms-median")
	b.ReportMetric(took[len(took)-1], "ms-most")
}

// BenchmarkOutlookStuck is the same for a tank that most draws never finish,
// the most work that an outlook can be.
func BenchmarkOutlookStuck(b *testing.B) {
	benchmarkOutlook(b, monthOfReadings(30, func(s *model.Setup) { s.Media, s.MediaVolume = model.NoMedia, 0 }), 30)
}

// BenchmarkWhy30 is a diagnosis from nothing with 30 readings.
func BenchmarkWhy30(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	for b.Loop() {
		if _, _, err := new(Engine).Why(c, 30); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOneMoreReading is an outlook with a thirtieth reading when the first
// 29 were fitted before.
func BenchmarkOneMoreReading(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	before := upTo(c, 29)
	for b.Loop() {
		b.StopTimer()
		e := New(4)
		if _, err := e.Outlook(before, 29); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
		if _, err := e.Outlook(c, 30); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkUnchanged is an outlook that was given before.
func BenchmarkUnchanged(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	e := New(4)
	if _, err := e.Outlook(c, 30); err != nil {
		b.Fatal(err)
	}
	benchmarkOutlookOf(b, e, c, 30)
}

// BenchmarkNextTest30 is what to test next from nothing with 30 readings.
func BenchmarkNextTest30(b *testing.B) {
	c := monthOfReadings(30, func(*model.Setup) {})
	for b.Loop() {
		if _, _, err := new(Engine).NextTest(c, 30); err != nil {
			b.Fatal(err)
		}
	}
}
