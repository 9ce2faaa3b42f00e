package fit

import (
	"fmt"
	"hash/fnv"
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Draws is how many draws a full posterior holds.
const Draws = 2048

// Posterior is a fitted tank: equally likely draws of its unknowns.
type Posterior struct {
	Plan     *model.Plan    // what was fitted
	Prior    Prior          // what was believed before
	Draws    []model.Params // equally likely
	Scores   []z            // the draws as standard normal scores
	Evidence float64        // log marginal likelihood of the readings
	ESS      float64        // effective sample size before the last resampling
	Readings int            // readings taken in
	Passes   int            // times that the population was renewed
	Accepted float64        // mean share of Metropolis steps accepted
	Odd      []Odd          // readings that hardly a draw explains, of a mean probability below 0.05
	Unlikely []Odd          // those and others that few do, below 0.25
	Assumed  []string       // what model.Complete assumed

	runs   []*model.Run // the draws after the last reading
	at     []int        // index of each draw in runs, unless it is the same
	shared bool         // draws with the same index are the same up to now
	trail  trail        // how some of the draws came here
	of     []int        // index of each draw before Thin and Pick, unless it is the same
}

// Fit fits the case as known at now, in days since the start, 0 or more, under a
// hypothesis, with n draws: Draws for answers, 64 or more. The case's lists must be
// ordered by day. It completes the case first; see model.Complete. There is no
// error: readings that nothing explains come back as Odd.
func Fit(c model.Case, now unit.Days, h Hypothesis, n int) *Posterior {
	full, assumed := model.Complete(c, now)
	return FitPlan(model.NewPlan(full, now), assumed, h, n)
}

// FitPlan fits a plan whose case is complete; assumed is what was put into it, in
// plain words, and only passed on. See Fit for the rest.
func FitPlan(plan *model.Plan, assumed []string, h Hypothesis, n int) *Posterior {
	return (*Memory)(nil).FitPlan(plan, assumed, h, n)
}

// FitPlan is the same, from where an earlier fit of the same log stopped. A nil
// memory remembers nothing.
func (m *Memory) FitPlan(plan *model.Plan, assumed []string, h Hypothesis, n int) *Posterior {
	b := newProblem(plan, h)
	days := []float64{0}
	for _, v := range b.visits {
		days = append(days, v.day)
	}
	keys := plan.Keys(days)
	for i := range keys {
		keys[i] ^= h.key(n)
	}
	p := &Posterior{Plan: b.plan, Prior: b.prior, Readings: b.told, Assumed: assumed}
	if len(b.visits) == 0 {
		c := newCloud(b, n, keys[0])
		p.ESS, p.Draws, p.Scores = float64(n), c.par, c.x
		return p
	}
	at := m.recall(keys[1:], b)
	if at == nil {
		at = &path{cloud: newCloud(b, n, keys[0])}
	}
	for ; at.visits < len(b.visits); at.visits++ {
		at.key = keys[at.visits+1]
		at.cloud.take(at.visits, at.key)
	}
	c := at.cloud.settled()
	m.keep(at)
	p.Evidence, p.ESS = c.evidence, at.cloud.ess()
	p.trail, p.Unlikely = c.past()
	for _, x := range p.Unlikely {
		if x.Prob < odd {
			p.Odd = append(p.Odd, x)
		}
	}
	p.Draws, p.Scores, p.runs, p.at = c.par, c.x, c.run, c.twin
	p.shared = len(c.active) == len(b.active)
	p.Passes, p.Accepted = c.passes, c.accepted/float64(max(c.passes, 1))
	return p
}

// key tells hypotheses and numbers of draws apart.
func (h Hypothesis) key(n int) uint64 {
	f := fnv.New64a()
	fmt.Fprint(f, h, n)
	return f.Sum64()
}

// Resume puts draw i into run as it stands after the last reading; if the
// posterior's plan was exchanged, at the start of the new one.
func (p *Posterior) Resume(i int, run *model.Run) {
	if !p.ran(i) {
		run.Reset(p.Plan, &p.Draws[i])
		return
	}
	run.CopyFrom(p.runs[p.run(i)], &p.Draws[i])
}

// ran says whether draw i was run through the posterior's plan.
func (p *Posterior) ran(i int) bool { return p.runs != nil && p.runs[p.run(i)].On(p.Plan) }

// Way returns a number for the way that draw i came: up to now, draws of the same
// number are one tank.
func (p *Posterior) Way(i int) int {
	if !p.shared || !p.ran(i) {
		return i
	}
	return p.run(i)
}

// run is where draw i stands in runs.
func (p *Posterior) run(i int) int {
	if p.at == nil {
		return i
	}
	return p.at[i]
}

// before is the index that draw i had before Thin and Pick.
func (p *Posterior) before(i int) int {
	if p.of == nil {
		return i
	}
	return p.of[i]
}

// Kit is the member's kit under one draw.
type Kit struct{ bias [3]float64 } // factors

// Kit returns that of a draw.
func (p *Posterior) Kit(draw int) (k Kit) {
	for sp := range k.bias {
		k.bias[sp] = math.Exp(p.Prior.Bias[sp] * p.Scores[draw][biasNH+sp])
	}
	return k
}

// Shows returns what the kit, with its bias but without its noise, shows of the pools, mg/L on
// the ion scale: the pool times the bias.
func (k *Kit) Shows(q model.Pools, sp unit.Species) float64 { return view(q, sp) * k.bias[sp] }

// Thin returns a posterior of n of the draws, or p itself when it has no more: the first ones of
// a prior, which fill it evenly, and else every so many, as those of one chain stand together.
func (p *Posterior) Thin(n int) *Posterior {
	if len(p.Draws) <= n {
		return p
	}
	t := *p
	t.Draws, t.Scores, t.at, t.of = make([]model.Params, n), make([]z, n), make([]int, n), make([]int, n)
	for i := range n {
		j := i
		if p.runs != nil {
			j = i * len(p.Draws) / n
		}
		t.Draws[i], t.Scores[i] = p.Draws[j], p.Scores[j]
		t.at[i], t.of[i] = p.run(j), p.before(j)
	}
	return &t
}
