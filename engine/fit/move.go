package fit

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
)

// chain is how many states each ancestor of a renewal of n draws gives rise to.
// Small populations have shorter chains, so that they still have 64 ancestors.
func chain(n int) int { return min(max(n/64, 1), 16) }

// renewed is how many draws a renewal makes where n were asked for: 1792 of 2048, which are worth
// as many independent ones as it takes to answer (see BenchmarkWorth); of fewer no less than that, or all. Runs
// of more than long days cost so much more, and what a renewal adds to the scatter falls as one over its draws, so it
// makes fewer by the root of that (allocation by cost: Neyman 1934, J. R. Stat. Soc. 97:558-625), not below fewest.
func renewed(n int, days float64) int {
	usual := max(n*7/8, min(n, 1792))
	if days <= long {
		return usual
	}
	return max(int(float64(usual)*math.Sqrt(long/days)), min(n, fewest))
}

const long, fewest = 60, 512

// renew draws the population anew. Ancestors are picked by weight, and each
// makes a chain of Metropolis steps that leave unchanged the posterior of the
// readings before from, plus share of those in [from, upto). The states of all
// chains are the new population, equally weighted, so that no step is wasted
// (waste-free sequential Monte Carlo: Dau & Chopin 2022, J. R. Stat. Soc. B
// 84:114-148). Steps are proposed by a normal fitted to the old population.
func (c *cloud) renew(from, upto int, share float64) {
	n := renewed(c.n, c.b.day(upto-1))
	length := chain(n)
	g := c.gaussian()
	ancestors := c.pick((n + length - 1) / length)
	if len(c.next.x) < n {
		c.next = newPopulation(n)
	}
	c.next = c.next.first(n)
	c.population, c.next = c.next, c.population
	for k, a := range ancestors {
		c.set(k*length, &c.next, a, c.rooms.take())
	}
	c.rooms.clear(&c.next)
	c.logw = make([]float64, n)
	hopes := c.hopes(from, upto, share)
	var found gathered
	c.each(len(ancestors), func(k int, w *worker) {
		accepted, first := 0, k*length
		w.rest(from)
		c.redraw(first, w)
		w.odds = g.log(&c.led[first], &c.x[first]) - logPrior(&c.x[first], c.active)
		for i := first + 1; i < min(first+length, n); i++ {
			if c.step(i, g, from, upto, share, hopes, w) {
				accepted++
			}
			c.redraw(i, w)
		}
		found.add(w.best, accepted)
	})
	if found.of >= enoughToHope {
		c.hope = found.hope
	}
	for k := 1; k < len(ancestors); k++ { // chains that begin alike
		if c.next.twin[ancestors[k]] == c.next.twin[ancestors[k-1]] {
			first := k * length
			for i := first; i < min(first+length, n) && c.twin[i] == first; i++ {
				c.twin[i] = c.twin[first-length]
			}
		}
	}
	c.level()
	c.passes, c.since = c.passes+1, 0
	c.accepted += float64(found.of) / float64(max(n-len(ancestors), 1))
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

// settled returns a population of equal weights, of as many draws as were asked for, which occur
// as often as they weighed, without any move: c is near enough to the posterior. c stays as
// it is, shares its runs, and gives up its room for a next population.
func (c *cloud) settled() *cloud {
	d := *c
	picked := d.pick(c.n)
	d.population = newPopulation(c.n)
	c.next, d.next, d.scale = population{}, population{}, scale{}
	c.rooms, d.rooms, c.room, d.room = new(rooms), nil, nil, nil
	d.logw = make([]float64, c.n)
	d.each(c.n, func(i int, w *worker) {
		j := picked[i]
		d.x[i], d.like[i], d.inc[i], d.run[i] = c.x[j], c.like[j], c.inc[j], c.run[c.twin[j]]
		d.redraw(i, w)
		d.outfit(i, d.b)
	})
	for i := 1; i < c.n; i++ {
		if d.run[i] == d.run[i-1] {
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
		if !marksWater(d) {
			c.x[i][d] = w.rng.NormFloat64()
		}
	})
}

// marksWater says whether an unknown is in a run's water even where nothing tells of it.
func marksWater(d int) bool { return d == tapNO3 || d == nitrateLoss }

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
func (c *cloud) step(i int, g *gaussian, from, upto int, share float64, hopes []float64, w *worker) bool {
	c.x[i], c.par[i], c.lens[i], c.like[i], c.inc[i], c.twin[i] = c.x[i-1], c.par[i-1], c.lens[i-1], c.like[i-1], c.inc[i-1], c.twin[i-1]
	w.x = c.x[i]
	odds := g.draw(&w.x, w.rng)
	c.idle(func(d int) { // of the others the old one stays, until redraw
		if marksWater(d) {
			w.x[d] = w.rng.NormFloat64()
		}
	})
	e := w.early(c.b, &w.x)
	for i, lead := range g.lead {
		w.x[seedAO+i] -= c.b.prior.ahead(seedAO+i, lead, &e)
	}
	c.b.prior.seeds(&w.x, &w.par)
	w.run.Reseed(&w.par)
	// The run stops where even the best that the readings to come could add would
	// leave the log-likelihood below the bound.
	odds -= logPrior(&w.x, c.active)
	bound := c.like[i] + share*c.inc[i] + math.Log(1-w.rng.Float64()) + odds - w.odds
	if hopes[0] < bound {
		return false
	}
	w.run.Coarse()
	w.begin(c.b, c.b.lens(&w.x), 0, from, upto)
	w.share, w.bound, w.hopes, w.passed = share, bound, hopes, w.room
	if !w.run.To(c.b.day(upto-1), w.look) {
		return false
	}
	c.x[i], c.par[i], c.lens[i], c.led[i], c.like[i], c.inc[i], c.twin[i] = w.x, w.par, w.l, c.b.prior.led(&e), w.like, w.inc, i
	c.leg[i].upto = 0
	w.odds = odds
	c.run[i] = c.rooms.take()
	c.run[i].CopyFrom(w.run, &c.par[i])
	for k, before := range w.room {
		w.best[k] = max(w.best[k], w.like-before)
	}
	return true
}

// early puts the worker's run at the start with a draw's parameters but for its seeds, which are at
// their medians, and returns how it fares there.
func (w *worker) early(b *problem, x *z) model.Early {
	y := *x
	y[seedAO], y[seedNOB] = 0, 0
	b.params(&y, &w.par)
	w.run.Reset(b.plan, &w.par)
	return w.run.Early()
}

// logPrior is the log-density of some scores up to a constant.
func logPrior(x *z, of []int) float64 {
	s := 0.0
	for _, d := range of {
		s -= x[d] * x[d]
	}
	return s / 2
}
