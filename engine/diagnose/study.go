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

// without reruns the draws with the case put right and returns their done days.
func (s *study) without(right func(*model.Case)) []float64 {
	c := clone(s.c)
	right(&c)
	p := *s.post
	p.Plan = model.NewPlan(c, unit.Days(s.now))
	return doneDays(&p)
}

// weighed is a condition with the chance that it costs a material delay, and
// the mean delay in days.
type weighed struct {
	name         string
	chance, cost float64
}

// weighAll weighs every condition that the tank is suspected of, in two ways:
// what is saved when it alone is put right, and what it still costs when all
// others are right, since two faults may each hold the tank by itself. The
// chance is the larger, the cost the mean of both.
func (s *study) weighAll() []weighed {
	var on []condition
	for _, c := range conditions {
		if c.suspect(s) {
			on = append(on, c)
		}
	}
	if len(on) == 0 {
		return nil
	}
	best := s.without(func(x *model.Case) {
		for _, c := range on {
			c.right(s, x)
		}
	})
	var out []weighed
	for i, c := range on {
		alone := s.without(func(x *model.Case) { c.right(s, x) })
		last := s.done
		if len(on) > 1 {
			last = s.without(func(x *model.Case) {
				for j, o := range on {
					if j != i {
						o.right(s, x)
					}
				}
			})
		}
		a, b := weigh(s.done, alone), weigh(last, best)
		out = append(out, weighed{c.name, max(a.chance, b.chance), (a.cost + b.cost) / 2})
	}
	return out
}

// weigh compares done days with and without a cause.
func weigh(with, without []float64) (w weighed) {
	n := float64(len(with))
	for i := range with {
		d := with[i] - without[i]
		if d >= max(2, 0.08*without[i]) { // a material delay
			w.chance += 1 / n
		}
		w.cost += d / n
	}
	return w
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

func mean(x []float64) (m float64) {
	for _, v := range x {
		m += v / float64(len(x))
	}
	return m
}
