package fit

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/par"

	"gonum.org/v1/gonum/mat"
)

// gaussian is a normal distribution fitted to a population, over the unknowns
// that the readings can say something about. The others keep their prior.
//
// A tank's readings tell when its ammonia and its nitrite went, and draws that have them go then
// lie on a bent surface: what bacteria lack at first they make up for by growing faster, which they
// do exponentially. So in place of the two seeds, which come last, the normal is one of what they
// would have oxidised after lead days of growth with all the food they want (model.Early), or
// of the seeds as they are where these lie nearer to a plane. For given other unknowns each is the
// seed's score and a number, so densities are the same.
type gaussian struct {
	of   []int // the unknowns, the seeds last
	mean z
	chol [dims][dims]float64 // lower triangle, by position in of
	lead [2]int              // of leads, by seed
}

// widen is the widening of independent draws against the fitted normal.
const widen = 1.08

// leads are what is tried, in days; 0 leaves seeds as they are.
var leads = [...]float64{0, 2, 4, 7, 10, 14}

// sample is what a normal is fitted to: of twins, which are the same in all this, only the first.
type sample struct {
	own    []int
	weight []float64
	off    []z                   // from the mean, by position in of
	bent   [len(leads)][]float64 // what bend tries
}

// sample returns the population's, with room for the rest, good until the next.
func (c *cloud) sample() *sample {
	s := c.room
	if s == nil {
		n := len(c.x)
		s = &sample{make([]int, 0, n), make([]float64, n), make([]z, n), [len(leads)][]float64{}}
		for k := range s.bent {
			s.bent[k] = make([]float64, n)
		}
		c.room = s
	}
	s.own, s.weight = s.own[:0], s.weight[:len(c.x)]
	clear(s.weight)
	for i, t := range c.twin {
		if t == i {
			s.own = append(s.own, i)
		}
		s.weight[t] += math.Exp(c.logw[i])
	}
	for k, i := range s.own {
		s.weight[k] = s.weight[i]
	}
	s.off = s.off[:len(s.own)]
	return s
}

// gaussian fits one to the population.
func (c *cloud) gaussian() *gaussian {
	g := &gaussian{of: make([]int, 0, len(c.active))}
	for _, d := range c.active {
		if d != seedAO && d != seedNOB {
			g.of = append(g.of, d)
		}
	}
	rest := len(g.of)
	g.of = append(g.of, seedAO, seedNOB)

	s := c.sample()
	own, weight, off := s.own, s.weight, s.off
	for k, i := range own {
		for _, d := range g.of[:rest] {
			g.mean[d] += weight[k] * c.x[i][d]
		}
	}

	var cov [dims][dims]float64
	for k, i := range own {
		for a, d := range g.of[:rest] {
			off[k][a] = c.x[i][d] - g.mean[d]
		}
	}
	par.Each(rest, func() func(int) {
		return func(k int) {
			a := rest - 1 - k // the longest first
			for i := range off {
				va := weight[i] * off[i][a]
				for b := 0; b <= a; b++ {
					cov[a][b] += va * off[i][b]
				}
			}
		}
	})
	for a := range rest {
		g.chol[a] = g.row(a, &cov[a])
	}
	for a, d := range g.of[rest:] {
		g.bend(c, rest+a, d, s)
	}
	g.confine(&cov, rest)
	return g
}

// confine makes the first unknowns no wider than their prior, in any direction, given their covariance.
// Seeds follow them as before.
func (g *gaussian) confine(cov *[dims][dims]float64, rest int) {
	wide := *g
	narrow(cov, rest)
	for a := range rest {
		g.chol[a] = g.row(a, &cov[a])
	}
	for a := rest; a < len(g.of); a++ {
		var slope z // of the seed, by unknown: slope·wide.chol is its row
		for b := rest - 1; b >= 0; b-- {
			s := wide.chol[a][b]
			for k := b + 1; k < rest; k++ {
				s -= slope[k] * wide.chol[k][b]
			}
			slope[b] = s / wide.chol[b][b]
		}
		for b := range rest {
			s := 0.0
			for k := b; k < rest; k++ {
				s += slope[k] * g.chol[k][b]
			}
			g.chol[a][b] = s
		}
	}
}

