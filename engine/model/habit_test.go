package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// readEvery is a case with so many readings, gap days apart.
func readEvery(n int, gap unit.Days) (c Case, now float64) {
	c.Setup = Typical(Setup{Volume: 60})
	for i := range n {
		c.Readings = append(c.Readings, Reading{Day: unit.Days(i+1) * gap})
	}
	return c, float64(unit.Days(n) * gap)
}

// TestRhythm: keepers are taken to look every day or two at first, and then as often as
// their log tells.
func TestRhythm(t *testing.T) {
	for _, x := range []struct {
		n         int
		gap       unit.Days
		low, high float64
	}{
		{0, 1, untold, untold}, {12, 1, 1, 1.05}, {40, 0.25, 1, 1.05}, {1, 4, 1.5, 2.5}, {12, 3, 2.5, 3}, {30, 20, 7, 7},
	} {
		c, now := readEvery(x.n, x.gap)
		if got := NewPlan(c, unit.Days(now)).Habit.Look; got < min(x.low, silentEvery) || got > min(x.high, silentEvery) {
			t.Errorf("%d readings %g days apart, no dose noted: a look every %.2f days, want %g to %g and %g at the most", x.n, float64(x.gap), got, x.low, x.high, silentEvery)
		}
		c.Events = twoDoses(&c)
		if got := NewPlan(c, unit.Days(now)).Habit.Look; got < x.low || got > x.high {
			t.Errorf("%d readings %g days apart: a look every %.2f days, want %g to %g", x.n, float64(x.gap), got, x.low, x.high)
		}
	}
}

// twoDoses are those of a keeper who notes them.
func twoDoses(c *Case) []Event {
	return []Event{{Kind: Dose, N: c.Setup.Target / 2}, {Kind: Dose, N: c.Setup.Target / 2}}
}

// TestLooksRule: a keeper who looks every fourth day doses no more often than
// that, and one in doubt of more diligence more often.
func TestLooksRule(t *testing.T) {
	c, now := readEvery(12, 4)
	c.Events = twoDoses(&c)
	p := NewPlan(c, unit.Days(now))
	given := func(d Doubt) float64 {
		par := Central()
		par.Seed = [Guilds]float64{AOB: 1, NOB: 1}
		par.TapNO3 = 0 // so that only doses bring nitrogen
		r := p.Start(&par)
		r.Suppose(d)
		before := 0.0
		r.Watch(now+40, func(day int, _ Pools) {
			if day == int(now) {
				before = r.Ledger.In
			}
		})
		return (r.Ledger.In - before) / float64(c.Setup.Target)
	}
	asTold, daily := given(NoDoubt), given(Doubt{Trial: 1, Diligence: 1, Notice: 1})
	if asTold < 5 || asTold > 12 {
		t.Errorf("%.1f doses in 40 days by looks every fourth day, want 5 to 12", asTold)
	}
	if daily < 1.3*asTold {
		t.Errorf("%.1f doses by daily looks against %.1f, want clearly more", daily, asTold)
	}
}

// TestDoubtfulTrial: a doubt about the challenge moves what it leaves by just
// that factor.
func TestDoubtfulTrial(t *testing.T) {
	c, _ := readEvery(0, 1)
	par := Central()
	par.Seed = [Guilds]float64{AOB: 4, NOB: 4}
	r := NewPlan(c, 0).Start(&par)
	plain := r.Challenge()
	r.Suppose(Doubt{Trial: 1.5})
	if got := r.Challenge(); math.Abs(got-1.5*plain) > 1e-9*plain {
		t.Errorf("a challenge that left %.4f of the limit leaves %.4f under a doubt of 1.5", plain, got)
	}
}

