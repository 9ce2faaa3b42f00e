package fit

import (
	"math"
	"math/rand/v2"
	"sync/atomic"

	"ripen/engine/model"
	"ripen/engine/par"
)

// cloud is a weighted population.
type cloud struct {
	population
	n      int // draws asked for, as many as there are until the first renewal
	b      *problem
	seed   uint64
	active []int      // the unknowns that what was taken in can say something about
	stage  uint64     // counts uses of randomness, so that each has its own stream
	logw   []float64  // log-weights, normalised to a sum of weights of one
	next   population // room for the population to come, or none
	rooms  *rooms     // and for its runs
	room   *sample    // and for what it is fitted to, or nil
	hope   hope
	scale  scale
	end    int   // the visit after the last that runs went ahead to
	since  int   // visits taken in since the last renewal
	behind []int // those to be brought there

	workers []*worker // scratch space, made when needed

	evidence float64 // log marginal likelihood so far
	passes   int     // renewals so far
	accepted float64 // sum over renewals of the share of steps accepted
}

// newCloud draws n tanks from the prior.
func newCloud(b *problem, n int, seed uint64) *cloud {
	c := &cloud{population: newPopulation(n), n: n, rooms: new(rooms), b: b, seed: seed, logw: make([]float64, n), hope: hope{0}, workers: make([]*worker, workersKept)}
	spread(c.x, seed)
	c.each(n, func(i int, w *worker) {
		c.outfit(i, b)
		e := w.early(b, &c.x[i])
		c.led[i] = b.prior.led(&e)
		c.run[i] = b.plan.Start(&c.par[i])
		c.run[i].Coarse()
	})
	c.level()
	return c
}

// part gives every draw a run and parameters of its own.
func (c *cloud) part() {
	p := &c.population
	par.Each(len(p.twin), func() func(int) {
		return func(i int) {
			c.b.params(&p.x[i], &p.par[i])
			if t := p.twin[i]; t != i {
				p.run[i], p.twin[i] = c.rooms.take(), i
				p.run[i].CopyFrom(p.run[t], &p.par[i])
				p.led[i], p.leg[i] = p.led[t], p.leg[t]
			}
		}
	})
}

// level makes the weights equal.
func (c *cloud) level() {
	for i := range c.logw {
		c.logw[i] = -math.Log(float64(len(c.logw)))
	}
}

// each calls f once for every i in 0..n-1 on all cores, with random numbers
// that depend on i and the stage alone.
func (c *cloud) each(n int, f func(i int, w *worker)) {
	c.stage++
	stage := c.seed ^ c.stage*0x9e3779b97f4a7c15
	var taken atomic.Int32
	model.Each(n, func(on *model.Lane) func(i int) {
		w := c.worker(int(taken.Add(1)) - 1)
		w.on, w.run = on, on.Run()
		return func(i int) {
			w.src.Seed(stage, uint64(i)*0xbf58476d1ce4e5b9+1)
			f(i, w)
		}
	})
}

// workersKept is how many workers a cloud keeps; on a machine that has more at work at the
// same time, the others are made anew each time.
const workersKept = 64

// worker returns worker k of those at work at the same time.
func (c *cloud) worker(k int) *worker {
	if k < len(c.workers) && c.workers[k] != nil {
		return c.workers[k]
	}
	w := new(worker)
	w.rng, w.look, w.note = rand.New(&w.src), w.see, w.noted
	if k < len(c.workers) {
		c.workers[k] = w
	}
	return w
}

// worker is the scratch space of one of those who work at the same time.
type worker struct {
	src  rand.PCG
	rng  *rand.Rand
	x    z
	par  model.Params
	odds float64 // of a chain's last state: by how much its proposal is likelier than its prior, as logarithm
	on   *model.Lane
	run  *model.Run // on it
	watch
	look  func(reading int, r *model.Run) bool // see of the watch
	note  func(reading int, r *model.Run) bool // noted of the worker
	leg   *leg                                 // being gone
	visit int                                  // of it
	room  []float64                            // of the watch
	best  []float64                            // by sight, the most that it and those after it brought a draw of a chain
}

// take takes in the sights of visit v. key stands for all that is known up to then, and
// seeds what is random.
func (c *cloud) take(v int, key uint64) {
	b := c.b
	c.seed, c.stage = key, 0
	before := len(c.active)
	if c.active = b.matters(b.visits[v].day); len(c.active) > before {
		c.part() // what had no effect so far may have one from here on
	}
	c.reach(v)
	from, upto := b.first(v), b.visits[v].upto
	best := math.Inf(-1)
	for i, t := range c.twin {
		if t == i {
			c.inc[i] = c.leg[i].like[v-c.leg[i].from]
		}
		c.inc[i] = c.inc[t]
		best = max(best, c.inc[i])
	}
	done := 0.0
	for round := 0; ; round++ {
		step := c.reweight(1 - done)
		done += step
		if done >= 1-1e-9 {
			break
		}
		c.renew(from, upto, done)
		if round > 25 { // a reading that no draw comes near
			c.reweightBy(1 - done)
			break
		}
	}
	for i := range c.like {
		c.like[i] += c.inc[i]
		c.inc[i] = 0
	}
	c.grow(from, upto, best)
	c.since++
	if c.scale.ess < enough*float64(len(c.x)) {
		c.renew(upto, upto, 0)
	}
}

// Shares of the effective sample size: below enough the population is renewed
// after a day's readings; these are taken in by degrees that leave no less than
// least.
const enough, least = 0.5, 0.35

// reweight raises the share of inc that counts by as much as keeps the
// effective sample size above least, at most by left; it returns by how much.
func (c *cloud) reweight(left float64) float64 {
	low := least * float64(len(c.x))
	if c.essAfter(left) >= low {
		c.absorb(left)
		return left
	}
	lo, hi := 0.0, left
	for range 30 {
		mid := (lo + hi) / 2
		if c.essAfter(mid) >= low {
			lo = mid
		} else {
			hi = mid
		}
	}
	lo = max(lo, 1e-4)
	c.reweightBy(lo)
	return lo
}

// reweightBy takes step·inc into the weights and the evidence.
func (c *cloud) reweightBy(step float64) {
	c.essAfter(step)
	c.absorb(step)
}

// absorb is reweightBy when essAfter was asked for this step last.
func (c *cloud) absorb(step float64) {
	norm := c.scale.top + math.Log(c.scale.sum)
	for i := range c.logw {
		c.logw[i] = c.logw[i] + step*c.inc[i] - norm
	}
	c.evidence += norm
}

// essAfter is the effective sample size if the weights took in step·inc. Twins weigh alike.
func (c *cloud) essAfter(step float64) float64 {
	s := &c.scale
	s.top, s.sum = math.Inf(-1), 0
	for i := range c.logw {
		s.top = max(s.top, c.logw[i]+step*c.inc[i])
	}
	if len(s.w) != len(c.logw) {
		s.w = make([]float64, len(c.logw))
	}
	squares := 0.0
	for i, t := range c.twin {
		w := s.w[t] // of an earlier draw, or about to be set
		if t == i {
			w = math.Exp(c.logw[i] + step*c.inc[i] - s.top)
		}
		s.w[i] = w
		s.sum += w
		squares += w * w
	}
	s.ess = s.sum * s.sum / squares
	return s.ess
}

// scale is what weighing the draws came to last.
type scale struct {
	w        []float64 // weights over the highest
	top, sum float64   // the logarithm of the highest, and their sum
	ess      float64
}

// ess is the effective sample size.
func (c *cloud) ess() float64 { return c.essAfter(0) }
