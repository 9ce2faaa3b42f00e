package tryout

import (
	"cmp"
	"math"
	"slices"

	"ripen/engine/chem"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// When changes act, in minutes after now. Hardness comes first, so that the pH that
// rises with it can be told otherwise; once comes last, into the changed water.
const (
	hardness     = 1.
	surroundings = 2. // and the two minutes after
	once         = 5.
	minute       = 1. / (24 * 60)
)

// trial is a case that is being changed.
type trial struct {
	now     float64
	habit   model.Habit
	changes []model.Change
	events  []model.Event
}

func (w *trial) at(minutes float64) unit.Days { return unit.Days(w.now + minutes*minute) }

// change lets the surroundings change.
func (w *trial) change(c model.Change) { w.changeAt(surroundings, c) }

func (w *trial) changeAt(minutes float64, c model.Change) {
	c.Day = w.at(minutes)
	w.changes = append(w.changes, c)
}

// do lets something be done.
func (w *trial) do(minutes float64, e model.Event) {
	e.Day = w.at(minutes)
	w.events = append(w.events, e)
}

// plan is the case of p with the trial in it. What is done in the trial makes no habit.
func (w *trial) plan(p *model.Plan) *model.Plan {
	c := p.Case
	c.Changes = slices.Concat(c.Changes, w.changes)
	c.Events = slices.Concat(c.Events, w.events)
	slices.SortStableFunc(c.Changes, func(a, b model.Change) int { return cmp.Compare(a.Day, b.Day) })
	slices.SortStableFunc(c.Events, func(a, b model.Event) int { return cmp.Compare(a.Day, b.Day) })
	q := model.NewPlan(c, w.at(once))
	q.Habit = w.habit
	return q
}

// Water is a tank's water at a moment, by the medians of the draws.
type Water struct {
	PH          float64
	KH          unit.MgCaCO3
	Temp        unit.Celsius
	Ammonia     unit.MgN // total
	Nitrite     unit.MgN
	FreeAmmonia float64 // un-ionised, mg/L NH3
	Oxygen      float64 // what the water holds when full of air, mg/L
}

// fewDraws is how many draws the water is read off: their medians move little.
const fewDraws = 128

// freshFor is how many days a test of ammonia is taken for what stands now; common
// practice, no source.
const freshFor = 2

// tested is the ammonia that a fresh test showed, with what was dosed after it, mg N/L: 0
// if there is none, or water was changed since. Draws may take one such test for a slip,
// but who is to judge what endangers animals does not.
func tested(c *model.Case, now float64) (n unit.MgN) {
	var last *model.Reading
	for i := range c.Readings {
		if r := &c.Readings[i]; r.Ammonia != nil && float64(r.Day) <= now {
			n, last = unit.MgIon(r.Ammonia.Ion(unit.Ammonia)).N(unit.Ammonia), r
		}
	}
	if last == nil || now-float64(last.Day) > freshFor {
		return 0
	}
	for i := range c.Events {
		if e := &c.Events[i]; float64(e.Day) <= now && e.After(last) {
			switch e.Kind {
			case model.WaterChange:
				return 0
			case model.Dose:
				if !e.Perhaps {
					n += e.N
				}
			}
		}
	}
	return n
}

// waterOf is the water at the plan's now, with no less ammonia before the trial, which
// begins at from, than was tested, and with what stands by the last tests.
func (t *tank) waterOf(p *fit.Posterior, from float64) Water {
	p = p.Thin(fewDraws)
	s := p.Plan.Current()
	n := len(p.Draws)
	ph, kh, tan, no2, free := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	model.Each(n, func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			run.Reset(p.Plan, &p.Draws[i])
			run.To(from, nil)
			t.stood.Put(run, i)
			run.State.TAN = max(run.State.TAN, float64(t.least))
			run.To(p.Plan.Now, nil)
			ph[i], kh[i], tan[i], no2[i] = run.PH(), float64(unit.MeqL(run.State.Alk).CaCO3()), run.State.TAN, run.State.NO2
			free[i] = tan[i] * chem.FreeAmmoniaFraction(ph[i], s.Temp, s.Salinity) * unit.MolarNH3 / unit.MolarN
		}
	})
	return Water{
		PH: median(ph), KH: unit.MgCaCO3(math.Max(median(kh), 0)), Temp: s.Temp, Ammonia: unit.MgN(median(tan)), Nitrite: unit.MgN(median(no2)), FreeAmmonia: median(free),
		Oxygen: chem.OxygenSaturationAt(s.Temp, s.Salinity, chem.PressureAt(s.Altitude)),
	}
}

// median sorts x.
func median(x []float64) float64 {
	slices.Sort(x)
	return x[len(x)/2]
}
