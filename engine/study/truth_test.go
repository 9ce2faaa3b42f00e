package study

import "testing"

// TestTruth: over a few wild tanks, what outlooks say is neither overconfident
// nor empty, within limits wide enough for chance and for the misses that
// DEVELOPERS.md reports: the 80 % intervals, all stages taken together, hold the
// truth in 45 to 95 % of cases, and from half way on outlooks are nearer than that
// of day 0.
func TestTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("fits eight tanks ten times")
	}
	const tanks = 8
	r := Truth(Question{Tanks: tanks, Draws: 256, Seed: 5}, nil)
	if len(r.Each) != tanks {
		t.Fatalf("%d tanks, want %d", len(r.Each), tanks)
	}
	held, asked := 0.0, 0.0
	var now, cold float64
	for _, tank := range r.Each {
		for i, a := range tank.Asked {
			held, asked = held+a.In[1], asked+1
			if Stages[i] >= 0.5 {
				now, cold = now+a.CRPS, cold+a.Cold
			}
		}
	}
	t.Logf("80 %% intervals hold %.0f %%; CRPS from half way on %.2f of that of day 0", 100*held/asked, now/cold)
	if share := held / asked; share < 0.45 || share > 0.95 {
		t.Errorf("80 %% intervals hold the truth in %.0f %% of %g cases", 100*share, asked)
	}
	if now > cold {
		t.Errorf("the CRPS from half way on is %.2f of that of day 0, want less", now/cold)
	}
}

// TestBare: the draws alone leave less open than outlooks, which allow for what no draw knows.
func TestBare(t *testing.T) {
	wide := func(bare bool) (sum float64) {
		for _, tank := range Truth(Question{Tanks: 3, Draws: 256, Seed: 5, Own: true, Tidy: true, Bare: bare}, nil).Each {
			for _, a := range tank.Asked[2:] {
				sum += a.P90 - a.P10
			}
		}
		return sum
	}
	if draws, outlooks := wide(true), wide(false); draws <= 0 || draws >= outlooks {
		t.Errorf("80 %% of the draws within %.0f days in all, of outlooks within %.0f", draws, outlooks)
	}
}
