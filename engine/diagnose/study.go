package diagnose

import (
	"math"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// fewDraws is how many draws each rerun uses.
const fewDraws = 384

// study holds a fitted tank and what its reruns are compared with.
type study struct {
	c    model.Case // completed
	now  float64
	post *fit.Posterior // thinned
	out  outlook.Outlook
	done []float64 // done day of each draw, the plan's end where later
}

func newStudy(p *fit.Posterior, o outlook.Outlook) *study {
	s := &study{c: p.Plan.Case, now: p.Plan.Now, post: p.Thin(fewDraws), out: o}
	s.done = doneDays(s.post)
	return s
}

// doneDays returns the done day of each draw, at most the plan's end.
func doneDays(p *fit.Posterior) []float64 {
	cs := outlook.Courses(p, 0, nil)
	d := make([]float64, len(cs))
	for i := range cs {
		d[i] = math.Min(cs[i].Done, p.Plan.End())
	}
	return d
}

// saved reruns the draws with the case put right and returns the days that
// each saves.
func (s *study) saved(right func(*model.Case)) []float64 {
	c := clone(s.c)
	right(&c)
	p := *s.post
	p.Plan = model.NewPlan(c, unit.Days(s.now))
	d := doneDays(&p)
	for i := range d {
		d[i] = s.done[i] - d[i]
	}
	return d
}

// material is the delay from which a condition counts as a cause: three days
// and a seventh of the whole time without it.
func material(done, saved float64) bool {
	return saved >= max(3, 0.15*(done-saved))
}

// weigh returns the share of draws in which the cause costs a material delay,
// and the mean days saved.
func (s *study) weigh(saved []float64) (chance, cost float64) {
	for i, d := range saved {
		if material(s.done[i], d) {
			chance++
		}
		cost += d
	}
	n := float64(len(saved))
	return chance / n, cost / n
}

// clone copies the case so that its lists may be changed.
func clone(c model.Case) model.Case {
	c.Changes = slices.Clone(c.Changes)
	c.Events = slices.Clone(c.Events)
	c.Readings = slices.Clone(c.Readings)
	return c
}

// dropEvents removes the events of a kind.
func dropEvents(c *model.Case, kind model.EventKind) {
	c.Events = slices.DeleteFunc(c.Events, func(e model.Event) bool { return e.Kind == kind })
}

// events returns the logged events of a kind up to now.
func (s *study) events(kind model.EventKind) []model.Event {
	var out []model.Event
	for _, e := range s.c.Events {
		if e.Kind == kind && float64(e.Day) <= s.now && !e.Assumed {
			out = append(out, e)
		}
	}
	return out
}

// highest returns the highest reading of a species on the ion scale, mg/L, with
// its day; -1 if never read.
func (s *study) highest(sp unit.Species) (value, day float64) {
	value = -1
	for _, r := range s.c.Readings {
		if x := r.Of(sp); x != nil && float64(r.Day) <= s.now {
			if v := x.Ion(sp); v >= value {
				value, day = v, float64(r.Day)
			}
		}
	}
	return value, day
}

// last returns the last reading of a species on the ion scale, mg/L, with its
// day; -1 if never read.
func (s *study) last(sp unit.Species) (value, day float64) {
	value = -1
	for _, r := range s.c.Readings {
		if x := r.Of(sp); x != nil && float64(r.Day) <= s.now {
			value, day = x.Ion(sp), float64(r.Day)
		}
	}
	return value, day
}

// water is pH, KH and temperature as last known.
type water struct {
	ph, oxygen float64
	kh         unit.MgCaCO3
	temp       unit.Celsius
	phDay      float64 // -1 when from the set-up
	khDay      float64
	tempDay    float64
	oxygenDay  float64
}

func (s *study) water() water {
	w := water{ph: s.c.Setup.PH, kh: s.c.Setup.KH, temp: s.c.Setup.Temp, phDay: -1, khDay: -1, tempDay: -1, oxygenDay: -1}
	day := func(d unit.Days) float64 { return float64(d) }
	for _, ch := range s.c.Changes {
		if day(ch.Day) > s.now {
			break
		}
		if ch.PH != nil {
			w.ph, w.phDay = *ch.PH, day(ch.Day)
		}
		if ch.KH != nil {
			w.kh, w.khDay = *ch.KH, day(ch.Day)
		}
		if ch.Temp != nil {
			w.temp, w.tempDay = *ch.Temp, day(ch.Day)
		}
	}
	for _, r := range s.c.Readings {
		if day(r.Day) > s.now {
			break
		}
		if r.PH != nil && day(r.Day) >= w.phDay {
			w.ph, w.phDay = *r.PH, day(r.Day)
		}
		if r.KH != nil && day(r.Day) >= w.khDay {
			w.kh, w.khDay = *r.KH, day(r.Day)
		}
		if r.Temp != nil && day(r.Day) >= w.tempDay {
			w.temp, w.tempDay = *r.Temp, day(r.Day)
		}
		if r.Oxygen != nil {
			w.oxygen, w.oxygenDay = *r.Oxygen, day(r.Day)
		}
	}
	return w
}
