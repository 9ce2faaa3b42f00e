package study

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Stages are the shares of a tank's true way at which its outlook is asked for.
var Stages = [...]float64{0, 0.20, 0.35, 0.50, 0.65, 0.80}

// Days are the days on which the outlooks of all tanks that are not done yet are
// asked for as well: that is how keepers ask. A stage is a share of a way that
// nobody knows before its end, so it picks, of all tanks that look the same on that day, those that will
// be done soon; no forecast can be right on average over such a choice.
var Days = [...]float64{7, 14, 28, 56}

// Tank is one wild tank and how its outlooks did.
type Tank struct {
	Kind  string  // the sort of set-up
	Done  float64 // the day on which it was truly done; the horizon when Late
	Late  bool    // it was not done within the horizon
	Asked []Asked // one for each stage; the first only if it was done on day 0
	OnDay []Asked // one for each of Days before it was done
}

// Asked is one outlook, scored.
type Asked struct {
	Now           float64 // days since the start
	P10, P50, P90 float64 // of the done day; the horizon when past it
	Readings      int
	Stage, Fit    string     // as the outlook says
	In            [3]float64 // by how much the intervals of Levels hold the truth
	Side          float64    // -1 when the truth lies before the 80 % interval, 1 when after
	CRPS          float64    // days
	Cold, Month   float64    // CRPS of the outlook of day 0, and of "a month" for all
}

// Levels are the intervals scored.
var Levels = [...]float64{0.50, 0.80, 0.95}

// Truth draws tanks from a wider truth than the model assumes, asks for their
// outlooks on the way, from what their keepers had told by then, and scores
// these against the day on which each tank was truly done: when the target dose
// clears within 24 hours, by trial.
func Truth(q Question, p Progress) Report {
	r := Report{Question: q}
	for i := range q.Tanks {
		w := keepWild(rand.New(rand.NewPCG(q.Seed, uint64(i)+1<<32)), q.Own, q.Tidy)
		r.Each = append(r.Each, q.ask(&w))
		p.tell(i+1, q.Tanks)
	}
	return r
}

// Question is what a study of outlooks is to be about.
type Question struct {
	Tanks, Draws int // how many tanks; draws of each fit, 64 or more
	Seed         uint64
	Own          bool // the tanks follow the engine's own laws, kept and read as ever
	Tidy         bool // their keepers read each evening and write all down as it is
	Bare         bool // what is scored is the draws alone, without what outlooks allow for beyond them
}

// ask asks for the outlooks of a wild tank.
func (q *Question) ask(w *wild) Tank {
	t := Tank{Kind: w.kind, Done: w.done, Late: w.late}
	memory := fit.NewMemory(len(Stages) + len(Days))
	cold := q.askOn(w, 0, memory)
	score := func(now float64) Asked {
		a := q.askOn(w, now, memory)
		a.Cold = cold.CRPS
		return a
	}
	for _, share := range Stages {
		if share == 0 || w.done > 0 {
			t.Asked = append(t.Asked, score(share*w.done))
		}
	}
	for _, day := range Days {
		if day < w.done {
			t.OnDay = append(t.OnDay, score(day))
		}
	}
	return t
}

// askOn asks for one outlook and scores it, all but Cold.
func (q *Question) askOn(w *wild, now float64, memory *fit.Memory) Asked {
	full, assumed := model.Complete(w.upTo(now), unit.Days(now))
	p := memory.FitPlan(model.NewPlan(full, unit.Days(now)), assumed, fit.Hypothesis{}, q.Draws)
	o := outlook.Of(p)
	f := forecastOf(o.ChanceDoneOn)
	if q.Bare {
		f = bare(p)
	}
	a := Asked{Now: now, P10: f.quantile(0.1), P50: f.quantile(0.5), P90: f.quantile(0.9),
		Readings: o.Readings, Stage: o.Stage, Fit: o.Fit, CRPS: f.crps(w.done), Month: aMonth().crps(w.done)}
	for i, level := range Levels {
		var side float64
		if a.In[i], side = f.within(w.done, w.late, level); level == 0.80 {
			a.Side = side
		}
	}
	return a
}

// bare is the forecast of the draws as they are.
func bare(p *fit.Posterior) forecast {
	var done []float64
	for _, c := range outlook.Courses(p, 0, nil) {
		done = append(done, c.Done)
	}
	slices.Sort(done)
	return forecastOf(func(day float64) float64 {
		i, _ := slices.BinarySearch(done, math.Nextafter(day, math.Inf(1)))
		return float64(i) / float64(len(done))
	})
}

// upTo is what was told by then.
func (w *wild) upTo(now float64) model.Case {
	c := model.Case{Setup: w.told.Setup}
	for _, e := range w.told.Events {
		if float64(e.Day) <= now {
			c.Events = append(c.Events, e)
		}
	}
	for _, r := range w.told.Readings {
		if float64(r.Day) <= now {
			c.Readings = append(c.Readings, r)
		}
	}
	slices.SortStableFunc(c.Readings, func(a, b model.Reading) int { return cmp.Compare(a.Day, b.Day) })
	return c
}