// row works out row a of the factor from that of the covariance and the rows before.
func (g *gaussian) row(a int, cov *[dims]float64) (row [dims]float64) {
	for b := range a {
		s := cov[b]
		for k := range b {
			s -= row[k] * g.chol[b][k]
		}
		row[b] = s / g.chol[b][b]
	}
	s := cov[a] + 1e-4 // defined even when draws have run together
	for k := range a {
		s -= row[k] * row[k]
	}
	row[a] = math.Sqrt(max(s, 1e-8))
	return row
}

// bend chooses the lead of seed d, in row a, that leaves least of its spread unexplained.
func (g *gaussian) bend(c *cloud, a, d int, s *sample) {
	var tried [len(leads)]struct {
		mean float64
		row  [dims]float64
	}
	par.Each(len(leads), func() func(int) {
		return func(k int) {
			t, off := &tried[k], s.bent[k]
			for i, j := range s.own {
				off[i] = c.x[j][d] + c.led[j][d-seedAO][k]
				t.mean += s.weight[i] * off[i]
			}
			var cov [dims]float64
			for i := range s.own {
				off[i] -= t.mean
				v := s.weight[i] * off[i]
				for b := range a {
					cov[b] += v * s.off[i][b]
				}
				cov[a] += v * off[i]
			}
			t.row = g.row(a, &cov)
		}
	})
	best := 0
	for k := range tried {
		if tried[k].row[a] < tried[best].row[a] {
			best = k
		}
	}
	g.lead[d-seedAO], g.mean[d], g.chol[a] = best, tried[best].mean, tried[best].row
	g.chol[a][a] = min(g.chol[a][a], 1) // as narrow
	for i := range s.off {
		s.off[i][a] = s.bent[best][i]
	}
}

// led is by how many scores each lead puts each seed of a draw ahead.
type led [2][len(leads)]float64

// led returns it; e is the draw's with both seeds at their medians.
func (p *Prior) led(e *model.Early) (l led) {
	for k := range leads {
		l[0][k], l[1][k] = p.ahead(seedAO, k, e), p.ahead(seedNOB, k, e)
	}
	return l
}

// ahead is that of one lead.
func (p *Prior) ahead(seed, lead int, e *model.Early) float64 {
	switch {
	case lead == 0:
		return 0
	case seed == seedAO:
		return math.Log(e.Ammonia(leads[lead])) / p.SeedAO.sd
	default:
		return math.Log(e.Nitrite(leads[lead])) / p.SeedNOB.sd
	}
}

// narrow makes a covariance of scores no wider in any direction than their prior, which
// readings only ever narrow, but for the chance of a sample.
func narrow(cov *[dims][dims]float64, n int) {
	sym := mat.NewSymDense(n, nil)
	for a := range n {
		for b := 0; b <= a; b++ {
			sym.SetSym(a, b, cov[a][b])
		}
	}
	var e mat.EigenSym
	if !e.Factorize(sym, true) {
		return
	}
	var along mat.Dense
	e.VectorsTo(&along)
	for k, v := range e.Values(nil) {
		for a := 0; v > 1 && a < n; a++ {
			for b := 0; b <= a; b++ {
				cov[a][b] -= (v - 1) * along.At(a, k) * along.At(b, k)
			}
		}
	}
}

// draw puts an independent draw of the widened normal into x, its seeds still ahead, and returns its
// log-density up to a constant.
func (g *gaussian) draw(x *z, rng *rand.Rand) float64 {
	var e z
	sum := 0.0
	for a := range g.of {
		v := rng.NormFloat64()
		sum -= v * v
		e[a] = v * widen
	}
	for a, d := range g.of {
		s := g.mean[d]
		for b := 0; b <= a; b++ {
			s += g.chol[a][b] * e[b]
		}
		x[d] = s
	}
	return sum / 2
}

// log is the log-density of independent draws, up to a constant.
func (g *gaussian) log(l *led, x *z) float64 {
	y := *x
	for i, lead := range g.lead {
		y[seedAO+i] += l[i][lead]
	}
	var v z
	sum := 0.0
	for a, d := range g.of {
		s := y[d] - g.mean[d]
		for b := 0; b < a; b++ {
			s -= g.chol[a][b] * v[b]
		}
		v[a] = s / g.chol[a][a]
		sum -= v[a] * v[a]
	}
	return sum / (2 * widen * widen)
}
