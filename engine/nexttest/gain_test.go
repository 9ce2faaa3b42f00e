package nexttest

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// spread returns done days drawn from a normal around day 30, in random order.
func spread(n int) []float64 {
	rnd := rand.New(rand.NewPCG(4, 4))
	out := make([]float64, n)
	for i := range out {
		out[i] = 30 + 5*rnd.NormFloat64()
	}
	return out
}

// TestSameInAllDrawsTellsNothing: a reading that all draws foresee alike tells
// nothing, be it sure or not.
func TestSameInAllDrawsTellsNothing(t *testing.T) {
	g := newGain(spread(500), 0, 180)
	for _, row := range [][]float64{{1}, {0, 1, 0}, {0.2, 0.5, 0.3}} {
		chance := make([][]float64, 500)
		for i := range chance {
			chance[i] = row
		}
		if bits, err := g.information(chance); math.Abs(bits) > 1e-9 || err > 1e-9 {
			t.Errorf("%v tells %g +- %g bits", row, bits, err)
		}
		if a, b := g.after(chance), g.before(); math.Abs(a.P10-b.P10)+math.Abs(a.P90-b.P90) > 1e-6 {
			t.Errorf("%v changes the window from %+v to %+v", row, b, a)
		}
	}
}

// TestDoneAlreadyTellsNothing: when all draws are done, or none ever, there is
// nothing to know.
func TestDoneAlreadyTellsNothing(t *testing.T) {
	for _, done := range []float64{3, math.Inf(1)} {
		days := make([]float64, 100)
		chance := make([][]float64, 100)
		for i := range days {
			days[i] = done - float64(i%2)
			chance[i] = []float64{float64(i % 2), 1 - float64(i%2)}
		}
		g := newGain(days, 10, 180)
		if bits, _ := g.information(chance); g.entropy() != 0 || math.Abs(bits) > 1e-9 {
			t.Errorf("done on %g: entropy %g, told %g", done, g.entropy(), bits)
		}
	}
}

// TestInformationOfNormals: a normal view of a normal day with correlation r
// tells -log2(1-r²)/2 bits (Cover & Thomas, Elements of Information Theory, ch. 8);
// sorting into stretches loses a little of that.
func TestInformationOfNormals(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	const n = 4000
	for _, r := range []float64{0, 0.3, 0.6, 0.8} {
		done, chance := make([]float64, n), make([][]float64, n)
		for i := range done {
			x := rnd.NormFloat64()
			done[i] = 50 + 5*x
			view := r*x + math.Sqrt(1-r*r)*rnd.NormFloat64()
			chance[i] = make([]float64, 25)
			chance[i][min(max(int((view+3)*4), 0), 24)] = 1
		}
		bits, err := newGain(done, 0, 180).information(chance)
		want := -math.Log2(1-r*r) / 2
		if bits > want+4*err || bits < 0.85*want-4*err {
			t.Errorf("correlation %g tells %.3f +- %.3f bits, want a little under %.3f", r, bits, err, want)
		}
	}
}

// TestSoonAfterTellsLess: the less of an independent reading a value is worth,
// the less it tells, and chances add up to one whatever it is worth.
func TestSoonAfterTellsLess(t *testing.T) {
	done := spread(800)
	g := newGain(done, 0, 180)
	c := kit.For(model.Liquid, unit.Nitrite)
	last := math.Inf(1)
	for _, since := range []float64{5, 2, 1, 0.5, 0} {
		f := fit.Foresee(c, unit.Nitrite, model.Told(unit.Nitrite, since, 0))
		chance := table(len(done), len(c.Steps))
		for i := range done {
			f.Chances(math.Exp((done[i]-30)/5), chance[i])
			sum := 0.0
			for _, x := range chance[i] {
				sum += x
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Fatalf("chances add up to %g", sum)
			}
		}
		bits, _ := g.information(chance)
		if bits >= last || bits <= 0 {
			t.Errorf("read again after %g days it tells %.3f bits, after more days %.3f", since, bits, last)
		}
		last = bits
	}
}

// TestBranches: the two sides hold all draws between them, and the day by one
// side is another than by the other.
func TestBranches(t *testing.T) {
	done := spread(400)
	g := newGain(done, 0, 180)
	chance, all := table(400, 3), make([]float64, 3)
	for i := range chance {
		k := min(max(int(done[i]/10)-2, 0), 2)
		chance[i][k] = 1
		all[k] += 1. / 400
	}
	b := g.branches([]float64{1, 2, 5}, all, chance)
	if len(b) != 2 || math.Abs(b[0].Chance+b[1].Chance-1) > 1e-9 || b[0].Done.P90 > 30 || b[1].Done.P10 < 30 {
		t.Errorf("sides %+v", b)
	}
	if b := g.branches([]float64{1, 2, 5}, []float64{0.99, 0.01, 0}, chance); b != nil {
		t.Errorf("a side that is hardly possible: %+v", b)
	}
}
