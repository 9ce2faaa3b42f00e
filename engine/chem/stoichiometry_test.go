package chem

import (
	"math"
	"testing"

	"ripen/engine/unit"
	"ripen/testdata"
)

// ours gives the project's number for rows of stoichiometry.csv, by id. Rows left out
// are about growth, practice or design and have no constant here, or about units and
// are checked in package unit.
var ours = map[string]float64{
	"o2_total_nogrowth":        OxygenPerNitrified,
	"o2_step1_nogrowth":        OxygenPerAmmonia,
	"o2_step2_nogrowth":        OxygenPerNitrite,
	"o2_total_read":            OxygenPerNitrified,
	"o2_total_read_b":          OxygenPerNitrified,
	"o2_step2_read":            OxygenPerNitrite,
	"o2_design_read":           OxygenPerNitrified,
	"alk_nogrowth":             AlkPerNitrified,
	"alk_nogrowth_read":        AlkPerNitrified,
	"alk_meq":                  float64(unit.MgCaCO3(AlkPerNitrified).Meq()),
	"nahco3_per_dkh_100l":      0.1 * BicarbonatePerAlk * float64(unit.DKH(1).CaCO3()),
	"nahco3_per_meq_100l":      0.1 * BicarbonatePerAlk * float64(unit.MeqL(1).CaCO3()),
	"nh4cl_per_mgN":            AmmoniumChloridePerN,
	"nh4cl_per_mgNH3":          AmmoniumChloridePerN * unit.MolarN / unit.MolarNH3,
	"nh4cl_per_mgNH4":          AmmoniumChloridePerN / unit.Ammonia.IonPerN(),
	"chloramine_n_per_cl2":     AmmoniaNPerChloramine,
	"chloramine_wt_ratio":      ChlorinePerChloramineN,
	"chloramine_wt_ratio_read": ChlorinePerChloramineN,
	"breakpoint_wt_ratio":      BreakpointChlorinePerN,
	"breakpoint_wt_ratio_read": BreakpointChlorinePerN,
	"thio_tetra_anh":           ThiosulfatePerChlorine,
	"thio_tetra_penta":         ThiosulfatePerChlorine * PentahydratePerThiosulfate,
	"thio_sulfur_anh":          ThiosulfatePerChlorineSulfur,
	"thio_sulfur_penta":        ThiosulfatePerChlorineSulfur * PentahydratePerThiosulfate,
	"thio_sulfate_anh":         ThiosulfatePerChlorineSulfate,
	"thio_sulfate_penta":       ThiosulfatePerChlorineSulfate * PentahydratePerThiosulfate,
	"nacl_cl":                  ChloridePerSalt,
}

// roundedMasses widens the tolerance of rows that their source worked out with whole
// atomic masses (100/14 = 7.14) or rounded for design; the table's header says so.
var roundedMasses = map[string]float64{
	"alk_nogrowth_read":        0.001 * 7.14,
	"chloramine_wt_ratio_read": 0.5, // printed as 5, one figure
}

func TestStoichiometry_Published(t *testing.T) {
	const file = "stoichiometry.csv"
	met := 0
	for _, row := range testdata.Table(t, file) {
		id := row.Text("id")
		got, ok := ours[id]
		if !ok {
			continue
		}
		met++
		tol, ok := roundedMasses[id]
		if !ok {
			tol = row.HalfUnit("value")
		}
		near(t, file, row, id, got, row.Number("value"), tol)
	}
	if met != len(ours) {
		t.Errorf("%s has %d of the %d rows that have a constant here", file, met, len(ours))
	}
}

// Timmons & Ebeling (2013) work an example: 2,000 g of feed a day with 32 % protein
// give 58.9 g of total ammonia nitrogen, from the factors 0.16, 0.80, 0.80 and 0.90.
func TestTANPerProtein(t *testing.T) {
	if got := 2000 * 0.32 * TANPerProtein; math.Abs(got-58.9) > 0.05 {
		t.Errorf("TAN of 2,000 g feed with 32 %% protein = %.3f g, published 58.9", got)
	}
	if got, want := ExcretedPerFed, 0.80*0.80*0.90; math.Abs(got/want-1) > 0.005 {
		t.Errorf("ExcretedPerFed = %.4f, want %.3f within the rounding of 0.092", got, want)
	}
}

// Measured in attached growth, which is what a filter is.
func TestAlkPerNitrified_FieldRange(t *testing.T) {
	for _, row := range testdata.Table(t, "stoichiometry.csv") {
		if row.Text("id") != "alk_observed_range" {
			continue
		}
		if low, high := row.Number("low"), row.Number("high"); AlkPerNitrified < low || AlkPerNitrified > high {
			t.Errorf("AlkPerNitrified = %.4g, observed %g to %g", AlkPerNitrified, low, high)
		}
		return
	}
	t.Error("stoichiometry.csv has no row alk_observed_range")
}

func TestChloramineNitrogen_WaterSupply(t *testing.T) {
	const file = "water_supply.csv"
	// Residuals as Cl2 whose bound ammonia the table works out.
	residual := map[string]float64{"chloramine_N_at_mrdl": 4.0, "chloramine_N_at_who": 3}
	met := 0
	for _, row := range testdata.Table(t, file) {
		if cl2, ok := residual[row.Text("id")]; ok {
			near(t, file, row, row.Text("id"), cl2*AmmoniaNPerChloramine, row.Number("value"), row.HalfUnit("value"))
			met++
		}
	}
	atLeast(t, met, len(residual), "chloramine rows")
}
