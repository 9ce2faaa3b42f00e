package outlook

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestEven: no two of the things that are drawn evenly go together: of 512 draws each quarter of the
// one holds its share of each quarter of the other.
func TestEven(t *testing.T) {
	steps := map[string]float64{"trial": math.Sqrt(3), "looks": math.Phi, "notice": math.Sqrt(6), "age": math.Sqrt(11), "drift": math.Sqrt2, "left": math.Sqrt(7), "seen": math.Sqrt(10)}
	const n = 512
	for a, x := range steps {
		for b, y := range steps {
			if a >= b {
				continue
			}
			var cells [4][4]int
			for i := range n {
				cells[int(4*even(i, x))][int(4*even(i, y))]++
			}
			for i := range cells {
				for j, k := range cells[i] {
					if k < n/16*2/3 || k > n/16*4/3 {
						t.Errorf("%s and %s: %d draws in quarters %d and %d, want about %d", a, b, k, i, j, n/16)
					}
				}
			}
		}
	}
	for i := range n {
		d := Doubted(i)
		if d.Notice != even(i, steps["notice"]) || math.Abs(d.Diligence-(1.2*even(i, steps["looks"])-0.3)) > 1e-12 {
			t.Fatalf("draw %d is doubted by other steps than those of this test: %+v", i, d)
		}
	}
}

// TestSameMoment: of what was told for the same moment, what came first came first.
func TestSameMoment(t *testing.T) {
	change := model.Event{Day: 5, Seq: 2, Kind: model.WaterChange, Fraction: 0.5}
	c := model.Case{Events: []model.Event{change}}
	for seq, want := range map[int]bool{1: true, 2: false, 3: false} {
		if got := changedSince(&c, &model.Reading{Day: unit.Days(5), Seq: seq}, 6); got != want {
			t.Errorf("a test told %d, a change told 2: changed since is %v", seq, got)
		}
	}
}
