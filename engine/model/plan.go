package model

import (
	"cmp"
	"math"
	"slices"

	"ripen/engine/unit"
)

// Horizon is how far from the tank's start anything is foretold, in days. For
// an old tank it moves to Ahead days from now.
const (
	Horizon = 180
	Ahead   = 60
)

// End is the horizon of this plan, in whole days from the start.
func (p *Plan) End() float64 { return max(Horizon, math.Ceil(p.Now)+Ahead) }

// Limits of "clear": what kits read below 0.25 mg/L on the ion scale.
const (
	ClearTAN unit.MgN = unit.MgN(0.25 / (unit.MolarNH4 / unit.MolarN))
	ClearNO2 unit.MgN = unit.MgN(0.25 / (unit.MolarNO2 / unit.MolarN))
)

// stopKind orders what happens at the same moment.
type stopKind int

const (
	stopSegment stopKind = iota // the surroundings change
	stopEvent
	stopReading
)

// stop is a moment at which the integration pauses.
type stop struct {
	day   float64
	seq   int
	kind  stopKind
	i     int  // index of the segment, event or reading
	quiet bool // nothing happens there
	calm  bool // there is something to see, and nothing happens
}

// Plan is a Case worked out for simulation: what happens when, and what
// surrounds the bacteria in between. It is read-only once made and serves all
// draws at once.
type Plan struct {
	Case  Case    // as given
	Now   float64 // days; from here on the keeper is assumed to go on by Habit
	Habit Habit   // read off the log up to Now

	envs    []Env
	conds   []condition
	changed float64 // day of the last logged water change
	stops   []stop  // by day, up to the last thing known
	start   condition
	tells   [][3]float64 // by reading; see Tells
}

// NewPlan works out a case, complete up to now, in days from the start, 0 or
// more. The case is not changed. Its lists must be ordered by day; what lies
// after now is left out. Segments are constant: a reading of the temperature
// holds half way to the next one.
func NewPlan(c Case, now unit.Days) *Plan {
	p := &Plan{Case: c, Now: float64(now)}
	p.Habit = habit(&c, p.Now)
	p.changed = p.lastChange()
	p.segments()
	for i, e := range c.Events {
		if float64(e.Day) <= p.Now {
			p.stops = append(p.stops, stop{day: float64(e.Day), seq: e.Seq, kind: stopEvent, i: i})
		}
	}
	for i, r := range c.Readings {
		if float64(r.Day) <= p.Now {
			p.stops = append(p.stops, stop{day: float64(r.Day), seq: r.Seq, kind: stopReading, i: i})
		}
	}
	slices.SortStableFunc(p.stops, func(a, b stop) int {
		return cmp.Or(cmp.Compare(a.day, b.day), cmp.Compare(a.seq, b.seq), cmp.Compare(a.kind, b.kind))
	})
	p.listen()
	return p
}

