package study

import (
	"math"
	"testing"
)

// TestCalibrate: over a few tanks drawn from the prior, no unknown's truth lies
// to one side of its draws, or outside them, more than chance allows (four
// standard errors of the mean rank; ranks of even spread within 1.5). Over all
// unknowns together the ranks spread as they should within a tenth: chance alone,
// of some 500 ranks, moves their spread by 0.02.
func TestCalibrate(t *testing.T) {
	if testing.Short() {
		t.Skip("fits two dozen tanks")
	}
	const tanks = 24
	spread, quantities := 0.0, 0.0
	for _, r := range Calibrate(tanks, 1024, 1, nil) {
		if len(r.Rank) < tanks/2 {
			continue // too few tanks tell anything of it
		}
		m, s := r.Mean(), r.Spread()
		spread, quantities = spread+s, quantities+1
		t.Logf("%-20s %2d tanks, mean rank %.2f, spread %.2f", r.Name, len(r.Rank), m, s)
		if se := math.Sqrt(1.0 / 12 / float64(len(r.Rank))); math.Abs(m-0.5) > 4*se {
			t.Errorf("%s: mean rank %.2f of %d tanks, want 0.5 within %.2f", r.Name, m, len(r.Rank), 4*se)
		}
		if s > 1.5 || s < 0.5 {
			t.Errorf("%s: spread of ranks %.2f, want 1", r.Name, s)
		}
	}
	t.Logf("mean spread %.3f", spread/quantities)
	if s := spread / quantities; s < 0.9 || s > 1.1 {
		t.Errorf("mean spread of the ranks %.2f, want 1 within 0.1", s)
	}
}
