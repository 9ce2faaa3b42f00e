package nexttest

import (
	"math"
	"reflect"
	"runtime"
	"slices"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// read is a log in which a tank of few bacteria was read with a liquid kit on
// these days, dosed on day 0 and whenever it was read clear.
func read(days []float64, change func(*model.Setup)) model.Case {
	s := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	change(&s)
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	par := model.Central()
	par.Seed = [model.Guilds]float64{model.AOB: 0.02, model.AOA: 0.02, model.CMX: 0.005, model.NOB: 0.002}
	for _, d := range days {
		r := model.NewPlan(c, unit.Days(d)).Start(&par)
		r.To(d, nil)
		q := r.State.Pools()
		look := func(sp unit.Species) *model.Seen {
			v, top := kit.For(model.Liquid, sp).Nearest(float64(q.N(sp).Ion(sp)))
			return &model.Seen{Low: v, High: v, Over: top}
		}
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(d),
			Ammonia: look(unit.Ammonia), Nitrite: look(unit.Nitrite), Nitrate: look(unit.Nitrate)})
		if q.N(unit.Ammonia) < model.ClearTAN {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		}
	}
	return c
}

func asRegistered(*model.Setup) {}

// fitted fits such a log with few draws.
func fitted(days []float64, now unit.Days, change func(*model.Setup)) *fit.Posterior {
	return fit.Fit(read(days, change), now, fit.Hypothesis{}, 512)
}

var nitriteStage = []float64{2, 5, 8, 11}

// TestNeverTellsLessThanNothing: no reading on any day tells less than nothing
// beyond what so many draws leave open, and none more than there is to know.
func TestNeverTellsLessThanNothing(t *testing.T) {
	for _, x := range []struct {
		name   string
		days   []float64
		now    unit.Days
		change func(*model.Setup)
	}{
		{"new", nil, 0.3, asRegistered},
		{"new, nothing told", nil, 0.3, func(s *model.Setup) { s.Given = model.Given{} }},
		{"nitrite stage", nitriteStage, 12.4, asRegistered},
		{"fish in", nitriteStage, 11, func(s *model.Setup) { s.Method = model.FishIn }},
		{"nearly done", []float64{3, 7, 11, 15, 19, 23, 27}, 27.5, asRegistered},
	} {
		a := Of(fitted(x.days, x.now, x.change))
		if n := len(a.Coming); n != Days*len(senses) || len(a.Today) != len(senses) {
			t.Fatalf("%s: %d readings to come and %d today", x.name, n, len(a.Today))
		}
		for _, c := range append(a.Today, a.Coming...) {
			if c.Bits < -4*c.Err-1e-9 || c.Bits > a.Entropy+1e-9 {
				t.Errorf("%s: %s on day %g tells %.4f +- %.4f bits of %.2f", x.name, c.What, c.Day, c.Bits, c.Err, a.Entropy)
			}
			if c.Day < a.Now || c.Day > a.Now+Days || c.Low > c.High {
				t.Errorf("%s: %s on day %g shows %g to %g", x.name, c.What, c.Day, c.Low, c.High)
			}
			if w := c.After; !(w.P10 >= a.Now-1e-9 && w.P10 <= w.P50 && w.P50 <= w.P90 && w.P90 <= a.Horizon+1e-9) {
				t.Errorf("%s: after %s on day %g: %+v", x.name, c.What, c.Day, w)
			}
			if c.If != nil && math.Abs(c.If[0].Chance+c.If[1].Chance-1) > 1e-9 {
				t.Errorf("%s: %s on day %g: the sides add up to %g", x.name, c.What, c.Day, c.If[0].Chance+c.If[1].Chance)
			}
		}
	}
}

