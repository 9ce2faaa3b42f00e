package tryout

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Most is how many changes can be tried at once.
const Most = 5

// ErrNothing says that no change was asked for, ErrMany that more than Most were,
// ErrTwice that two were of one kind.
var (
	ErrNothing = errors.New("nothing to try")
	ErrMany    = errors.New("too many changes to try at once")
	ErrTwice   = errors.New("the same thing is changed twice")
)

// draws is how many draws each rerun uses, and matters how many days a draw must
// save to count as helped.
const (
	draws   = 384
	matters = 0.5
)

// Result is what became of the changes.
type Result struct {
	Before    Water   // now
	Animals   bool    // animals are in
	Fit       string  // as in outlook.Outlook
	Horizon   float64 // days from the start that anything is foretold for
	Ready     float64 // chance that the tank is done now
	NotWithin float64 // chance that it is not done by the horizon, as things are
	Each      []Trial // each change alone, in the order asked
	Together  *Trial  // all of them; nil for a single one
}

// Trial is a tank with something changed, compared with the same going on as now.
type Trial struct {
	Saved     outlook.Quantiles // days, below zero for days lost; never nil. Days past the horizon do not count
	Helps     float64           // chance that it saves half a day or more
	Harms     float64           // chance that it costs half a day or more
	NotWithin float64           // chance that the tank is not done by the horizon
	After     Water             // right after the change
	Effects   []Effect          // what comes with it; of several changes what they come to together
	Already   bool              // nothing to change: it is so
	Lives     *Lives            // of a seed among the changes, how much lives on
}

// tank is the tank as it is.
type tank struct {
	setup   model.Setup // as of now
	habit   model.Habit
	water   Water
	least   unit.MgN  // ammonia that a fresh test showed
	animals bool      // are in
	done    []float64 // done day of each draw, from now to the horizon
	post    *fit.Posterior
	stood   *outlook.Standing // what the last tests show, whatever the draws say
}

// Of tries changes on a fitted tank. Errors are ErrNothing, ErrMany, ErrTwice,
// ErrRange and a *LowerKH, wrapped or not.
func Of(p *fit.Posterior, changes ...Change) (Result, error) {
	if err := check(changes); err != nil {
		return Result{}, err
	}
	never := late(outlook.Foretold(outlook.Shown(p)), p.Plan.End()) // as the outlook has it
	p = p.Thin(draws)
	t := &tank{setup: p.Plan.Current(), habit: p.Plan.Habit, animals: p.Plan.Case.Animals(unit.Days(p.Plan.Now))}
	t.post = with(p, &trial{now: p.Plan.Now, habit: t.habit})
	t.least, t.stood = tested(&p.Plan.Case, p.Plan.Now), outlook.Stands(p)
	t.water = t.waterOf(t.post, p.Plan.Now)
	for _, c := range changes {
		if kh, ok := c.(KH); ok && !c.isSo(t) && float64(kh) < float64(t.water.KH) {
			return Result{}, &LowerKH{Asked: unit.MgCaCO3(kh), Now: t.water.KH}
		}
	}
	t.done = t.doneDays(t.post)
	grade, _ := outlook.Quality(p)
	r := Result{Before: t.water, Fit: grade, Animals: t.animals, Horizon: p.Plan.End()}
	for _, d := range t.done {
		if d <= t.post.Plan.Now {
			r.Ready += 1 / float64(len(t.done))
		}
	}
	r.NotWithin = never
	for _, c := range changes {
		r.Each = append(r.Each, t.try(p, never, c))
	}
	if len(changes) > 1 {
		r.Together = new(t.try(p, never, changes...))
	}
	return r, nil
}

// check refuses what cannot be tried.
func check(changes []Change) error {
	switch n := len(changes); {
	case n == 0:
		return ErrNothing
	case n > Most:
		return ErrMany
	}
	seen := map[reflect.Type]bool{}
	for _, c := range changes {
		if err := c.valid(); err != nil {
			return fmt.Errorf("%T %v: %w", c, c, ErrRange)
		}
		if k := reflect.TypeOf(c); seen[k] {
			return ErrTwice
		} else {
			seen[k] = true
		}
	}
	return nil
}

// try reruns the draws with changes. Of all draws the share never is not done by the
// horizon; what the changes make of that is told draw by draw.
func (t *tank) try(p *fit.Posterior, never float64, changes ...Change) Trial {
	w := &trial{now: p.Plan.Now, habit: t.habit}
	already := true
	for _, c := range changes {
		if !c.isSo(t) {
			already = false
			c.act(t, w)
		}
	}
	done, x := t.done, Trial{Already: already, After: t.water}
	if !already {
		q := with(p, w)
		done, x.After, x.Lives = t.doneDays(q), t.waterOf(q, p.Plan.Now), livesOf(q, changes)
	}
	x.Saved, x.Helps, x.Harms = compared(t.done, done)
	end := t.post.Plan.End()
	x.NotWithin = min(max(never+late(done, end)-late(t.done, end), 0), 1)
	x.Effects = t.effects(&x, changes)
	return x
}

// with is a posterior whose plan has the trial in it.
func with(p *fit.Posterior, w *trial) *fit.Posterior {
	q := *p
	q.Plan = w.plan(p.Plan)
	return &q
}

// doneDays returns the done day of each draw as an outlook foretells it, not before now
// and at most the horizon. A draw is under the same doubts with a change and without.
func (t *tank) doneDays(p *fit.Posterior) []float64 {
	d := outlook.Supposed(p, t.stood)
	for i := range d {
		d[i] = min(max(d[i], p.Plan.Now), p.Plan.End())
	}
	return d
}

// doneFrom returns the same by the draws alone, not before another day.
func doneFrom(p *fit.Posterior, day float64) []float64 {
	cs := outlook.Courses(p, 0, nil)
	d := make([]float64, len(cs))
	for i := range cs {
		d[i] = min(max(cs[i].Done, day), p.Plan.End())
	}
	return d
}

// compared says what each draw saves, done on the days after instead of before.
func compared(before, after []float64) (days outlook.Quantiles, helps, harms float64) {
	saved := make([]float64, len(after))
	for i := range after {
		saved[i] = before[i] - after[i]
		switch {
		case saved[i] >= matters:
			helps += 1 / float64(len(after))
		case saved[i] <= -matters:
			harms += 1 / float64(len(after))
		}
	}
	slices.Sort(saved)
	at := func(q float64) *float64 {
		return new(math.Round(10*saved[int(q*float64(len(saved)))]) / 10)
	}
	return outlook.Quantiles{P10: at(0.1), P50: at(0.5), P90: at(0.9)}, helps, harms
}

// late is the share of draws that are not done by the horizon.
func late(done []float64, end float64) (share float64) {
	for _, d := range done {
		if d >= end {
			share += 1 / float64(len(done))
		}
	}
	return share
}
