package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// TestRationAt: 1.5 % of their weight at 25 C and warmer, half of that at 15 C, and a tank
// whose keeper told the animals alone is taken to be fed so.
func TestRationAt(t *testing.T) {
	for temp, want := range map[unit.Celsius]float64{30: 0.015, 25: 0.015, 15: 0.0075, 5: 0.00375} {
		if got := RationAt(temp); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %g C %g of their weight, want %g", float64(temp), got, want)
		}
	}
	s := Setup{Volume: 1000, Method: FishIn, Temp: 15, Stock: 200, Given: Given{Temp: true, Stock: true}}
	if got := float64(Typical(s).Feed); math.Abs(got-1.5) > 1e-9 {
		t.Errorf("200 g of animals at 15 C get %g g a day, want 1.5", got)
	}
}
