package fit

import (
	"math"
	"math/rand/v2"
	"slices"

	"ripen/engine/par"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// gaussian is a normal distribution fitted to a population, over the unknowns
// that the readings can say something about. The others keep their prior.
type gaussian struct {
	active []int
	mean   z
	chol   [dims][dims]float64 // lower triangle, by position in active
}

// widen is the widening of independent draws against the fitted normal.
const widen = 1.08

// fitGaussian fits mean and covariance to draws with these log-weights.
func fitGaussian(xs []z, logw []float64, active []int) *gaussian {
	g := &gaussian{active: active}
	weights := make([]float64, len(xs))
	for i := range xs {
		w := math.Exp(logw[i])
		weights[i] = w
		for _, d := range active {
			g.mean[d] += w * xs[i][d]
		}
	}
	var cov [dims][dims]float64
	par.Each(len(active), func() func(int) {
		return func(k int) {
			a := len(active) - 1 - k // the longest first
			da := active[a]
			for i := range xs {
				va := weights[i] * (xs[i][da] - g.mean[da])
				for b := 0; b <= a; b++ {
					cov[a][b] += va * (xs[i][active[b]] - g.mean[active[b]])
				}
			}
		}
	})
	narrow(&cov, len(active))
	for a := range active {
		cov[a][a] += 1e-4 // keeps the factor defined when draws have run together
		for b := 0; b <= a; b++ {
			s := cov[a][b]
			for k := 0; k < b; k++ {
				s -= g.chol[a][k] * g.chol[b][k]
			}
			if a == b {
				g.chol[a][a] = math.Sqrt(max(s, 1e-8))
			} else {
				g.chol[a][b] = s / g.chol[b][b]
			}
		}
	}
	return g
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

// draw puts an independent draw of the widened normal into x.
func (g *gaussian) draw(x *z, rng *rand.Rand) {
	var e z
	for a := range g.active {
		e[a] = rng.NormFloat64() * widen
	}
	for a, d := range g.active {
		s := g.mean[d]
		for b := 0; b <= a; b++ {
			s += g.chol[a][b] * e[b]
		}
		x[d] = s
	}
}

// log is the log-density of independent draws, up to a constant.
func (g *gaussian) log(x *z) float64 {
	var e z
	sum := 0.0
	for a, d := range g.active {
		s := x[d] - g.mean[d]
		for b := 0; b < a; b++ {
			s -= g.chol[a][b] * e[b]
		}
		e[a] = s / g.chol[a][a]
		sum -= e[a] * e[a]
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
