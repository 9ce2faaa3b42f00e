package fit

import (
	"math"
	"math/rand/v2"
	"slices"

	"ripen/engine/model"
	"ripen/engine/par"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
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
	lead [2]float64          // days, or 0 for seeds as they are, of ammonia and of nitrite oxidisers
}

// widen is the widening of independent draws against the fitted normal.
const widen = 1.08

// leads are what is tried.
var leads = [...]float64{0, 2, 4, 7, 10, 14}

// sample is what a normal is fitted to: of twins, which are the same in all this, only the first.
type sample struct {
	own    []int
	weight []float64
	early  []model.Early
	off    []z                   // from the mean, by position in of
	bent   [len(leads)][]float64 // what bend tries
}

// sample returns the population's, with room for the rest, good until the next.
func (c *cloud) sample() *sample {
	s := c.room
	if s == nil {
		n := len(c.x)
		s = &sample{make([]int, 0, n), make([]float64, n), make([]model.Early, n), make([]z, n), [len(leads)][]float64{}}
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
	n := len(s.own)
	s.early, s.off = s.early[:n], s.off[:n]
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
	own, weight, early, off := s.own, s.weight, s.early, s.off
	par.Each(len(own), func() func(int) {
		run, p := new(model.Run), new(model.Params)
		return func(k int) {
			c.b.params(&c.x[own[k]], p)
			run.Reset(c.b.plan, p)
			early[k] = run.Early()
		}
	})
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
				off[i] = c.x[j][d] + c.b.prior.ahead(d, leads[k], &s.early[i], &c.x[j])
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
	g.lead[d-seedAO], g.mean[d], g.chol[a] = leads[best], tried[best].mean, tried[best].row
	g.chol[a][a] = min(g.chol[a][a], 1) // as narrow
	for i := range s.off {
		s.off[i][a] = s.bent[best][i]
	}
}

// ahead is by how many scores of seed d so many days of growth put a draw x ahead, 0 for none.
func (p *Prior) ahead(d int, days float64, e *model.Early, x *z) float64 {
	switch {
	case days == 0:
		return 0
	case d == seedAO:
		return math.Log(e.Ammonia(days))/p.SeedAO.sd - x[seedAO]
	default:
		return math.Log(e.Nitrite(days))/p.SeedNOB.sd - x[seedNOB]
	}
}

// swap puts what the normal has of them in place of the seeds of x, by sign 1, or the seeds
// back, by sign -1; e is that of x as it is.
func (g *gaussian) swap(p *Prior, sign float64, e *model.Early, x *z) {
	a, n := p.ahead(seedAO, g.lead[0], e, x), p.ahead(seedNOB, g.lead[1], e, x)
	x[seedAO] += sign * a
	x[seedNOB] += sign * n
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

// draw puts an independent draw of the widened normal into x, its seeds yet to be swapped, and returns its
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

// log is the log-density of independent draws, up to a constant; e is that of x.
func (g *gaussian) log(p *Prior, e *model.Early, x *z) float64 {
	y := *x
	g.swap(p, 1, e, &y)
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

// spread fills xs with a quasi-random sample of standard normals: an
// Owen-scrambled Halton sequence put through the normal's quantiles.
func spread(xs []z, seed uint64) {
	h := samplemv.Halton{Kind: samplemv.Owen, Q: shares{}, Src: rand.NewPCG(seed, 1)}
	dst := mat.NewDense(len(xs), dims, nil)
	h.Sample(dst)
	par.Each(len(xs), func() func(int) {
		return func(i int) {
			for d, v := range dst.RawRowView(i) {
				xs[i][d] = distuv.UnitNormal.Quantile(v)
			}
		}
	})
}

// shares is the quantile function of independent numbers spread evenly over 0..1.
type shares struct{}

func (shares) Quantile(x, p []float64) []float64 {
	if x == nil {
		return slices.Clone(p)
	}
	copy(x, p)
	return x
}
