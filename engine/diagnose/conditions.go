package diagnose

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// condition is something about the tank that can be put right, and so tried.
type condition struct {
	name string
	// suspect says whether the tank is outside the best range at all; what is in
	// the best range cannot be a cause.
	suspect func(*study) bool
	// right puts the condition right from the tank's start on.
	right func(*study, *model.Case)
}

// Best ranges and the values that conditions are put right to. Ranges are
// common practice, no source; the cost of being outside is computed.
const (
	goodPH      = 7.6
	goodTemp    = 27
	warmNow     = 24 // nothing to be done about what was cold before
	goodTempHot = 29
)

var goodKH = unit.DKH(6).CaCO3()

// conditions in the order of the command book.
var conditions = []condition{
	{"acidic-water", func(s *study) bool { return s.acid() },
		func(_ *study, c *model.Case) {
			c.Setup.PH = max(c.Setup.PH, goodPH)
			edit(c, func(ch *model.Change) { ch.PH = nil }, func(r *model.Reading) { r.PH = nil })
		}},
	{"low-alkalinity", func(s *study) bool { return s.out.Crash != "" || s.lowestKH() < unit.DKH(3.2).CaCO3() },
		func(_ *study, c *model.Case) {
			// The pH of the set-up stays: what counts is that it cannot fall.
			c.Setup.KH = max(c.Setup.KH, goodKH)
			edit(c, func(ch *model.Change) { ch.PH, ch.KH = nil, nil }, func(r *model.Reading) { r.PH, r.KH = nil, nil })
		}},
	{"cold-water", func(s *study) bool { return s.water().temp < 22 || s.c.Setup.Temp < 22.5 },
		func(_ *study, c *model.Case) { setTemp(c, goodTemp, func(t unit.Celsius) bool { return t < goodTemp }) }},
	{"hot-water", func(s *study) bool { return s.water().temp > 31.5 },
		func(_ *study, c *model.Case) {
			setTemp(c, goodTempHot, func(t unit.Celsius) bool { return t > goodTempHot })
		}},
	{"low-oxygen", func(s *study) bool {
		w := s.water()
		return s.flow() == model.Weak || w.oxygenDay >= 0 && w.oxygen < 5.5
	}, func(_ *study, c *model.Case) {
		c.Setup.Flow = model.Strong
		edit(c, func(ch *model.Change) { ch.Flow = nil }, func(r *model.Reading) { r.Oxygen = nil })
	}},
	{"ammonia-overdose", func(s *study) bool {
		high, _ := s.highest(unit.Ammonia)
		return high >= 3.9 || s.largestDose() > 1.6*float64(s.c.Setup.Target) || s.overfed() && s.fed() > 2*float64(s.fedFor())
	}, func(s *study, c *model.Case) {
		capDoses(c)
		s.capFood(c)
		edit(c, nil, func(r *model.Reading) { r.PH, r.KH = nil, nil }) // what the doses used up
	}},
	{"no-ammonia-source", func(s *study) bool { return s.starved() },
		func(_ *study, c *model.Case) {
			for d := 0; d < model.Horizon; d += 2 { // half the target every other day
				c.Events = append(c.Events, model.Event{Day: unit.Days(d), Kind: model.Dose, N: c.Setup.Target / 2})
			}
			sortEvents(c)
		}},
	{"little-surface", func(s *study) bool { return s.littleSurface() },
		func(s *study, c *model.Case) {
			c.Setup.Media, c.Setup.MediaVolume = model.Sponge, s.ampleSurface()
			edit(c, func(ch *model.Change) { ch.Media, ch.MediaVolume = nil, nil }, nil)
		}},
	{"mismatched-seed", func(s *study) bool { return s.seedMatch() < 0.85 },
		func(_ *study, c *model.Case) {
			for i := range c.Events {
				c.Events[i].DonorPH, c.Events[i].DonorTemp, c.Events[i].DonorSalinity = 0, 0, nil
			}
		}},
	{"nitrite-backlog", func(s *study) bool { return s.offChart() },
		func(s *study, c *model.Case) {
			c.Events = append(c.Events, model.Event{Day: unit.Days(s.now), Seq: math.MaxInt, Kind: model.NitriteRemoved, Fraction: 0.8})
			sortEvents(c)
		}},
	{"chlorine", func(s *study) bool { return len(s.untreated()) > 0 },
		func(_ *study, c *model.Case) {
			for i := range c.Events {
				if c.Events[i].Kind == model.WaterChange {
					c.Events[i].Treated = model.Yes
				}
			}
			edit(c, nil, func(r *model.Reading) { r.Chlorine = nil })
		}},
	{"medication", func(s *study) bool { return len(s.events(model.Medicine)) > 0 },
		func(_ *study, c *model.Case) { dropEvents(c, model.Medicine) }},
	{"filter-interrupted", func(s *study) bool { return len(s.events(model.Outage)) > 0 },
		func(_ *study, c *model.Case) { dropEvents(c, model.Outage) }},
	{"media-washed", func(s *study) bool { return len(s.events(model.Cleaned)) > 0 },
		func(_ *study, c *model.Case) { dropEvents(c, model.Cleaned) }},
}

// edit applies changes to all changes and readings of a case.
func edit(c *model.Case, ch func(*model.Change), r func(*model.Reading)) {
	for i := range c.Changes {
		if ch != nil {
			ch(&c.Changes[i])
		}
	}
	for i := range c.Readings {
		if r != nil {
			r(&c.Readings[i])
		}
	}
}

// setTemp replaces temperatures for which bad holds.
func setTemp(c *model.Case, to unit.Celsius, bad func(unit.Celsius) bool) {
	if bad(c.Setup.Temp) {
		c.Setup.Temp = to
	}
	edit(c, func(ch *model.Change) {
		if ch.Temp != nil && bad(*ch.Temp) {
			ch.Temp = &to
		}
	}, func(r *model.Reading) {
		if r.Temp != nil && bad(*r.Temp) {
			r.Temp = &to
		}
	})
}

// capDoses keeps each dose at the target and leaves out doses that came on top
// of another within two days.
func capDoses(c *model.Case) {
	last := math.Inf(-1)
	for i := range c.Events {
		e := &c.Events[i]
		if e.Kind != model.Dose {
			continue
		}
		e.N = min(e.N, c.Setup.Target)
		if float64(e.Day)-last < 2 && e.Assumed {
			e.N = 0
		}
		last = float64(e.Day)
	}
}
