package fit

import (
	"math"
	"sync/atomic"

	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/par"
)

// cloud is a weighted population of draws on its way through the readings.
type cloud struct {
	b      *problem
	seed   uint64
	active []int  // the unknowns that what was taken in can say something about
	stage  uint64 // counts uses of randomness, so that each has its own stream

	x    []z
	par  []model.Params
	run  []model.Run
	like []float64 // log-likelihood of the readings taken in so far
	inc  []float64 // log-likelihood of the readings being taken in
	logw []float64 // log-weights, normalised to a sum of weights of one

	evidence float64 // log marginal likelihood so far
	scale    float64 // of the random-walk move
	passes   int     // move passes made so far
	accepted float64 // sum over passes of the share of moves accepted

	spareX   []z
	sparePar []model.Params
	spareRun []model.Run
	spareF   [2][]float64
	index    []int
}

// newCloud draws n tanks from the prior.
func newCloud(b *problem, n int, seed uint64) *cloud {
	c := &cloud{b: b, seed: seed, scale: 0.6,
		x: make([]z, n), par: make([]model.Params, n), run: make([]model.Run, n),
		like: make([]float64, n), inc: make([]float64, n), logw: make([]float64, n)}
	c.spare()
	spread(c.x, seed)
	c.each(func(i int, _ *worker) {
		b.params(&c.x[i], &c.par[i])
		c.run[i].Reset(b.plan, &c.par[i])
		c.logw[i] = -math.Log(float64(n))
	})
	return c
}

// each calls f once for every draw on all cores, with random numbers that
// depend on the draw and the stage alone.
func (c *cloud) each(f func(i int, w *worker)) {
	c.stage++
	stage := c.seed ^ c.stage*0x9e3779b97f4a7c15
	par.Each(len(c.x), func() func(i int) {
		w := new(worker)
		w.rng = rand.New(&w.src)
		return func(i int) {
			w.src.Seed(stage, uint64(i)*0xbf58476d1ce4e5b9+1)
			f(i, w)
		}
	})
}

// worker is one core's scratch space.
type worker struct {
	src rand.PCG
	rng *rand.Rand
	x   z
	par model.Params
	run model.Run
}

// take takes in the sights of one day, from..upto-1. key stands for all that is
// known up to then, and seeds what is random.
func (c *cloud) take(from, upto int, key uint64) {
	b := c.b
	c.seed, c.stage = key, 0
	day := b.day(from)
	c.active = b.matters(day)
	c.each(func(i int, _ *worker) {
		c.inc[i] = 0
		at := from
		c.run[i].To(day, func(reading int, r *model.Run) bool {
			if at < upto && b.sights[at].reading == reading {
				c.inc[i] += b.sights[at].logLike(r.State.Pools(), &c.x[i], &b.prior, b.bound(&c.x[i]))
				at++
			}
			return true
		})
	})
	done := 0.0
	for round := 0; ; round++ {
		step := c.reweight(1 - done)
		done += step
		if done >= 1-1e-9 {
			break
		}
		c.resample()
		c.move(from, upto, done, 2)
		if round > 25 { // a reading that no draw comes near
			c.reweightBy(1 - done)
			break
		}
	}
	for i := range c.like {
		c.like[i] += c.inc[i]
	}
	if c.ess() < 0.25*float64(len(c.x)) {
		c.resample()
		c.move(from, upto, 1, 2)
	}
}

