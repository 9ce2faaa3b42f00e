package outlook

import (
	"math"
	"testing"
)

// TestBeyond: of draws that are not done, beyond go by the tank's age, half of them past
// as long again and young; a draw that passes already is believed, and before readings there
// is none.
func TestBeyond(t *testing.T) {
	const n, now = 4096, 30.
	by := func(done float64, readings int, share float64) (aged, old float64) {
		for i := range n {
			with, without := unforeseen(i, done, now, readings, strays{drift, share}), unforeseen(i, done, now, readings, strays{drift, 0})
			if with != without {
				aged += 1. / n
				if with > 2*now+young {
					old += 1. / n
				}
				if with < now {
					t.Fatalf("draw %d is done on day %g, before now", i, with)
				}
			}
		}
		return aged, old
	}
	for _, x := range []struct {
		done        float64
		readings    int
		share, want float64
	}{
		{40, 3, 0.15, 0.15}, {math.Inf(1), 12, 0.15, 0.15}, {40, 1, 0.15, 0.05}, {40, 0, 0.15, 0}, {28, 9, 0.15, 0},
	} {
		if aged, old := by(x.done, x.readings, x.share); math.Abs(aged-x.want) > 0.003 || math.Abs(old-x.want/2) > 0.003 {
			t.Errorf("done %g, %d readings: %.3f of the draws go by age, %.3f past as long again; want %.3f and half", x.done, x.readings, aged, old, x.want)
		}
	}
}