// TestChanges: water is changed as often as it was, counting the time since; parts of one day are
// one change, and what was left out is not made up for.
func TestChanges(t *testing.T) {
	for _, x := range []struct {
		reason   string
		days     []unit.Days
		now      unit.Days
		change   float64
		interval float64
	}{
		{"every week", []unit.Days{13, 20, 27, 34}, 36, 0.4, 7},
		{"left off since", []unit.Days{13, 20}, 40, 0, 0},
		{"a burst", []unit.Days{10, 11, 12}, 30, 0.4, 20. / 3},
		{"once, in two parts", []unit.Days{10, 10.2}, 15, 0, 0},
		{"in two parts each week", []unit.Days{3, 3.2, 10, 10.2}, 11, 0.64, 7},
	} {
		c := Case{Setup: Typical(Setup{Volume: 60})}
		for _, d := range x.days {
			c.Events = append(c.Events, Event{Day: d, Kind: WaterChange, Fraction: 0.4, Treated: Yes})
		}
		p := NewPlan(c, x.now)
		if h := p.Habit; math.Abs(h.Change-x.change) > 1e-9 || x.change > 0 && math.Abs(h.Interval-x.interval) > 1e-9 {
			t.Errorf("%s: %g of the water every %g days, want %g every %g", x.reason, h.Change, h.Interval, x.change, x.interval)
			continue
		} else if h.Change == 0 {
			continue
		}
		par := Central()
		par.TapNO3, par.Loss = 0, 0
		r := p.Start(&par)
		r.To(p.Now, nil)
		r.State.NO3 = 100
		changes, before := 0, r.State.NO3
		r.Watch(p.Now+21, func(_ int, q Pools) {
			if q[unit.Nitrate] < 0.8*before {
				changes++
			}
			before = q[unit.Nitrate]
		})
		if most := int(21/x.interval) + 1; changes > most || changes < most-2 {
			t.Errorf("%s: %d changes in 21 days, want at most %d", x.reason, changes, most)
		}
	}
}

// TestLastKit: a reading without ammonia, nitrite and nitrate says nothing of the kit.
func TestLastKit(t *testing.T) {
	ph := 7.4
	c := Case{Readings: []Reading{{Day: 3, Kit: Strip, Ammonia: &Seen{}}, {Day: 4, PH: &ph}, {Day: 6, Kit: Meter, Nitrite: &Seen{}}}}
	for day, want := range map[unit.Days]Kit{2: Liquid, 3: Strip, 5: Strip, 6: Meter} {
		if got := c.LastKit(day); got != want {
			t.Errorf("day %g: kit %v, want %v", float64(day), got, want)
		}
	}
}

// TestHeed: who tested the hardness more than once, or brought it up, sees it go; one test, two of
// the same day, or a change of water before it was low, tell nothing of that.
func TestHeed(t *testing.T) {
	kh := func(day unit.Days, dkh unit.DKH) Reading { return Reading{Day: day, KH: new(dkh.CaCO3())} }
	event := func(day unit.Days, kind EventKind) Event { return Event{Day: day, Kind: kind, Fraction: 0.3} }
	set := Typical(Setup{Volume: 60, PH: 6.6, KH: unit.DKH(4).CaCO3(), Temp: 25, Given: Given{KH: true}})
	for _, tt := range []struct {
		reason   string
		readings []Reading
		events   []Event
		want     float64
	}{
		{"nothing told", nil, nil, 0},
		{"one test", []Reading{kh(3, 4)}, nil, 0},
		{"two of a day", []Reading{kh(3, 4), kh(3.2, 4)}, nil, 0},
		{"two tests", []Reading{kh(3, 4), kh(8, 3)}, nil, heedsTested},
		{"a change of water while it was high", []Reading{kh(3, 4), kh(8, 3)}, []Event{event(9, WaterChange)}, heedsTested},
		{"a change of water before it was low", []Reading{kh(8, 1)}, []Event{event(5, WaterChange)}, 0},
		{"a change of water when it was low", []Reading{kh(8, 1)}, []Event{event(8.5, WaterChange)}, heedsRaised},
		{"a buffer", nil, []Event{event(5, Buffer)}, heedsRaised},
		{"a buffer to come", nil, []Event{event(15, Buffer)}, 0},
	} {
		if got := NewPlan(Case{Setup: set, Readings: tt.readings, Events: tt.events}, 12).Habit.Heed; got != tt.want {
			t.Errorf("%s: %g, want %g", tt.reason, got, tt.want)
		}
	}
}
