package chem

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/unit"
	"ripen/testdata"
)

func TestAmmoniaCriteria_EPA2013(t *testing.T) {
	const file = "ammonia_criteria_epa2013.csv"
	printed := 0
	for _, row := range testdata.Table(t, file) {
		ph, temp := row.Number("ph"), unit.Celsius(row.Number("temp_c"))
		name := row.Text("criterion") + " " + row.Text("case")
		var got unit.MgN
		switch name {
		case "CMC oncorhynchus_present":
			got = AcuteTAN(ph, temp, true)
		case "CMC oncorhynchus_absent":
			got = AcuteTAN(ph, temp, false)
		case "CMC mussels_absent":
			got = AcuteTANNoMussels(ph, temp)
		case "CCC mussels_absent":
			got = ChronicTANNoMussels(ph, temp)
		case "CCC all_waters":
			got = ChronicTAN(ph, temp)
		case "CCC_4day_max all_waters": // printed 4.8 is 2.5 times the printed, rounded 1.9
			got = unit.MgN(2.5 * twoFigures(float64(ChronicTAN(ph, temp))))
		default:
			t.Errorf("%s:%d: unknown criterion %q", file, row.Line(), name)
			continue
		}
		what := name + " at " + at(ph, float64(temp))
		if rounded, want := twoFigures(float64(got)), row.Number("value_mg_tan_l"); math.Abs(rounded-want) > slack {
			t.Errorf("%s:%d: %s = %.5g, rounded %g, published %g (source %s)",
				file, row.Line(), what, got, rounded, want, row.Text("source"))
		}
		if row.Text("criterion") != "CCC_4day_max" {
			near(t, file, row, "unrounded "+what, float64(got),
				row.Number("unrounded_formula"), row.HalfUnit("unrounded_formula"))
		}
		if row.Text("basis") == "read" {
			printed++
		}
	}
	atLeast(t, printed, 47, "printed criteria")
}

func TestAmmoniaCriteria_Laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph := rapid.Float64Range(5, 10).Draw(t, "pH")
		temp := unit.Celsius(rapid.Float64Range(0, 35).Draw(t, "temperature"))
		with, without := AcuteTAN(ph, temp, true), AcuteTAN(ph, temp, false)
		chronic := ChronicTAN(ph, temp)
		if !(chronic > 0 && chronic < with) {
			t.Fatalf("chronic limit %g, want above 0 and below the acute %g", chronic, with)
		}
		if with > without {
			t.Fatalf("limit with trout %g is laxer than without, %g", with, without)
		}
		lax, laxChronic := AcuteTANNoMussels(ph, temp), ChronicTANNoMussels(ph, temp)
		if lax < without || laxChronic <= chronic || laxChronic >= lax {
			t.Fatalf("limits without mussels %g, %g, with them %g, %g", lax, laxChronic, without, chronic)
		}
		if up, upChronic := AcuteTANNoMussels(ph+0.1, temp), ChronicTANNoMussels(ph+0.1, temp); up >= lax || upChronic >= laxChronic {
			t.Fatalf("limits without mussels rise from %g, %g to %g, %g as pH rises", lax, laxChronic, up, upChronic)
		}
		if up, upChronic := AcuteTANNoMussels(ph, temp+1), ChronicTANNoMussels(ph, temp+1); up > lax || upChronic > laxChronic {
			t.Fatalf("limits without mussels rise from %g, %g to %g, %g as the water warms", lax, laxChronic, up, upChronic)
		}
		if up := AcuteTAN(ph+0.1, temp, true); up >= with {
			t.Fatalf("acute limit rises from %g to %g as pH rises", with, up)
		}
		if up := ChronicTAN(ph+0.1, temp); up >= chronic {
			t.Fatalf("chronic limit rises from %g to %g as pH rises", chronic, up)
		}
		if up := AcuteTAN(ph, temp+1, true); up > with {
			t.Fatalf("acute limit rises from %g to %g as the water warms", with, up)
		}
		if up := ChronicTAN(ph, temp+1); up > chronic {
			t.Fatalf("chronic limit rises from %g to %g as the water warms", chronic, up)
		}
	})
}

func TestNitriteLimit_BritishColumbia(t *testing.T) {
	const file = "nitrite_toxicity.csv"
	compared := 0
	for _, row := range testdata.Table(t, file) {
		id := row.Text("id")
		if row.Text("source") != "BC" || row.Text("unit") != "mg NO2-N/L" {
			continue
		}
		// A class reads "<2", "4-6" or ">10"; take a chloride inside it.
		var low, high, inside float64
		class := row.Text("chloride_mg_l")
		if n, _ := fmt.Sscanf(class, "%g-%g", &low, &high); n == 2 {
			inside = (low + high) / 2
		} else if n, _ := fmt.Sscanf(class, "<%g", &high); n == 1 {
			inside = high / 2
		} else if n, _ := fmt.Sscanf(class, ">%g", &low); n == 1 {
			inside = low + 1
		} else {
			t.Errorf("%s:%d: unreadable chloride class %q", file, row.Line(), class)
			continue
		}
		maximum, average := NitriteLimit(inside)
		got := maximum
		if row.Text("measure") == "guideline 30-day average" {
			got = average
		}
		near(t, file, row, fmt.Sprintf("%s at %g mg Cl/L", id, inside), float64(got), row.Number("value"), 0)
		compared++
	}
	atLeast(t, compared, 10, "nitrite guidelines")
}

