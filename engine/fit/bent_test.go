package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/model"
)

// TestBent draws from the normal that steps are proposed by, puts the seeds back, and asks for the
// density of what comes out: it must be the one that it was drawn with, or steps would be
// accepted too often or too seldom. With leads it must leave less of the seeds' spread unexplained
// than without.
func TestBent(t *testing.T) {
	const days = 30
	c, _ := model.Complete(readDaily(days, 7.4, 24), days)
	b := newProblem(model.NewPlan(c, days), Hypothesis{})
	cl := newCloud(b, 1024, 1)
	_, ends := b.visits()
	from := 0
	for k, end := range ends {
		cl.take(from, end, uint64(k))
		from = end
	}
	g := cl.gaussian()
	if g.lead == [2]float64{} {
		t.Fatal("no lead chosen, so nothing is bent")
	}
	rng := rand.New(rand.NewPCG(3, 4))
	w := &worker{run: new(model.Run)}
	for range 500 {
		var x z
		drawn := g.draw(&x, rng)
		w.reset(b, &x)
		e := w.run.Early()
		g.swap(&b.prior, -1, &e, &x)
		w.reset(b, &x)
		e = w.run.Early()
		if got := g.log(&b.prior, &e, &x); !(math.Abs(got-drawn) < 1e-6*(1+math.Abs(drawn))) {
			t.Fatalf("drawn with a log-density of %g, which comes out as %g", drawn, got)
		}
	}

	// Of the seeds as they are, given all else.
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
	if row := plain.row(last, &cov); !(g.chol[last][last] < 0.95*row[last]) {
		t.Errorf("unexplained of the seed: %.3f bent, %.3f straight", g.chol[last][last], row[last])
	} else {
		t.Logf("unexplained of the seed: %.3f bent, %.3f straight, leads %v days", g.chol[last][last], row[last], g.lead)
	}
}
