package stocking

import (
	"cmp"
	"slices"

	"ripen/engine/chem"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// How the tank is assumed to be kept from now on.
const (
	between   = 7    // days from one step to the next; common practice, no source
	watched   = 14   // days that are watched after each
	mostWeeks = 8    // nothing is planned further ahead
	usual     = 0.25 // share of the water changed each week where the log shows no habit; common practice, no source
	moment    = 1e-3 // days from now to the first step, so that it comes after all that was told
)

// herd is the draws on their way: all at the same day of the same plan, to which
// steps are added.
type herd struct {
	c            model.Case // up to now, with the steps so far and the water changes to come
	p            *fit.Posterior
	calm         []model.Params // the draws, whose animals eat what the plan says and no more
	runs         []model.Run
	worst        []peak // of each draw since the first step
	now, day     float64
	end          float64 // what any plan reaches
	firstDay     float64 // the first day that the water is fit
	present      Load
	total        Load // with the steps so far
	change       float64
	every        float64
	temp         unit.Celsius
	salinity     float64
	nitriteLimit float64 // mg N/L
}

// newHerd takes the draws to now. No ammonia is dosed from then on, and food is
// given to animals only.
func newHerd(p *fit.Posterior) *herd {
	h := &herd{p: p, now: p.Plan.Now, day: p.Plan.Now, firstDay: p.Plan.Now, c: told(p.Plan.Case, unit.Days(p.Plan.Now))}
	h.end = h.now + between*(mostWeeks+2) + watched
	h.surroundings()
	h.present = present(&h.c, &p.Plan.Habit)
	if s := &h.c.Setup; s.Method == model.FishIn && !s.Given.Stock && !s.Given.Feed {
		h.present.Feed *= unit.Grams(grown(p))
	}
	h.total = h.present
	h.keep(p.Plan.Habit)
	feed := h.present.Feed
	h.c.Changes = append(h.c.Changes, model.Change{Day: unit.Days(h.now + moment), Feed: &feed})
	n := len(p.Draws)
	h.calm, h.runs, h.worst = slices.Clone(p.Draws), make([]model.Run, n), make([]peak, n)
	plan := model.NewPlan(h.c, unit.Days(h.end))
	stands := outlook.Stands(p)
	model.Each(n, func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			run.Reset(plan, &p.Draws[i])
			run.To(h.now, nil)
			stands.Put(run, i)
			h.calm[i].Rise = 0
			h.runs[i].CopyFrom(run, &h.calm[i])
		}
	})
	return h
}

// grown is how many times their first ration animals eat by now whose food nobody told, in the
// middle of the draws.
func grown(p *fit.Posterior) float64 {
	v := make([]float64, len(p.Draws))
	model.Each(len(p.Draws), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			p.Resume(i, run)
			run.To(p.Plan.Now, nil)
			v[i] = run.Grown()
		}
	})
	slices.Sort(v)
	return quantile(v, 0.5)
}

// told is a case without what lies after now.
func told(c model.Case, now unit.Days) model.Case {
	c.Changes = slices.DeleteFunc(slices.Clone(c.Changes), func(x model.Change) bool { return x.Day > now })
	c.Events = slices.DeleteFunc(slices.Clone(c.Events), func(x model.Event) bool { return x.Day > now })
	c.Readings = slices.DeleteFunc(slices.Clone(c.Readings), func(x model.Reading) bool { return x.Day > now })
	return c
}

// surroundings finds what the limits hang on, as last told.
func (h *herd) surroundings() {
	h.temp, h.salinity = h.c.Setup.Temp, h.c.Setup.Salinity
	day := unit.Days(-1)
	for _, x := range h.c.Changes {
		if x.Temp != nil {
			h.temp, day = *x.Temp, x.Day
		}
		if x.Salinity != nil {
			h.salinity = *x.Salinity
		}
	}
	for _, r := range h.c.Readings {
		if r.Temp != nil && r.Day >= day {
			h.temp = *r.Temp
		}
	}
	h.guard(0)
}

