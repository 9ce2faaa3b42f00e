package fit

import (
	"math"
	"math/rand/v2"
	"sync/atomic"
)

// chain is how many states each ancestor of a renewal of n draws gives rise to.
// Small populations have shorter chains, so that they still have 64 ancestors.
func chain(n int) int { return min(max(n/64, 1), 16) }

// renew draws the population anew. Ancestors are picked by weight, and each
// makes a chain of Metropolis steps that leave unchanged the posterior of the
// readings before from, plus share of those in [from, upto). The states of all
// chains are the new population, equally weighted, so that no step is wasted
// (waste-free sequential Monte Carlo: Dau & Chopin 2022, J. R. Stat. Soc. B
// 84:114-148). Steps are proposed by a normal fitted to the old population.
func (c *cloud) renew(from, upto int, share float64) {
	n := len(c.x)
	length := chain(n)
	g := fitGaussian(c.x, c.logw, c.active)
	old := c.population
	ancestors := c.pick((n + length - 1) / length)
	if len(c.next.x) != n {
		c.next = newPopulation(n)
	}
	c.population, c.next = c.next, old
	var accepted atomic.Int64
	c.each(len(ancestors), func(k int, w *worker) {
		first := k * length
		c.set(first, &old, ancestors[k])
		c.redraw(first, w)
		w.odds = g.log(&c.x[first]) - logPrior(&c.x[first], c.active)
		for i := first + 1; i < min(first+length, n); i++ {
			if c.step(i, g, from, upto, share, w) {
				accepted.Add(1)
			}
			c.redraw(i, w)
		}
	})
	for k := 1; k < len(ancestors); k++ { // chains that begin alike
		if old.twin[ancestors[k]] == old.twin[ancestors[k-1]] {
			first := k * length
			for i := first; i < min(first+length, n) && c.twin[i] == first; i++ {
				c.twin[i] = c.twin[first-length]
			}
		}
	}
	c.level()
	c.passes++
	c.accepted += float64(accepted.Load()) / float64(max(n-len(ancestors), 1))
}

// pick picks m draws by weight, systematically.
func (c *cloud) pick(m int) []int {
	c.stage++
	u := rand.New(rand.NewPCG(c.seed, c.stage)).Float64()
	out := make([]int, 0, m)
	sum := 0.0
	for i := range c.logw {
		sum += math.Exp(c.logw[i]) * float64(m)
		for len(out) < m && float64(len(out))+u < sum {
			out = append(out, i)
		}
	}
	for len(out) < m {
		out = append(out, len(c.logw)-1)
	}
	return out
}

// settled returns a population of equal weights in which draws occur as often as
// they weighed, without any move: c is near enough to the posterior. c stays as
// it is, but gives up its room for a next population.
func (c *cloud) settled() *cloud {
	d := *c
	picked := d.pick(len(c.x))
	d.population = c.next
	if len(d.x) != len(c.x) {
		d.population = newPopulation(len(c.x))
	}
	c.next, d.next, d.scale = population{}, population{}, scale{}
	d.logw = make([]float64, len(c.logw))
	d.each(len(picked), func(i int, w *worker) {
		if j := picked[i]; i > 0 && c.twin[j] == c.twin[picked[i-1]] {
			d.x[i], d.par[i], d.like[i], d.inc[i], d.twin[i] = c.x[j], c.par[j], c.like[j], c.inc[j], -1
		} else {
			d.set(i, &c.population, j)
		}
		d.redraw(i, w)
		d.b.params(&d.x[i], &d.par[i])
	})
	for i, t := range d.twin {
		if t < 0 {
			d.twin[i] = d.twin[i-1]
		}
	}
	d.level()
	return &d
}

// redraw draws the unknowns that have had no effect so far anew from their prior.
// Else only copies would be left of a few draws of them. The parameters follow when they
// come to have an effect; see part.
func (c *cloud) redraw(i int, w *worker) {
	c.idle(func(d int) {
		if d != tapNO3 && d != nitrateLoss { // those are in the water already
			c.x[i][d] = w.rng.NormFloat64()
		}
	})
}

// idle calls f for each unknown that nothing taken in can tell anything of.
func (c *cloud) idle(f func(d int)) {
	next := 0
	for d := range dims {
		if next < len(c.active) && c.active[next] == d {
			next++
			continue
		}
		f(d)
	}
}

// step makes draw i of the draw before it: another one if what is proposed is
// accepted, which it says, else its twin.
func (c *cloud) step(i int, g *gaussian, from, upto int, share float64, w *worker) bool {
	c.x[i], c.par[i], c.like[i], c.inc[i], c.twin[i] = c.x[i-1], c.par[i-1], c.like[i-1], c.inc[i-1], c.twin[i-1]
	w.x = c.x[i]
	g.draw(&w.x, w.rng)
	c.idle(func(d int) { w.x[d] = w.rng.NormFloat64() })
	// The run stops where even the best that the readings to come could add would
	// leave the log-likelihood below the bound.
	odds := g.log(&w.x) - logPrior(&w.x, c.active)
	bound := c.like[i] + share*c.inc[i] + math.Log(1-w.rng.Float64()) + odds - w.odds
	if c.b.hope(0, from, upto, share) < bound {
		return false
	}
	c.b.params(&w.x, &w.par)
	w.run.Reset(c.b.plan, &w.par)
	w.run.Coarse()
	w.begin(c.b, &w.x, 0, from, upto)
	w.share, w.bound = share, bound
	if !w.run.To(c.b.day(upto-1), w.look) {
		return false
	}
	c.x[i], c.par[i], c.like[i], c.inc[i], c.twin[i] = w.x, w.par, w.like, w.inc, i
	w.odds = odds
	c.own(i).CopyFrom(w.run, &c.par[i])
	return true
}

// logPrior is the log-density of some scores up to a constant.
func logPrior(x *z, of []int) float64 {
	s := 0.0
	for _, d := range of {
		s -= x[d] * x[d]
	}
	return s / 2
}
