package chem

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/unit"
)

// The source defines the concentration of nitrous acid as 46/14 [NO2-N]/(Ka 10^pH),
// which counts nitrite as wholly ionised; our fraction does not, and so is lower by
// itself, at most 0.3 % above pH 6.
func TestFreeNitrousFraction_Anthonisen(t *testing.T) {
	tests := []struct {
		ph   float64
		temp unit.Celsius
		want float64 // 1/(Ka 10^pH), Ka = exp(-2300/(273+t)), worked apart from the code
	}{
		{7, 20, 2.5653e-4}, // e^(2300/293) = 2565.3
		{6, 20, 2.5653e-3},
		{7, 25, 2.2487e-4},   // e^(2300/298) = 2248.7
		{7.5, 10, 1.0705e-4}, // e^(2300/283) = 3385.3, 10^7.5 = 3.1623e7
	}
	for _, tt := range tests {
		got := FreeNitrousFraction(tt.ph, tt.temp)
		if math.Abs(got/tt.want-1) > 0.003 {
			t.Errorf("FreeNitrousFraction(%g, %g) = %.5g, want %.4g within 0.3 %%", tt.ph, tt.temp, got, tt.want)
		}
	}
}

func TestFreeNitrousFraction_Laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph := rapid.Float64Range(3, 10).Draw(t, "pH")
		temp := unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "temperature"))
		f := FreeNitrousFraction(ph, temp)
		if !(f > 0 && f < 1) {
			t.Fatalf("fraction %g, want between 0 and 1", f)
		}
		if up := FreeNitrousFraction(ph+0.01, temp); up >= f {
			t.Fatalf("fraction rises from %g to %g as pH rises", f, up)
		}
		if up := FreeNitrousFraction(ph, temp+0.01); up >= f {
			t.Fatalf("fraction rises from %g to %g as the water warms", f, up)
		}
	})
}
