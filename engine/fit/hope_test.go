package fit

import (
	"math"
	"testing"

	"ripen/engine/model"
)

// TestHope takes logs in with and without the hope of what readings still bring: of the steps that
// are accepted without it, it may lose one in five hundred, and it must spare work.
func TestHope(t *testing.T) {
	for _, ph := range []float64{6.6, 7.4} {
		const days = 30
		c, _ := model.Complete(readDaily(days, ph, 26), days)
		b := newProblem(model.NewPlan(c, days), Hypothesis{})
		with, without := newCloud(b, 1024, 1), newCloud(b, 1024, 1)
		spared := 0.0
		for v, visit := range b.visits {
			with.take(v, uint64(v))
			without.take(v, uint64(v))
			spared += b.most[visit.upto] - with.hope[0]
			for i := range visit.upto {
				without.hope[i] = math.Inf(1)
			}
		}
		a, all := with.accepted, without.accepted
		if t.Logf("pH %g: %d renewals, %.4f of %.4f accepted, at most %.1f hoped for of %.1f", ph, with.passes, a, all, with.hope[0], b.most[len(b.sights)]); math.Abs(a-all) > all/500 {
			t.Errorf("pH %g: shares accepted add up to %g with hope, %g without", ph, a, all)
		}
		if !(spared > 1) {
			t.Errorf("pH %g: hope is no less than all that readings can bring", ph)
		}
	}
}
