package fit

import (
	"slices"
	"testing"

	"ripen/engine/model"
)

// TestLeg takes a log in with runs that go ahead and with runs that stop at each visit: nothing may
// differ.
func TestLeg(t *testing.T) {
	const days = 40
	c, _ := model.Complete(readDaily(days, 7, 24), days)
	b := newProblem(model.NewPlan(c, days), Hypothesis{})
	with, without := newCloud(b, 1024, 1), newCloud(b, 1024, 1)
	longest := 0
	for v := range b.visits {
		without.since = 0
		with.take(v, uint64(v))
		without.take(v, uint64(v))
		longest = max(longest, with.end-v)
		if without.end != v+1 {
			t.Fatalf("runs go from visit %d to %d, which they were not to", v, without.end)
		}
	}
	if longest < 4 {
		t.Errorf("runs go through %d visits at most, so hardly anything is compared", longest)
	}
	if !slices.Equal(with.x, without.x) || !slices.Equal(with.like, without.like) || with.evidence != without.evidence {
		t.Errorf("evidence %v with runs ahead, %v without, or the draws differ", with.evidence, without.evidence)
	}
}
