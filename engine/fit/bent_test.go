package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestBent draws from the normal that steps are proposed by, puts the seeds back, and asks for the
// density of what comes out: it must be the one that it was drawn with, or steps would be
// accepted too often or too seldom. With leads it must leave less of the seeds' spread unexplained
// than without, by the geometric mean of some waters.
func TestBent(t *testing.T) {
	const days = 30
	sum, waters := 0.0, []struct {
		ph   float64
		temp unit.Celsius
	}{{6.8, 22}, {7, 24}, {7.4, 20}, {7.4, 24}, {7.8, 26}}
	for _, w := range waters {
		c, _ := model.Complete(readDaily(days, w.ph, w.temp), days)
		b := newProblem(model.NewPlan(c, days), Hypothesis{})
		cl := newCloud(b, 1024, 1)
		for v := range b.visits {
			cl.take(v, uint64(v))
		}
		g := cl.gaussian()
		if g.lead == [2]int{} {
			t.Fatalf("pH %g, %g C: no lead chosen, so nothing is bent", w.ph, w.temp)
		}
		drawsAsItSays(t, g, b)
		bent, straight := unexplained(g, cl)
		t.Logf("pH %g, %g C: unexplained of the seed: %.3f bent, %.3f straight, leads %v days", w.ph, w.temp, bent, straight, g.lead)
		sum += math.Log(bent / straight)
	}
	if share := math.Exp(sum / float64(len(waters))); !(share < 0.95) {
		t.Errorf("%.2f of what is unexplained without leads is so with them", share)
	}
}

// drawsAsItSays holds densities against those drawn with.
func drawsAsItSays(t *testing.T, g *gaussian, b *problem) {
	t.Helper()
	rng := rand.New(rand.NewPCG(3, 4))
	w := &worker{run: new(model.Run)}
	for range 500 {
		var x z
		drawn := g.draw(&x, rng)
		e := w.early(b, &x)
		l := b.prior.led(&e)
		for i, lead := range g.lead {
			x[seedAO+i] -= l[i][lead]
		}
		e = w.early(b, &x)
		l = b.prior.led(&e)
		if got := g.log(&l, &x); !(math.Abs(got-drawn) < 1e-6*(1+math.Abs(drawn))) {
			t.Fatalf("drawn with a log-density of %g, which comes out as %g", drawn, got)
		}
	}
}

// unexplained is the spread of ammonia oxidisers' seed, given all else, with leads and without.
func unexplained(g *gaussian, cl *cloud) (bent, straight float64) {
	last := len(g.of) - 2
	s := cl.sample()
	plain := *g
	var cov [dims]float64
	mean := 0.0
	for k, i := range s.own {
		mean += s.weight[k] * cl.x[i][seedAO]
	}
	for k, i := range s.own {
		v := s.weight[k] * (cl.x[i][seedAO] - mean)
		for a := range last {
			cov[a] += v * s.off[k][a]
		}
		cov[last] += v * (cl.x[i][seedAO] - mean)
	}
	row := plain.row(last, &cov)
	return g.chol[last][last], row[last]
}