// guard sets the nitrite limit for a chloride in mg/L, or that of the salt if it is 0.
func (h *herd) guard(chloride float64) {
	if chloride <= 0 {
		chloride = 1000 * h.salinity * chem.ChloridePerSeaSalt
	}
	limit, _ := chem.NitriteLimit(chloride)
	h.nitriteLimit = float64(limit)
}

// present is the animals that are in and what they eat, as far as was told: the
// set-up's own, those put in later, fewer by losses. Food that was told after some went
// in is what they eat, with the usual ration for those since.
func present(c *model.Case, habit *model.Habit) (l Load) {
	in := c.Setup.Method == model.FishIn
	first, fed, counted := unit.Days(0), unit.Days(-1), unit.Days(-1)
	if in {
		l = Load{c.Setup.Stock, c.Setup.Feed}
	} else {
		i := slices.IndexFunc(c.Events, func(e model.Event) bool { return e.Kind == model.Stocked })
		if i < 0 {
			return Load{}
		}
		first = c.Events[i].Day
	}
	for _, x := range c.Changes {
		if x.Stock != nil && in {
			l.Animals, counted = *x.Stock, x.Day
		}
		if x.Feed != nil && x.Day >= first {
			l.Feed, fed = *x.Feed, x.Day
		}
	}
	for _, e := range c.Events {
		more := e.Mass
		switch e.Kind {
		case model.Stocked:
		case model.Losses:
			more = max(-e.Mass, -l.Animals)
		default:
			continue
		}
		if e.Day > counted {
			l.Animals += more
		}
		if e.Day > fed {
			l.Feed = max(l.Feed+model.Ration*more, 0)
		}
	}
	if habit.Feed > 0 { // logged meals outweigh what is usual
		l.Feed = habit.Feed
	}
	return l
}

// keep adds the water changes to come: the keeper's own habit, else the usual.
func (h *herd) keep(habit model.Habit) {
	h.change, h.every = usual, between
	treated := model.Yes
	if habit.Change > 0 {
		h.change, h.every, treated = habit.Change, habit.Interval, habit.Treated
	}
	for d := h.now + h.every; d < h.end; d += h.every {
		h.c.Events = append(h.c.Events, model.Event{Day: unit.Days(d), Kind: model.WaterChange, Fraction: h.change, Treated: treated})
	}
}

// with is the plan with one more load from the herd's day on.
func (h *herd) with(more Load) (model.Case, *model.Plan) {
	at := unit.Days(h.day + 2*moment)
	feed := h.total.Feed + more.Feed
	c := h.c
	c.Changes = append(slices.Clone(c.Changes), model.Change{Day: at, Feed: &feed})
	c.Events = append(slices.Clone(c.Events), model.Event{Day: at, Kind: model.Stocked, Mass: more.Animals})
	slices.SortStableFunc(c.Events, func(a, b model.Event) int { return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Seq, b.Seq)) })
	return c, model.NewPlan(c, unit.Days(h.end))
}

// advance takes the herd on, watching once animals are planned.
func (h *herd) advance(days float64, watch bool) {
	h.day += days
	model.Each(len(h.runs), func(on *model.Lane) func(int) {
		return func(i int) {
			h.runs[i].Ride(on)
			defer h.runs[i].Ride(nil)
			if watch {
				h.worst[i] = h.look(&h.runs[i], h.worst[i], h.day)
			}
			h.runs[i].To(h.day, nil)
		}
	})
}

// capacities is what each draw oxidises at the herd's day, the smaller of ammonia
// and nitrite, mg N/L/d, sorted.
func (h *herd) capacities() []float64 {
	v := make([]float64, len(h.runs))
	for i := range h.runs {
		c := h.runs[i].Capacity()
		v[i] = min(c[0], c[1])
	}
	slices.Sort(v)
	return v
}

// carries is the food that may be asked for in all at the herd's day, g/d.
func (h *herd) carries() unit.Grams {
	return unit.Grams(Prudent * quantile(h.capacities(), 0.1) * float64(h.c.Setup.Volume) / model.FoodN)
}
