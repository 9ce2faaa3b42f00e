// Package advise is the engine's front door: a tank's log in, an outlook or a
// diagnosis out.
package advise

import (
	"math"

	"ripen/engine/diagnose"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Engine answers questions about tanks. It remembers recent fits and answers,
// which changes how fast it is and nothing else. It is safe for use by several
// goroutines. The zero value remembers nothing.
type Engine struct {
	fits     *fit.Memory
	outlooks *recent[outlook.Outlook]
	whys     *recent[diagnose.Diagnosis]
	gains    *recent[tryout.Gain]
	prior    pool.Prior // what a club's tanks taught; see Learned
	taught   uint64     // tells answers that rest on it apart
	hourly   bool       // see Hourly
	short    turns      // of outlooks
	long     turns      // of all else
}

// New returns an engine that remembers the last fits tanks (about 2 MB each) and
// some thousand answers.
func New(fits int) *Engine {
	return &Engine{fits: fit.NewMemory(fits), outlooks: newRecent[outlook.Outlook](answers), whys: newRecent[diagnose.Diagnosis](answers),
		gains: newRecent[tryout.Gain](answers), short: newTurns(), long: newTurns()}
}

// answers is how many of each kind are remembered, some 30 kB each.
const answers = 1024

// Beside returns an engine that shares the answers of e, and so gives them sooner, but
// has fits and turns of its own: for work in the background, which shall push nothing
// out and hold nobody up.
func (e *Engine) Beside(fits int) *Engine {
	x := *e
	x.fits, x.short, x.long = fit.NewMemory(fits), newTurns(), newTurns()
	return &x
}

// Outlook fits the case as known at now, in days since the start, and projects
// it. A now before the start counts as the start.
func (e *Engine) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	plan, assumed := e.ready(c, now)
	k := e.keyOf(plan)
	if o, ok := e.outlooks.get(k); ok {
		return o, nil
	}
	defer e.short.take()()
	if o, ok := e.outlooks.get(k); ok { // who came before asked the same
		return o, nil
	}
	_, o := e.project(plan, assumed, k)
	return o, nil
}

// Why diagnoses the case as known at now, in days since the start, and returns its
// outlook too. The error is nil today, as with Outlook.
func (e *Engine) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	plan, assumed := e.ready(c, now)
	k := e.keyOf(plan)
	if d, ok := e.whys.get(k); ok {
		if o, ok := e.outlooks.get(k); ok {
			return d, o, nil
		}
	}
	defer e.long.take()()
	p, o := e.project(plan, assumed, k)
	d := diagnose.Of(p, o)
	e.whys.put(k, d)
	return d, o, nil
}

func (e *Engine) project(plan *model.Plan, assumed []string, k key) (*fit.Posterior, outlook.Outlook) {
	p := e.fit(plan, assumed)
	o := outlook.Of(p)
	e.outlooks.put(k, o)
	return p, o
}

// ready completes a case and works it out.
func (e *Engine) ready(c model.Case, now unit.Days) (*model.Plan, []string) {
	now = e.moment(c, now)
	full, assumed := model.Complete(c, now)
	full, food := rationed(full, now)
	if food != "" {
		assumed = append(assumed, food)
	}
	return model.NewPlan(full, now), assumed
}

// key tells questions apart: the whole log, when it was asked, how days are numbered, and what was learnt.
type key struct {
	log    uint64
	now    float64
	began  float64 // by which days are numbered
	taught uint64
}

func (e *Engine) keyOf(p *model.Plan) key {
	return key{p.Keys([]float64{math.Inf(1)})[0], p.Now, p.Case.Began, e.taught}
}
