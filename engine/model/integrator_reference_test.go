package model

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// referenceMark is how far a pool may be from the reference, as a share of the
// pool's peak over the 60 days.
const referenceMark = 0.005

// coarseMark is the same for runs after Run.Coarse.
const coarseMark = 0.03

// reference reads LSODA's solution of a scenario: a row of pools per day.
func reference(t testing.TB, name string) (days []float64, pools [][]float64) {
	t.Helper()
	f, err := os.Open(filepath.Join(solversDir, "reference", name+".csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		v := make([]float64, len(row))
		for i := range row {
			if v[i], err = strconv.ParseFloat(row[i], 64); err != nil {
				t.Fatal(err)
			}
		}
		days, pools = append(days, v[0]), append(pools, v[1:])
	}
	if len(days) != scenarioDays {
		t.Fatalf("%s: %d days in the reference, want %d", name, len(days), scenarioDays)
	}
	return days, pools
}

// deviation runs a scenario, set up further by how unless that is nil, and
// returns by how much each pool deviates from the reference at worst, in shares
// of its peak, and the steps.
func (x *scenario) deviation(t testing.TB, how func(*Run)) (worst [len(poolNames)]float64, steps int) {
	t.Helper()
	days, want := reference(t, x.name)
	plan, par := x.build()
	r := plan.Start(par)
	if how != nil {
		how(r)
	}
	var peak [len(poolNames)]float64
	for k, day := range days {
		r.To(day, nil)
		for i, v := range r.State.pools() {
			worst[i] = max(worst[i], math.Abs(*v-want[k][i]))
			peak[i] = max(peak[i], math.Abs(want[k][i]))
		}
	}
	for i := range worst {
		if peak[i] > 0 {
			worst[i] /= peak[i]
		} else if worst[i] > 1e-12 {
			t.Errorf("%s: %s is %g, not nil as in the reference", x.name, poolNames[i], worst[i])
		}
	}
	return worst, r.Steps
}

// agree fails where a scenario deviates by more than the mark.
func agree(t *testing.T, mark float64, how func(*Run)) {
	all := 0
	for i := range scenarios {
		x := &scenarios[i]
		dev, steps := x.deviation(t, how)
		worst, pool := 0.0, ""
		for i, d := range dev {
			if d > mark {
				t.Errorf("%s: %s off by %.2f %% of its peak, want at most %.1f %%", x.name, poolNames[i], 100*d, 100*mark)
			}
			if d > worst {
				worst, pool = d, poolNames[i]
			}
		}
		all += steps
		t.Logf("%-10s %4d steps, worst %-5s %.3f %% of peak", x.name, steps, pool, 100*worst)
	}
	t.Logf("%d steps in all", all)
}

// TestAgreesWithLSODA holds every pool of 20 tanks to SciPy's LSODA at tight
// tolerances, with the tolerances that forecasts use.
// Source: testdata/solvers, made from the equations by another program.
func TestAgreesWithLSODA(t *testing.T) { agree(t, referenceMark, nil) }

// TestCoarseAgreesWithLSODA holds coarse runs to the same, within 3 %.
func TestCoarseAgreesWithLSODA(t *testing.T) { agree(t, coarseMark, (*Run).Coarse) }
