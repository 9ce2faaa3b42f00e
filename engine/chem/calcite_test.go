package chem

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// Plummer & Busenberg (1982) give log K of calcite at 25 C as -8.480 ± 0.020; read in
// the abstract at http://pubs.er.usgs.gov/publication/70011789, with the equation.
func TestPKspCalcite_Published(t *testing.T) {
	if got := PKspCalcite(25); math.Abs(got-8.480) > 0.0005 {
		t.Errorf("PKspCalcite(25) = %.4f, published 8.480", got)
	}
	if PKspCalcite(35) <= PKspCalcite(15) {
		t.Error("calcite dissolves less in warm water, so its pKsp rises")
	}
}

func TestCalciteSaturation(t *testing.T) {
	// Pure water under air of 10^-3.5 atm with calcite: pH 8.3, 5e-4 mol/L of Ca and
	// so 1 meq/L (Stumm & Morgan, Aquatic Chemistry; from memory).
	co2 := math.Pow(10, -PKH(25)-3.5)
	got := CalciteSaturation(0, 0, co2, 25)
	if meq := float64(got.Meq()); math.Abs(meq-1) > 0.1 {
		t.Errorf("calcite under air dissolves to %.3f meq/L, want about 1", meq)
	}
	if ph := PHFromAlkalinity(got, co2, 25, IonicStrength(0, got)); math.Abs(ph-8.3) > 0.1 {
		t.Errorf("its pH is %.2f, want about 8.3", ph)
	}
	// Without activities and carbonate in the balance the cube of calcium is
	// Ksp K1 CO2/(4 K2): another way to the same number, 2 % apart per tenth of a
	// logarithm of activity left out.
	cube := math.Pow(10, -PKspCalcite(25)-PK1(25)+PK2(25)) * co2 / 4
	if ca := float64(got.Meq()) * 0.5e-3; math.Abs(ca/math.Cbrt(cube)-1) > 0.12 {
		t.Errorf("calcium %.3g mol/L, by the cube %.3g", ca, math.Cbrt(cube))
	}
	tests := []struct {
		reason       string
		less, more   unit.MgCaCO3
		wantIncrease bool
	}{
		{"more carbon dioxide dissolves more", CalciteSaturation(20, 2e-4, co2, 25), CalciteSaturation(20, 2e-4, 10*co2, 25), true},
		{"more calcium dissolves less", CalciteSaturation(20, 1e-3, co2, 25), CalciteSaturation(20, 2e-4, co2, 25), true},
		{"warmer water dissolves less at the same CO2", CalciteSaturation(20, 2e-4, co2, 30), CalciteSaturation(20, 2e-4, co2, 15), true},
		{"saturated water keeps its own", CalciteSaturation(400, 4e-3, co2, 25), 400, false},
	}
	for _, tt := range tests {
		if tt.wantIncrease != (tt.more > tt.less) {
			t.Errorf("%s: %.4g and %.4g", tt.reason, tt.less, tt.more)
		}
	}
}
