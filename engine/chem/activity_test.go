package chem

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

func TestPermittivity(t *testing.T) {
	if got := permittivity(25); math.Abs(got-78.30) > 0.005 {
		t.Errorf("permittivity(25) = %.4f, want 78.30 (Malmberg & Maryott 1956, abstract)", got)
	}
	// An independent determination at -5 to 25 C, 0.3 to 0.4 % higher: US Navy
	// Electronics Laboratory report AD0653061 (1967).
	for c := 0.0; c <= 25; c += 5 {
		other := 88.083 - 0.4042*c + 0.00092*c*c
		if got := permittivity(unit.Celsius(c)); math.Abs(got/other-1) > 0.004 {
			t.Errorf("permittivity(%g) = %.3f, want %.3f within 0.4 %%", c, got, other)
		}
	}
}

func TestDebyeHuckelA(t *testing.T) {
	// Robinson & Stokes, Electrolyte Solutions (from memory), to the 0.4 % in
	// permittivity that determinations differ by, 0.6 % in A.
	for temp, want := range map[unit.Celsius]float64{0: 0.491, 15: 0.503, 25: 0.511, 40: 0.524} {
		if got := DebyeHuckelA(temp); math.Abs(got/want-1) > 0.006 {
			t.Errorf("DebyeHuckelA(%g) = %.4f, want %.3f", temp, got, want)
		}
	}
}

func TestDaviesGamma(t *testing.T) {
	tests := []struct {
		reason string
		charge int
		ionic  float64
		want   float64
	}{
		{"infinite dilution", 2, 0, 1},
		{"no charge, no effect", 0, 0.3, 1},
		// With A = 0.5102: 0.5102 (0.24025 - 0.03) = 0.10727; 10^-0.10727
		{"worked apart from the code", 1, 0.1, 0.7811},
		{"the fourth power of the one above", 2, 0.1, 0.3723},
		// 0.5102 (0.41421 - 0.15) = 0.13480; 10^-0.13480
		{"worked apart from the code", 1, 0.5, 0.7332},
		{"held at 0.5 mol/L above", 1, 0.7, 0.7332},
		{"a negative ionic strength counts as none", 1, -0.1, 1},
	}
	for _, tt := range tests {
		if got := DaviesGamma(tt.charge, tt.ionic, 25); math.Abs(got-tt.want) > 0.0001 {
			t.Errorf("DaviesGamma(%d, %g, 25) = %.5f, want %.4f: %s", tt.charge, tt.ionic, got, tt.want, tt.reason)
		}
	}
}

func TestIonicStrength(t *testing.T) {
	tests := []struct {
		reason   string
		salinity float64
		alk      unit.MgCaCO3
		want     float64
		tol      float64
	}{
		{"pure water", 0, 0, 0, 0},
		{"calcium bicarbonate, half a mole of Ca and one of HCO3 per equivalent: (4/2 + 1)/2", 0, unit.MeqL(4).CaCO3(), 6e-3, 1e-12},
		{"sea water of S 35 has 0.72 mol/kg (Millero, Chemical Oceanography; from memory)", 35, 115, 0.72, 0.005},
		{"negative readings count as none", -3, -20, 0, 0},
		{"salinity stays at 40", 70, 0, IonicStrength(40, 0), 0},
	}
	for _, tt := range tests {
		if got := IonicStrength(tt.salinity, tt.alk); math.Abs(got-tt.want) > tt.tol {
			t.Errorf("IonicStrength(%g, %g) = %.6g, want %.6g: %s", tt.salinity, tt.alk, got, tt.want, tt.reason)
		}
	}
}