// segments splits the time at every change of the surroundings: those up to now,
// and what has begun by then and is foreseen to end, or grow, later.
func (p *Plan) segments() {
	c := &p.Case
	cond := condition{Setup: c.Setup}
	type shift struct {
		day   float64
		apply func(*condition)
	}
	var shifts []shift
	at := func(day unit.Days, f func(*condition)) {
		shifts = append(shifts, shift{max(float64(day), 0), f})
	}
	for i := range c.Changes {
		if ch := &c.Changes[i]; float64(ch.Day) <= p.Now {
			at(ch.Day, func(x *condition) { ch.apply(x) })
		}
	}
	for i := range c.Events {
		e := &c.Events[i]
		if float64(e.Day) > p.Now {
			continue
		}
		switch e.Kind {
		case Outage:
			at(e.Day, func(x *condition) { x.outage = true })
			at(e.Day+unit.Days(e.hours()/24), func(x *condition) { x.outage = false })
		case Medicine:
			at(e.Day, func(x *condition) { x.medicine = true })
			at(e.Day+unit.Days(e.hours()/24), func(x *condition) { x.medicine = false })
		case PlantsAdded:
			// New plants first root and recover: they take up little for three weeks.
			// Common practice, no source.
			for _, s := range [...]struct{ after, share float64 }{{0, 0.2}, {10, 0.5}, {21, 1}} {
				at(e.Day+unit.Days(s.after), func(x *condition) { x.rooting(e.Plants, s.share) })
			}
		case MediaAdded:
			at(e.Day, func(x *condition) { x.carriers += e.Volume })
		case Stocked:
			at(e.Day, func(x *condition) {
				if x.Method != FishIn { // planned animals become real
					x.Method, x.Setup.Stock = FishIn, 0
				}
				x.Setup.Stock += e.Mass
			})
		case Losses:
			at(e.Day, func(x *condition) { x.Setup.Stock = max(x.Setup.Stock-e.Mass, 0) })
		}
	}
	for _, t := range temperatures(c, p.Now) {
		at(unit.Days(t.day), func(x *condition) { x.Temp = t.temp })
	}
	if p.Habit.Feed > 0 {
		shifts = append(shifts, shift{p.Now, func(x *condition) { x.Setup.Feed, x.retold.Feed = p.Habit.Feed, true }})
	}
	slices.SortStableFunc(shifts, func(a, b shift) int { return cmp.Compare(a.day, b.day) })

	p.start = cond
	i := 0
	for i < len(shifts) && shifts[i].day <= 0 {
		shifts[i].apply(&cond)
		i++
	}
	p.start = cond
	p.add(0, cond)
	for i < len(shifts) {
		day := shifts[i].day
		cond.retold = Given{Feed: cond.retold.Feed} // water is told once, food stays
		for i < len(shifts) && shifts[i].day == day {
			shifts[i].apply(&cond)
			i++
		}
		p.add(day, cond)
	}
}

// add begins a segment.
func (p *Plan) add(day float64, c condition) {
	p.envs = append(p.envs, c.env())
	p.conds = append(p.conds, c)
	p.stops = append(p.stops, stop{day: day, seq: -1, kind: stopSegment, i: len(p.envs) - 1})
}

// hours returns how long the event lasted, with the typical length where the
// member did not say: half a day without the filter, a five-day course.
func (e *Event) hours() float64 {
	switch {
	case e.Hours > 0:
		return e.Hours
	case e.Kind == Medicine:
		return 120
	}
	return 12
}

// apply puts the change's facts in place of the old ones.
func (ch *Change) apply(c *condition) {
	set(&c.PH, ch.PH)
	set(&c.KH, ch.KH)
	c.retold.PH, c.retold.KH = c.retold.PH || ch.PH != nil, c.retold.KH || ch.KH != nil
	set(&c.Temp, ch.Temp)
	set(&c.Media, ch.Media)
	set(&c.MediaVolume, ch.MediaVolume)
	set(&c.Flow, ch.Flow)
	set(&c.Setup.Plants, ch.Plants)
	set(&c.Source, ch.Source)
	set(&c.Conditioner, ch.Conditioner)
	set(&c.Salinity, ch.Salinity)
	set(&c.Setup.Feed, ch.Feed)
	set(&c.Setup.Stock, ch.Stock)
}

func set[T any](dst *T, src *T) {
	if src != nil {
		*dst = *src
	}
}

// tempStep is a temperature that holds from a day on.
type tempStep struct {
	day  float64
	temp unit.Celsius
}

// temperatures turns temperature readings into steps half way between them,
// so that each holds around its own time.
func temperatures(c *Case, now float64) []tempStep {
	var out []tempStep
	last := 0.0
	for _, r := range c.Readings {
		if r.Temp == nil || float64(r.Day) > now {
			continue
		}
		d := float64(r.Day)
		if n := len(out); n > 0 && *r.Temp == out[n-1].temp {
			last = d
			continue
		}
		out = append(out, tempStep{(last + d) / 2, *r.Temp})
		last = d
	}
	return out
}
