package chem

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/unit"
	"ripen/testdata"
)

// The speciation program's waters of one temperature and one CO2 differ in alkalinity
// alone, so going from one to another is what PHAfter does. From 1,000 ppm on, where
// the air's own CO2 does not step in.
func TestPHAfter_Published(t *testing.T) {
	rows := testdata.Table(t, carbonateFile)
	compared := 0
	for _, from := range rows {
		if from.Text("kind") != "co2_rich_pH" {
			continue
		}
		for _, to := range rows {
			if to.Text("kind") != "co2_rich_pH" || to.Text("source") != from.Text("source") || to.Text("pco2_ppm") != from.Text("pco2_ppm") {
				continue
			}
			a, b := unit.MeqL(from.Number("alk_meq_l")).CaCO3(), unit.MeqL(to.Number("alk_meq_l")).CaCO3()
			// Both pH values are rounded to 0.0005; the ionic strength is that of the
			// water before, of calcium bicarbonate where the program has sodium's: up
			// to 0.05 of pH from a quarter of a meq/L to four.
			near(t, carbonateFile, to, "pH after a change of alkalinity", PHAfter(from.Number("value"), a, b, unit.Celsius(to.Number("temp_c")), 0), to.Number("value"), 0.05)
			compared++
		}
	}
	atLeast(t, compared, 50, "pairs of waters")
}

func TestPHAfter_Laws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ph := rapid.Float64Range(5, 9).Draw(t, "pH")
		alk := unit.MgCaCO3(rapid.Float64Range(0, 300).Draw(t, "alkalinity"))
		temp := unit.Celsius(rapid.Float64Range(4, 40).Draw(t, "temperature"))
		more := unit.MgCaCO3(rapid.Float64Range(0, 200).Draw(t, "more"))
		up := PHAfter(ph, alk, alk+more, temp, 0)
		if up < ph {
			t.Fatalf("more alkalinity lowers the pH from %g to %g", ph, up)
		}
		if down := PHAfter(ph, alk, alk-more, temp, 0); down > ph {
			t.Fatalf("less alkalinity raises the pH from %g to %g", ph, down)
		}
		if twice := PHAfter(ph, alk, alk+2*more, temp, 0); twice < up-1e-12 {
			t.Fatalf("twice the alkalinity gives pH %g, once %g", twice, up)
		}
	})
	// Soft acid water: air's CO2 keeps 4 dKH from going past about 8.3 (bicarbonate of
	// 1.43 meq/L under RoomAir).
	air := PHFromAlkalinity(unit.DKH(4).CaCO3(), CO2AtAir(25, RoomAir), 25, 0)
	if got := PHAfter(6, 0, unit.DKH(4).CaCO3(), 25, 0); math.Abs(got-air) > 1e-9 {
		t.Errorf("from nothing to 4 dKH: pH %.3f, under air %.3f", got, air)
	}
}
