package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// A keeper who notes the first dose alone may have gone on dosing: each time ammonia was
// read clear and every third day until the next test. Who notes two did not.
func TestSilentDoses(t *testing.T) {
	seen := func(day unit.Days, ammonia float64) Reading {
		return Reading{Day: day, Seq: int(day), Ammonia: &Seen{Low: ammonia, High: ammonia}}
	}
	dose := Event{Kind: Dose, N: unit.MgIon(2).N(unit.Ammonia)}
	c := Case{Setup: Setup{Volume: 60, Method: Dosed}, Events: []Event{dose},
		Readings: []Reading{seen(1, 2), seen(10, 0), seen(20, 0)}}
	days := func(c Case, now unit.Days) (ds []float64) {
		full, _ := Complete(c, now)
		for _, e := range full.Events {
			if e.Perhaps {
				ds = append(ds, float64(e.Day))
			}
		}
		return ds
	}
	if got := days(c, 9); len(got) != 0 {
		t.Errorf("before ammonia was clear: doses on %v", got)
	}
	if got := days(c, 24); len(got) != 5 || got[0] != 10.01 || math.Abs(got[2]-16.01) > 1e-9 || got[3] != 20.01 || got[4] != 23.01 {
		t.Errorf("doses on %v, want 10.01 13.01 16.01 20.01 23.01", got)
	}
	if got := days(c, 100); got[len(got)-1] > 41.1 {
		t.Errorf("the last dose on day %v, 21 days after the last test at the most", got[len(got)-1])
	}
	more := c
	again := dose
	again.Day = 11
	more.Events = append(more.Events[:1:1], again)
	if got := days(more, 24); len(got) != 0 {
		t.Errorf("with two doses noted: doses on %v", got)
	}
	never := c
	never.Events, never.Readings = nil, []Reading{seen(10, 0), seen(20, 0)}
	if got := days(never, 24); len(got) != 0 {
		t.Errorf("with no sign of any ammonia: doses on %v", got)
	}

	full, _ := Complete(c, 24)
	p := NewPlan(full, 24)
	in := func(silent bool) float64 {
		par := Central()
		par.Seed = [Guilds]float64{AOB: 5, NOB: 5}
		par.Silent = silent
		r := p.Start(&par)
		r.To(24, nil)
		return r.Ledger.In - par.TapNO3
	}
	one := float64(dose.N)
	if got := in(false); got < 0.9*one || got > 1.3*one {
		t.Errorf("without silent doses %.2f mg N/L went in, want about %.2f", got, one)
	}
	if got := in(true); got < 5.5*one || got > 6.5*one {
		t.Errorf("with silent doses %.2f mg N/L went in, want about %.2f", got, 6*one)
	}
}
