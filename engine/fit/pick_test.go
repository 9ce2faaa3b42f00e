package fit

import (
	"slices"
	"testing"

	"ripen/engine/model"
)

// TestPick: a draw that was picked keeps its way through the log.
func TestPick(t *testing.T) {
	const days = 16
	c, _ := model.Complete(readDaily(days, 7.4, 24), days)
	p := FitPlan(model.NewPlan(c, days), nil, Hypothesis{}, kept)
	last := len(p.Draws) - 1
	var back []int
	for i := range p.Draws {
		back = append(back, last-i)
	}
	q := p.Pick(back)
	if slices.Equal(p.Pools(0), p.Pools(last)) {
		t.Fatal("the first draw and the last are alike, so nothing can be told apart")
	}
	for i := range q.Draws {
		if !slices.Equal(q.Pools(i), p.Pools(last-i)) {
			t.Fatalf("draw %d, which was %d, came another way", i, last-i)
		}
	}
}