// TestNitriteStage: while nitrite stands, nitrite tells most, on every day more
// than nitrate does; what was read hours ago tells nothing anew.
func TestNitriteStage(t *testing.T) {
	a := Of(fitted(nitriteStage, 11.2, asRegistered))
	if a.Best == nil || a.Best.What != Nitrite {
		t.Fatalf("best is %+v, want nitrite", a.Best)
	}
	for i := 0; i < len(a.Coming); i += len(senses) {
		if n, no3 := a.Coming[i+1], a.Coming[i+2]; n.Bits <= no3.Bits {
			t.Errorf("day %g: nitrite tells %.3f, nitrate %.3f bits", n.Day, n.Bits, no3.Bits)
		}
	}
	if !reflect.DeepEqual(a.Skip, []string{Ammonia, Nitrite, Nitrate, PH, KH}) {
		t.Errorf("all were read or told of late, but only %v may be skipped", a.Skip)
	}
	if w := a.Best.After; w.P90-w.P10 >= a.Before.P90-a.Before.P10 {
		t.Errorf("the window goes from %+v to %+v", a.Before, w)
	}
	if b := a.Best.If; b == nil || b[0].Done.P50 >= b[1].Done.P50 {
		t.Errorf("less nitrite should mean sooner: %+v", b)
	}
}

// TestSafetyIsNeverSkipped: with animals in, ammonia and nitrite stay.
func TestSafetyIsNeverSkipped(t *testing.T) {
	c := read(nitriteStage, asRegistered)
	c.Events = append(c.Events, model.Event{Day: 11.1, Kind: model.Stocked, Mass: 5})
	for name, p := range map[string]*fit.Posterior{
		"fish in": fitted(nitriteStage, 11.2, func(s *model.Setup) { s.Method = model.FishIn }),
		"stocked": fit.Fit(c, 11.2, fit.Hypothesis{}, 256),
	} {
		a := Of(p)
		if !reflect.DeepEqual(a.Keep, []string{Ammonia, Nitrite}) {
			t.Errorf("%s: keeps %v", name, a.Keep)
		}
		for _, s := range a.Skip {
			if s == Ammonia || s == Nitrite {
				t.Errorf("%s: %s may be skipped", name, s)
			}
		}
	}
}

// TestUnread: a pH and a hardness that nobody told or read are asked for and
// never skipped; read, they are not.
func TestUnread(t *testing.T) {
	c := read(nil, func(s *model.Setup) { s.Given.PH, s.Given.KH = false, false })
	for _, want := range [][]string{{PH, KH}, {KH}, nil} {
		a := Of(fit.Fit(c, 1.5, fit.Hypothesis{}, 128))
		if !reflect.DeepEqual(a.Unread, want) {
			t.Errorf("unread are %v, want %v", a.Unread, want)
		}
		for _, s := range a.Skip {
			if slices.Contains(want, s) {
				t.Errorf("%s was never read and may be skipped", s)
			}
		}
		r := model.Reading{Day: 1}
		if len(want) == 2 {
			r.PH = new(7.6)
		} else {
			r.KH = new(unit.DKH(6).CaCO3())
		}
		c.Readings = append(c.Readings, r)
	}
}

// TestLowKH: a hardness that may run out is watched whatever it tells.
func TestLowKH(t *testing.T) {
	for dKH, want := range map[unit.DKH]bool{1.5: true, 12: false} {
		a := Of(fitted(nitriteStage, 11.2, func(s *model.Setup) { s.KH = dKH.CaCO3() }))
		if a.LowKH != want || slices.Contains(a.Skip, KH) == want {
			t.Errorf("KH %g: low %v, may be skipped %v", float64(dKH), a.LowKH, a.Skip)
		}
	}
}

// TestSameAsOutlook: the window before is the outlook's.
func TestSameAsOutlook(t *testing.T) {
	p := fitted(nitriteStage, 12.4, asRegistered)
	a, o := Of(p), outlook.Of(p)
	for i, x := range [][2]float64{{a.Before.P10, *o.Done.P10}, {a.Before.P50, *o.Done.P50}, {a.Before.P90, *o.Done.P90}} {
		if math.Abs(x[0]-x[1]) > 0.051 { // an outlook's days are to a tenth
			t.Errorf("quantile %d is %g, the outlook's %g", i, x[0], x[1])
		}
	}
}

// TestSameOnAnyCores: the answer does not depend on the number of cores.
func TestSameOnAnyCores(t *testing.T) {
	p := fitted(nitriteStage, 12.4, asRegistered)
	a := Of(p)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	if !reflect.DeepEqual(a, Of(p)) {
		t.Error("the answer differs on one core")
	}
}