// reweight raises the share of inc that counts by as much as keeps the
// effective sample size above a fifth, at most by left; it returns by how much.
func (c *cloud) reweight(left float64) float64 {
	low := 0.2 * float64(len(c.x))
	if c.essAfter(left) >= low {
		c.reweightBy(left)
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

// essAfter is the effective sample size if the weights took in step·inc.
func (c *cloud) essAfter(step float64) float64 {
	top := math.Inf(-1)
	for i := range c.logw {
		top = max(top, c.logw[i]+step*c.inc[i])
	}
	var s, q float64
	for i := range c.logw {
		w := math.Exp(c.logw[i] + step*c.inc[i] - top)
		s += w
		q += w * w
	}
	return s * s / q
}

func (c *cloud) ess() float64 { return c.essAfter(0) }

// reweightBy takes step·inc into the weights and the evidence.
func (c *cloud) reweightBy(step float64) {
	top := math.Inf(-1)
	for i := range c.logw {
		c.logw[i] += step * c.inc[i]
		top = max(top, c.logw[i])
	}
	s := 0.0
	for i := range c.logw {
		s += math.Exp(c.logw[i] - top)
	}
	norm := top + math.Log(s)
	for i := range c.logw {
		c.logw[i] -= norm
	}
	c.evidence += norm
}

// resample draws the population anew in proportion to the weights
// (systematically), and makes the weights equal.
func (c *cloud) resample() {
	n := len(c.x)
	c.stage++
	u := rand.New(rand.NewPCG(c.seed, c.stage)).Float64()
	sum, j := 0.0, 0
	for i := range c.x {
		sum += math.Exp(c.logw[i]) * float64(n)
		for j < n && float64(j)+u < sum {
			c.index[j] = i
			j++
		}
	}
	for ; j < n; j++ {
		c.index[j] = n - 1
	}
	for j, i := range c.index {
		c.spareX[j] = c.x[i]
		c.sparePar[j] = c.par[i]
		c.spareRun[j].CopyFrom(&c.run[i], &c.sparePar[j])
		c.spareF[0][j] = c.like[i]
		c.spareF[1][j] = c.inc[i]
		c.logw[j] = -math.Log(float64(n))
	}
	c.x, c.spareX = c.spareX, c.x
	c.par, c.sparePar = c.sparePar, c.par
	c.run, c.spareRun = c.spareRun, c.run
	c.like, c.spareF[0] = c.spareF[0], c.like
	c.inc, c.spareF[1] = c.spareF[1], c.inc
}

// double puts every draw in twice; moves then part the twins.
func (c *cloud) double() {
	n := len(c.x)
	c.x = append(c.x, c.x...)
	par := make([]model.Params, 2*n)
	run := make([]model.Run, 2*n)
	for i := range par {
		par[i] = c.par[i%n]
		run[i].CopyFrom(&c.run[i%n], &par[i])
	}
	c.par, c.run = par, run
	c.like, c.inc = append(c.like, c.like...), append(c.inc, c.inc...)
	c.logw = append(c.logw, c.logw...)
	for i := range c.logw {
		c.logw[i] = -math.Log(float64(2 * n))
	}
}

// move makes Metropolis steps that leave the posterior of the readings before
// from, plus share of those in [from, upto), unchanged: by turns from a normal
// fitted to the population, and as a random walk of its shape. When share is 1
// like already holds inc.
func (c *cloud) move(from, upto int, share float64, passes int) {
	c.moveFrom(0, from, upto, share, passes)
}

// moveFrom moves only the draws from index first on.
func (c *cloud) moveFrom(first, from, upto int, share float64, passes int) {
	g := fitGaussian(c.x, c.active)
	whole := share >= 1
	for pass := range passes {
		walk := pass%2 == 1
		var accepted atomic.Int64
		c.each(func(i int, w *worker) {
			if i < first {
				return
			}
			rng := w.rng
			prop := &w.x
			*prop = c.x[i]
			var ratio float64 // log of prior and proposal ratio
			if walk {
				g.walk(prop, c.scale, rng)
			} else {
				g.draw(prop, rng)
				ratio = g.log(&c.x[i]) - g.log(prop)
			}
			ratio += logPrior(prop) - logPrior(&c.x[i])
			now := c.like[i]
			if !whole {
				now += share * c.inc[i]
			}
			// Log-likelihoods of readings are never above zero, so a sum that has
			// fallen below the bound cannot recover: the run stops there.
			bound := now + math.Log(1-rng.Float64()) - ratio
			if bound > 0 {
				return
			}
			c.b.params(prop, &w.par)
			w.run.Reset(c.b.plan, &w.par)
			like, inc, ok := c.b.play(&w.run, prop, from, upto, share, bound)
			if !ok {
				return
			}
			accepted.Add(1)
			c.x[i], c.par[i] = *prop, w.par
			c.run[i].CopyFrom(&w.run, &c.par[i])
			c.like[i], c.inc[i] = like, inc
			if whole {
				c.like[i] += inc
			}
		})
		moved := float64(accepted.Load()) / float64(len(c.x)-first)
		c.passes++
		c.accepted += moved
		if walk {
			switch {
			case moved < 0.15:
				c.scale *= 0.7
			case moved > 0.4:
				c.scale *= 1.3
			}
		}
	}
}

// play runs a fresh run through the sights up to upto. It returns the
// log-likelihood of those before from and of those from there on, and whether
// like + share·inc stayed above the bound.
func (b *problem) play(run *model.Run, x *z, from, upto int, share, bound float64) (like, inc float64, ok bool) {
	at := 0
	extra := b.bound(x)
	day := b.day(upto - 1)
	ok = run.To(day, func(reading int, r *model.Run) bool {
		if at >= upto || b.sights[at].reading != reading {
			return true
		}
		l := b.sights[at].logLike(r.State.Pools(), x, &b.prior, extra)
		if at < from {
			like += l
		} else {
			inc += l
		}
		at++
		return like+share*inc >= bound
	})
	return like, inc, ok
}

// logPrior is the log-density of the scores up to a constant.
func logPrior(x *z) float64 {
	s := 0.0
	for _, v := range x {
		s -= v * v
	}
	return s / 2
}
