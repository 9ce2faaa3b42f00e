package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/fit"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// walk is a plain random-walk Metropolis (Metropolis et al. 1953, J. Chem.
// Phys. 21:1087-1092) over the active unknowns of a density: every step
// proposes a normal jump of a fixed shape from where it stands. It shares
// nothing with the sampler of package fit but the density.
type walk struct {
	d      *fit.Density
	active []int
	shape  mat.TriDense // lower factor of the jump's covariance
	x      fit.Scores
	post   float64 // log-posterior of x
	rng    *rand.Rand
	tried  int
	moved  int
}

// pilotRounds is how often the jump's shape is learned anew.
const pilotRounds = 8

// newWalk starts a walk at the best of a few hundred draws of the prior, and
// learns the jump's shape from so many pilot steps, whose path is then
// forgotten. 2.38/sqrt(n) times the posterior's own shape is the best jump for
// a normal posterior, and a quarter of its steps succeed (Roberts, Gelman &
// Gilks 1997, Ann. Appl. Probab. 7:110-120); for others the size is set by that share.
func newWalk(d *fit.Density, pilot int, rng *rand.Rand) *walk {
	w := &walk{d: d, active: d.Active(), post: math.Inf(-1), rng: rng}
	for range 300 {
		var x fit.Scores
		for _, i := range w.active {
			x[i] = rng.NormFloat64()
		}
		if p := w.log(&x, math.Inf(-1)); p > w.post {
			w.x, w.post = x, p
		}
	}
	n := len(w.active)
	w.shape = *mat.NewTriDense(n, mat.Lower, nil)
	for i := range n {
		w.shape.SetTri(i, i, 0.5/math.Sqrt(float64(n)))
	}
	size := 2.38 / math.Sqrt(float64(n))
	for range pilotRounds {
		w.tried, w.moved = 0, 0
		path := mat.NewDense(max(pilot/pilotRounds, 2), n, nil)
		for t := range path.RawMatrix().Rows {
			w.step()
			for a, i := range w.active {
				path.Set(t, a, w.x[i])
			}
		}
		size *= math.Exp(2 * (float64(w.moved)/float64(w.tried) - 0.234))
		var cov mat.SymDense
		stat.CovarianceMatrix(&cov, path, nil)
		for i := range n {
			cov.SetSym(i, i, cov.At(i, i)+1e-3) // keeps the factor defined while few steps succeed
		}
		cov.ScaleSym(size*size, &cov)
		var c mat.Cholesky
		if c.Factorize(&cov) {
			c.LTo(&w.shape)
		}
	}
	w.tried, w.moved = 0, 0
	return w
}

// log is the log-posterior up to a constant, or less than atLeast.
func (w *walk) log(x *fit.Scores, atLeast float64) float64 {
	prior := 0.0
	for _, i := range w.active {
		prior -= x[i] * x[i] / 2
	}
	like, ok := w.d.LogLike(x, atLeast-prior)
	if !ok {
		return math.Inf(-1)
	}
	return prior + like
}

// step makes one Metropolis step.
func (w *walk) step() {
	w.tried++
	var e fit.Scores
	for a := range w.active {
		e[a] = w.rng.NormFloat64()
	}
	next := w.x
	for a, i := range w.active {
		for b := 0; b <= a; b++ {
			next[i] += w.shape.At(a, b) * e[b]
		}
	}
	least := w.post + math.Log(1-w.rng.Float64())
	if p := w.log(&next, least); p >= least {
		w.x, w.post = next, p
		w.moved++
	}
}

// walks makes the walks over a density, one after another, and returns the
// states kept and the share of steps that succeeded. Unknowns that are not
// active get their prior afresh at each state.
func walks(d *fit.Density, how Walking, rng *rand.Rand) (states []fit.Scores, accepted float64) {
	for range how.Walks {
		w := newWalk(d, how.Steps/4, rng)
		for t := 1; t <= how.Steps; t++ {
			w.step()
			if t%how.Thin == 0 {
				var x fit.Scores
				for i := range x {
					x[i] = rng.NormFloat64()
				}
				for _, i := range w.active {
					x[i] = w.x[i]
				}
				states = append(states, x)
			}
		}
		accepted += float64(w.moved) / float64(w.tried) / float64(how.Walks)
	}
	return states, accepted
}