func TestNitriteLimit_Edges(t *testing.T) {
	tests := []struct {
		reason   string
		chloride float64
		max, avg unit.MgN
	}{
		{"no chloride", 0, 0.06, 0.02},
		{"not a number counts as none", math.NaN(), 0.06, 0.02},
		{"negative counts as none", -5, 0.06, 0.02},
		{"the first class is printed as <2, so 2 opens the second; its rows are 33 and 100 times below 4 mg Cl/L", 2, 0.12, 0.04},
		{"the last class is printed as >10, so 10 is still in the fifth", 10, 0.30, 0.10},
		{"just above 10", 10.01, 0.60, 0.20},
		{"above the table the last class holds", 20000, 0.60, 0.20},
	}
	for _, tt := range tests {
		if maximum, average := NitriteLimit(tt.chloride); maximum != tt.max || average != tt.avg {
			t.Errorf("NitriteLimit(%g) = %g, %g, want %g, %g: %s",
				tt.chloride, maximum, average, tt.max, tt.avg, tt.reason)
		}
	}
}

// The guideline keeps a chloride to nitrite ratio of 33 (maximum) and 100 (average) at
// the upper edge of each class from 2 to 10, rows bc_ratio_max and bc_ratio_avg.
func TestNitriteLimit_Ratios(t *testing.T) {
	want := map[string]float64{}
	for _, row := range testdata.Table(t, "nitrite_toxicity.csv") {
		if id := row.Text("id"); id == "bc_ratio_max" || id == "bc_ratio_avg" {
			want[id] = row.Number("value")
		}
	}
	for edge := 2.0; edge <= 10; edge += 2 {
		maximum, average := NitriteLimit(edge - 0.01)
		for id, got := range map[string]float64{
			"bc_ratio_max": edge / float64(maximum),
			"bc_ratio_avg": edge / float64(average),
		} {
			if math.Abs(got-want[id]) > 0.5 {
				t.Errorf("%s at %g mg Cl/L = %.2f, published %g", id, edge, got, want[id])
			}
		}
	}
}

func TestNitriteLimit_NeverFallsWithChloride(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(-1, 30).Draw(t, "chloride")
		b := rapid.Float64Range(a, 31).Draw(t, "more chloride")
		maxA, avgA := NitriteLimit(a)
		maxB, avgB := NitriteLimit(b)
		if maxB < maxA || avgB < avgA || avgB >= maxB {
			t.Fatalf("limits %g, %g at %g mg Cl/L but %g, %g at %g", maxA, avgA, a, maxB, avgB, b)
		}
	})
}

func TestChlorineLimits_EPA(t *testing.T) {
	const file = "chlorine.csv"
	want := map[string]float64{"epa_fw_acute": ChlorineAcute, "epa_fw_chronic": ChlorineChronic, "epa_sw_chronic": ChlorineSeaChronic,
		"epa_cl_chronic": ChlorideChronic}
	met := 0
	for _, row := range testdata.Table(t, file) {
		if mgL, ok := want[row.Text("id")]; ok {
			near(t, file, row, row.Text("id")+" in ug/L", 1000*mgL, row.Number("value"), 0)
			met++
		}
	}
	atLeast(t, met, len(want), "chlorine criteria")
}

// The limits that British Columbia printed for salt water, Tables 21 (maximum) and 22
// (average), are our criteria by our share of free ammonia; they are on the scale of
// NH3. Rounding, and 3 % for the law, as in TestFreeAmmoniaFraction_SalineLimits, where
// the misprints are named.
func TestSeaTAN_BritishColumbia(t *testing.T) {
	const file = "ammonia_unionized_saline.csv"
	const law = 0.03
	compared := 0
	for _, row := range testdata.Table(t, file) {
		temp, s, ph := row.Number("temp_c"), row.Number("salinity_g_kg"), row.Number("ph")
		table := row.Text("table")
		if _, misprint := salineMisprint[fmt.Sprintf("table %s, S %g, %g C, pH %g", table, s, temp, ph)]; misprint {
			continue
		}
		acute, chronic := SeaTAN(ph, unit.Celsius(temp), s)
		got := map[string]unit.MgN{"21": acute, "22": chronic}[table]
		want := row.Number("tan_limit_mg_l")
		near(t, file, row, "limit of "+at(ph, temp), float64(got)*unit.MolarNH3/unit.MolarN, want, want*(row.Number("rel_half_unit_percent")/100+law))
		compared++
	}
	atLeast(t, compared, 370, "printed saltwater limits")
}

// SRAC 462 asks for ten times the nitrite in chloride, row srac_ratio.
func TestChloridePerNitrite_SRAC(t *testing.T) {
	const file = "nitrite_toxicity.csv"
	met := 0
	for _, row := range testdata.Table(t, file) {
		if row.Text("id") == "srac_ratio" {
			near(t, file, row, "chloride to nitrite", ChloridePerNitrite, row.Number("value"), 0)
			met++
		}
	}
	atLeast(t, met, 1, "ratios")
}
