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
// proposes a normal jump of a fixed shape from where it stands.
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

// newWalk starts a walk at the best of a few hundred draws of the prior, and
// learns the jump's shape from a pilot walk in rounds, whose path is then
// forgotten. 2.38/sqrt(n) times the posterior's own shape is the best jump for
// a normal posterior (Roberts, Gelman & Gilks 1997, Ann. Appl. Probab. 7:110).
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
		w.shape.SetTri(i, i, 0.3/math.Sqrt(float64(n)))
	}
	const rounds = 6
	for range rounds {
		path := mat.NewDense(pilot/rounds, n, nil)
		for t := range pilot / rounds {
			w.step()
			for a, i := range w.active {
				path.Set(t, a, w.x[i])
			}
		}
		var cov mat.SymDense
		stat.CovarianceMatrix(&cov, path, nil)
		for i := range n {
			cov.SetSym(i, i, cov.At(i, i)+1e-3)
		}
		cov.ScaleSym(2.38*2.38/float64(n), &cov)
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
