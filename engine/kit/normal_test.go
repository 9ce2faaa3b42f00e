package kit

import (
	"math"
	"testing"
)

// TestNormal holds the table to the error function.
func TestNormal(t *testing.T) {
	worst := 0.0
	for z := -tail; z <= tail; z += 1. / 1024 {
		worst = max(worst, math.Abs(phi(z)-0.5*math.Erfc(-z/math.Sqrt2)))
	}
	t.Logf("off by %.1e at most", worst)
	if phi(math.Inf(-1)) != 0 || phi(math.Inf(1)) != 1 {
		t.Error("not 0 and 1 in the end")
	}
	if worst > 4e-9 {
		t.Errorf("off by %.1e, want at most 4e-9", worst)
	}
}
