package model

import (
	"fmt"
	"runtime"
	"testing"
	"unsafe"

	"ripen/engine/unit"
)

// typicalCase is a dosed tank of 60 L, everything right.
func typicalCase() Case {
	s := Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 26, Media: Sponge, MediaVolume: 0.6,
		Flow: Normal, Conditioner: true}
	s.Given = Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	return Case{Setup: s}
}

// typicalParams are central parameters with the seeds of an ordinary tank.
func typicalParams() Params {
	p := Central()
	p.Seed = [Guilds]float64{AOB: 0.016, AOA: 0.016, CMX: 0.01, NOB: 0.016}
	return p
}

// BenchmarkTrajectory60 is one draw over 60 days with a dose every day from day
// 8, clear or not.
func BenchmarkTrajectory60(b *testing.B) { everyDay(b, func(*Run) {}) }

// BenchmarkTrajectory60Coarse is the same for the fit.
func BenchmarkTrajectory60Coarse(b *testing.B) { everyDay(b, (*Run).Coarse) }

// dailyDosed is the typical tank with a dose every day from day 8.
func dailyDosed() Case {
	c, _ := Complete(typicalCase(), 60)
	for d := 8; d < 60; d++ {
		c.Events = append(c.Events, Event{Day: unit.Days(d), Kind: Dose, N: 1})
	}
	return c
}

func everyDay(b *testing.B, how func(*Run)) {
	p := NewPlan(dailyDosed(), 60)
	par := typicalParams()
	var r Run
	b.ReportAllocs()
	for b.Loop() {
		r.Reset(p, &par)
		how(&r)
		r.To(60, nil)
	}
	b.ReportMetric(float64(r.Steps), "steps/op")
}

// BenchmarkTrajectoryHabit60 is one draw over 60 days as keepers go on: a dose
// whenever the last is clear and a third of the water every week.
func BenchmarkTrajectoryHabit60(b *testing.B) {
	c, _ := Complete(typicalCase(), 0)
	p := NewPlan(c, 0)
	p.Habit.Change, p.Habit.Interval = 0.33, 7
	par := typicalParams()
	var r Run
	b.ReportAllocs()
	for b.Loop() {
		r.Reset(p, &par)
		r.Watch(60, func(int, Pools) {})
	}
	b.ReportMetric(float64(r.Steps), "steps/op")
}

// BenchmarkFinish is one draw from the start to a passed challenge.
func BenchmarkFinish(b *testing.B) {
	c, _ := Complete(typicalCase(), 0)
	p := NewPlan(c, 0)
	par := typicalParams()
	var r Run
	b.ReportAllocs()
	for b.Loop() {
		r.Reset(p, &par)
		r.Finish(0, nil)
	}
}

// BenchmarkTrajectory60Abreast is BenchmarkTrajectory60 of as many draws as are taken
// along at once, on one core, for each width that the machine has.
func BenchmarkTrajectory60Abreast(b *testing.B) {
	p := NewPlan(dailyDosed(), 60)
	par := typicalParams()
	widest := wide
	defer func() { wide = widest }()
	for _, wide = range available() {
		b.Run(fmt.Sprint(wide.lanes), func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1)) // here, since Run sets it
			b.ReportAllocs()
			Each(b.N, func(on *Lane) func(int) {
				r := on.Run()
				return func(int) {
					r.Reset(p, &par)
					r.To(60, nil)
				}
			})
		})
	}
}

// TestRunSize keeps runs, of which a fit holds thousands, within the size class of 2048
// bytes, of which four fill a page of 8192.
func TestRunSize(t *testing.T) {
	if n := unsafe.Sizeof(Run{}); n > 2048 {
		t.Errorf("a run takes %d bytes; above 2048 each is given 2304", n)
	}
}
