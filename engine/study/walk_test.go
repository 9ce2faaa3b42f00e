package study

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"

	"gonum.org/v1/gonum/stat/distuv"
)

// TestWalkOnPrior: where nothing was read, the walk gives back the prior, whose
// moments are those of the standard normal, and knows how exact it is. What is allowed, by
// Student's distribution since the errors come from ten pieces, one right walk in a thousand misses
// at one of its 60 moments.
func TestWalkOnPrior(t *testing.T) {
	plan := model.NewPlan(model.Case{Setup: someSetup(rand.New(rand.NewPCG(1, 1)))}, 10)
	d := fit.NewDensity(plan, fit.Hypothesis{})
	how := Walking{Walks: 2, Steps: 240000, Thin: 20}
	states, accepted := walks(d, how, rand.New(rand.NewPCG(2, 2)))
	if accepted < 0.1 || accepted > 0.5 {
		t.Errorf("%.0f %% of the steps succeed, want about a quarter", 100*accepted)
	}
	want := moments{0, -1.2816, 0, 1.2816}
	pieces := how.Walks * batchesPerWalk
	allowed := distuv.StudentsT{Sigma: 1, Nu: float64(pieces - 1)}.Quantile(1 - 0.001/60/2)
	for _, u := range d.Active() {
		got, err := batched(column(states, u), pieces)
		for i := range got {
			if err[i] > 0.1 || math.Abs(got[i]-want[i]) > allowed*err[i] {
				t.Errorf("%s: moment %d is %.2f, standard error %.2f, want %.2f", fit.Name(u), i, got[i], err[i], want[i])
			}
		}
	}
}

// TestAgreesWithWalk: on one tank a short walk finds the posterior that the fit
// finds, and another one than a fit that is not told the readings of ammonia.
// The full comparison is a command, bot study walk.
func TestAgreesWithWalk(t *testing.T) {
	if testing.Short() {
		t.Skip("walks far")
	}
	k := firstKept(1, func(k *kept) bool {
		c := &k.plan.Case
		return k.plan.Now <= 12 && len(c.Readings) >= 5 && c.Setup.Method <= model.DarkStart && c.Setup.Plants == model.NoPlants
	})
	how := Walking{Walks: 2, Steps: 48000, Thin: 20, Fits: 4, Draws: 1024}
	right, _ := how.compare("as read", &k, rand.New(rand.NewPCG(3, 3)))
	for i := range right {
		off, may := right[i].Off()
		t.Logf("%-20s sd %5.2f, off %5.2f, may be %.2f", right[i].Name, right[i].SD, off, may)
		if !right[i].OK() {
			t.Errorf("%s: mean and 10, 50, 90 %% points off by %.2f standard deviations, allowed %.2f", right[i].Name, off, may)
		}
	}

	c := k.plan.Case
	c.Readings = slices.Clone(c.Readings)
	for i := range c.Readings {
		c.Readings[i].Ammonia = nil
	}
	deaf := kept{plan: model.NewPlan(c, unit.Days(k.plan.Now)), hyp: k.hyp}
	how.Steps = 2000
	wrong, _ := how.compare("without ammonia", &deaf, rand.New(rand.NewPCG(4, 4)))
	for i := range right {
		for j := range wrong {
			if right[i].Name == wrong[j].Name {
				mixed := right[i]
				mixed.fit, mixed.oneFit = wrong[j].fit, wrong[j].oneFit
				if off, _ := mixed.Off(); !mixed.OK() {
					t.Logf("without ammonia %s is off by %.2f", mixed.Name, off)
					return
				}
			}
		}
	}
	t.Error("the comparison does not notice that no ammonia was read")
}
