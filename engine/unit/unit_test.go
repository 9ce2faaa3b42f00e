package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/testdata"
)

// published gives the package's number for the unit rows of stoichiometry.csv, by id.
var published = map[string]float64{
	"n_to_nh3":   MolarNH3 / MolarN,
	"n_to_nh4":   float64(MgN(1).Ion(Ammonia)),
	"nh4_to_n":   float64(MgIon(1).N(Ammonia)),
	"n_to_no2":   float64(MgN(1).Ion(Nitrite)),
	"no2_to_n":   float64(MgIon(1).N(Nitrite)),
	"n_to_no3":   float64(MgN(1).Ion(Nitrate)),
	"no3_to_n":   float64(MgIon(1).N(Nitrate)),
	"nh3_to_nh4": MolarNH4 / MolarNH3,
	"nh4_to_no2": float64(MgIon(1).N(Ammonia).Ion(Nitrite)),
	"no2_to_no3": float64(MgIon(1).N(Nitrite).Ion(Nitrate)),
	"dkh_meq":    float64(DKH(1).CaCO3().Meq()),
	"dkh_caco3":  float64(DKH(1).CaCO3()),
	"meq_caco3":  float64(MeqL(1).CaCO3()),
	"meq_dkh":    float64(MeqL(1).CaCO3().DKH()),
}

func TestConversions_Published(t *testing.T) {
	const file = "stoichiometry.csv"
	met := 0
	for _, row := range testdata.Table(t, file) {
		got, ok := published[row.Text("id")]
		if !ok {
			continue
		}
		met++
		if want, half := row.Number("value"), row.HalfUnit("value"); math.Abs(got-want) > half+1e-12 {
			t.Errorf("%s:%d: %s = %.6g, published %g, rounding ±%g",
				file, row.Line(), row.Text("quantity"), got, want, half)
		}
	}
	if met != len(published) {
		t.Errorf("%s has %d of the %d unit rows", file, met, len(published))
	}
}

func TestConversions_Exact(t *testing.T) {
	tests := []struct {
		name, source string
		got, want    float64
	}{
		{"US gallon in litres", "231 cubic inches of 2.54 cm", float64(FromUSGal(1)), 231 * 2.54 * 2.54 * 2.54 / 1000},
		{"imperial gallon in litres", "UK Weights and Measures Act 1985", float64(FromImpGal(1)), 4.54609},
		{"20 US gallons back", "inverse", Litres(20 * 3.785411784).USGal(), 20},
		{"20 imperial gallons back", "inverse", Litres(20 * 4.54609).ImpGal(), 20},
		{"freezing point", "definition of the scale", float64(FromFahrenheit(32)), 0},
		{"boiling point", "definition of the scale", float64(FromFahrenheit(212)), 100},
		{"where the scales meet", "definition of the scale", Celsius(-40).Fahrenheit(), -40},
		{"0 C in kelvin", "definition of the scale", Celsius(0).Kelvin(), 273.15},
	}
	for _, tt := range tests {
		if math.Abs(tt.got-tt.want) > 1e-12*max(1, math.Abs(tt.want)) {
			t.Errorf("%s = %.15g, want %.15g (%s)", tt.name, tt.got, tt.want, tt.source)
		}
	}
}

// Whatever a member enters must come back as entered.
func TestConversions_RoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.Float64Range(0, 10000).Draw(t, "value")
		s := Species(rapid.IntRange(int(Ammonia), int(Nitrate)).Draw(t, "species"))
		trips := map[string]float64{
			"ion to N and back of " + s.String(): float64(MgIon(v).N(s).Ion(s)),
			"N to ion and back of " + s.String(): float64(MgN(v).Ion(s).N(s)),
			"dKH":                                float64(DKH(v).CaCO3().DKH()),
			"meq/L":                              float64(MeqL(v).CaCO3().Meq()),
			"Fahrenheit":                         FromFahrenheit(v).Fahrenheit(),
			"US gallons":                         FromUSGal(v).USGal(),
			"imperial gallons":                   FromImpGal(v).ImpGal(),
		}
		for name, got := range trips {
			if math.Abs(got-v) > 1e-12*max(1, v) {
				t.Fatalf("%s: %.15g comes back as %.15g", name, v, got)
			}
		}
	})
}
