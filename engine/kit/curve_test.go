package kit

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestCurve compares each step's curve with its probability, error widened and slips as in fits.
func TestCurve(t *testing.T) {
	worst := 0.0
	for _, k := range []model.Kit{model.Liquid, model.Strip, model.Meter} {
		for sp := range unit.Species(3) {
			c := For(k, sp)
			steps := c.Steps
			if steps == nil {
				steps = []float64{0, 0.1, 3, 40}
			}
			for i, v := range steps {
				b := c.Bin(model.Seen{Low: v, High: v, Over: i == len(steps)-1}, sp).Wider(0.3)
				curve := b.Curve(0.03, 1./7)
				want := func(v, bias float64) float64 { return math.Log(0.97*b.Prob(v, bias) + 0.03/7) }
				for x := 1e-4; x < 1e4; x *= 1.003 {
					for _, bias := range []float64{0.6, 1, 1.7} {
						off := math.Abs(curve.Log(x, bias) - want(x, bias))
						worst = max(worst, off)
						if off > 2e-5 {
							t.Fatalf("%v %v of %g: curve off by %.2g at %g", k, sp, v, off, x)
						}
					}
				}
				if got, want := curve.Log(-1, 1), want(-1, 1); math.Abs(got-want) > 2e-5 {
					t.Errorf("%v %v of %g: %g below nothing, want %g", k, sp, v, got, want)
				}
			}
		}
	}
	t.Logf("right to %.1g", worst)
}
