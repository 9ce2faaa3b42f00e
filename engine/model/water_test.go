package model

import (
	"math"
	"testing"

	"ripen/engine/chem"
	"ripen/engine/unit"
	"ripen/testdata"
)

// env0 is what surrounds the bacteria of a set-up on day 0.
func env0(s Setup) Env {
	return NewPlan(Case{Setup: Typical(s)}, 0).envs[0]
}

// Salt and thin air reach the rates by the laws of package chem.
func TestSurroundingsFollowChem(t *testing.T) {
	for _, s := range []Setup{
		{Volume: 60}, {Volume: 60, Salinity: 5}, {Volume: 60, Salinity: 35}, {Volume: 60, Altitude: 1600}, {Volume: 60, Salinity: 35, Altitude: 3000},
	} {
		e := env0(s) // at the typical 25 C
		for _, x := range []struct {
			name      string
			got, want float64
		}{
			{"oxygen at saturation", e.satO2, chem.OxygenSaturationAt(25, s.Salinity, chem.PressureAt(s.Altitude))},
			{"dissociation of ammonium", e.kaNH3, math.Pow(10, -chem.PKaAmmonia(25, s.Salinity))},
		} {
			if math.Abs(x.got/x.want-1) > 1e-12 {
				t.Errorf("%s at %g g/kg, %g m is %g, want %g", x.name, s.Salinity, s.Altitude, x.got, x.want)
			}
		}
	}
	sea, high, low := env0(Setup{Volume: 60, Salinity: 35}), env0(Setup{Volume: 60, Altitude: 3000}), env0(Setup{Volume: 60})
	// oxygen_saturation.csv: 8.263 mg/L in fresh and 6.772 in sea water at 25 C.
	if math.Abs(low.satO2-8.263) > 0.005 || math.Abs(sea.satO2-6.772) > 0.001 || high.satO2 > 0.72*low.satO2 {
		t.Errorf("oxygen at saturation %g, in sea water %g, at 3000 m %g", low.satO2, sea.satO2, high.satO2)
	}
}

// A tank at sea salinity runs through a cycle as any other: nothing below nil, nitrogen
// balances, and it gets done.
func TestSeaWaterRuns(t *testing.T) {
	p := NewPlan(Case{Setup: Typical(Setup{Volume: 100, Salinity: 35, Temp: 26, Given: Given{Temp: true}})}, 0)
	par := Central()
	for i := range par.Seed {
		par.Seed[i] = 0.02
	}
	r := p.Start(&par)
	if ph := r.PH(); math.Abs(ph-seaPH) > 0.01 {
		t.Errorf("pH %.2f on day 0, want that of sea water", ph)
	}
	c := r.Finish(0, func(day int, q Pools) {
		if !(q[0] >= 0 && q[1] >= 0 && q[2] >= 0) || r.PH() < 4 || r.PH() > 9 {
			t.Fatalf("day %d: %v at pH %.2f", day, q, r.PH())
		}
	})
	if d := math.Abs(r.State.Nitrogen() - (r.Ledger.In - r.Ledger.Out)); d > 1e-9*r.Ledger.In {
		t.Errorf("%g mg N/L are missing", d)
	}
	if !(c.Done > 3 && c.Done < 60) {
		t.Errorf("done on day %g", c.Done)
	}
}

// The model ties pH to alkalinity by bicarbonate alone, from the pH that was told. In
// sea water, with the carbonate constants of Millero et al. (2006) as carbonate.csv
// prints them, that foresees the pH within 0.1 until three fifths of the alkalinity
// are used up. Borate, 4 % of it, is left out here too.
func TestSeaWaterPH(t *testing.T) {
	pk := map[string]float64{}
	for _, row := range testdata.Table(t, "carbonate.csv") {
		pk[row.Text("name")] = row.Number("value")
	}
	k2 := math.Pow(10, -pk["pK2_seawater_S35_SWS"])
	alk := func(h, k1co2 float64) float64 { return 1e3 * (k1co2/h + 2*k2*k1co2/(h*h)) } // meq/L
	const start = 2.3
	h := math.Pow(10, -seaPH)
	k1co2 := 1e-3 * start / (1/h + 2*k2/(h*h))
	e := env0(Setup{Volume: 60, Salinity: 35})
	s := State{Alk: start, acid: acidFor(math.Pow(10, -seaPH), start, e.kw)}
	for ph := seaPH; ph > 7; ph -= 0.01 {
		s.Alk = alk(math.Pow(10, -ph), k1co2)
		if s.Alk < 0.4*start {
			return
		}
		if d := s.PH(&e) - ph; math.Abs(d) > 0.1 {
			t.Fatalf("at %.2f meq/L of %.1f the model has pH %.2f, want %.2f", s.Alk, start, s.PH(&e), ph)
		}
	}
	t.Error("the alkalinity never fell so far")
}

func TestWaterBelieved(t *testing.T) {
	told, source := Given{PH: true, KH: true}, Given{Source: true}
	tests := []struct {
		reason          string
		s               Setup
		phLow, phHigh   float64 // where the most likely pH lies
		khLow, khHigh   unit.DKH
		narrow, narrow2 bool // pH, KH known well
	}{
		{"told values stand", Setup{PH: 7.9, KH: unit.DKH(12).CaCO3(), Given: told}, 7.9, 7.9, 11.99, 12.01, true, true},
		{"tap water is kept between pH 6.5 and 8.5 (US EPA secondary standard), 20 to 200 mg/L", Setup{}, 6.5, 8.5, 1.1, 11.2, false, false},
		{"chloramine says nothing of pH", Setup{Source: Chloraminated, Given: source}, 7.5, 7.5, 5, 5, false, false},
		{"wells differ most", Setup{Source: Well, Given: source}, 6.8, 7.8, 3, 10, false, false},
		{"made up from pure water", Setup{Source: RO, Given: source}, 6.3, 7.2, 1, 4, false, false},
		{"rain", Setup{Source: Rain, Given: source}, 6, 7, 0.5, 3, false, false},
		{"sea water has pH 8.1 and 2.3 meq/L", Setup{Salinity: 35, Source: RO, Given: source}, 8.1, 8.1, 6.4, 9, false, false},
		{"half way to salt", Setup{Salinity: 5}, 7.6, 8.0, 5, 7.5, false, false},
		{"acidic water is soft", Setup{PH: 6, Given: Given{PH: true}}, 6, 6, 0.5, 2, true, false},
		{"soft water is acidic", Setup{KH: unit.DKH(1).CaCO3(), Temp: 25, Given: Given{KH: true}}, 6, 7, 1, 1, false, true},
	}
	for _, tt := range tests {
		w := tt.s.Water()
		kh := w.KH.DKH()
		if w.PH < tt.phLow || w.PH > tt.phHigh || kh < tt.khLow-0.001 || kh > tt.khHigh+0.001 {
			t.Errorf("%s: pH %.2f, KH %.2f", tt.reason, w.PH, kh)
		}
		if (w.PHSD == toldPH) != tt.narrow && tt.s.Salinity == 0 || (w.KHSD == toldKH) != tt.narrow2 {
			t.Errorf("%s: spreads %.2f, %.2f", tt.reason, w.PHSD, w.KHSD)
		}
		full := Typical(tt.s)
		if again := full.Water(); again.PHSD != w.PHSD || again.KHSD != w.KHSD || again.PH != full.PH || again.KH != full.KH {
			t.Errorf("%s: filled in, it is believed as %+v, before as %+v", tt.reason, again, w)
		}
	}
}

// A pH and a KH told to hold from a day on reach the water of that day, and the new
// water of later changes.
func TestToldWaterFromADayOn(t *testing.T) {
	s := Typical(Setup{Volume: 60, PH: 7, KH: unit.DKH(4).CaCO3(), Given: Given{PH: true, KH: true}})
	ph, kh, temp := 7.8, unit.DKH(10).CaCO3(), unit.Celsius(27)
	c := Case{Setup: s,
		Changes: []Change{{Day: 5, PH: &ph, KH: &kh}, {Day: 6, Temp: &temp}},
		Events:  []Event{{Day: 8, Kind: WaterChange, Fraction: 1, Treated: Yes}},
	}
	par := Central()
	r := NewPlan(c, 10).Start(&par)
	for _, x := range []struct {
		day           float64
		phLow, phHigh float64
		khLow, khHigh float64
		reason        string
	}{
		{4.99, 6.9, 7.1, 3.9, 4.1, "as registered"},
		{5, 7.5, 7.9, 8.5, 10.1, "a told change counts as a measurement: most of the way"},
		{7, 7.5, 7.9, 8.5, 10.1, "another change does not tell it again"},
		{8, 7.5, 7.9, 9.9, 10.1, "new water has the hardness told last"},
	} {
		r.To(x.day, nil)
		got, dKH := r.PH(), float64(unit.MeqL(r.State.Alk).CaCO3().DKH())
		if got < x.phLow || got > x.phHigh || dKH < x.khLow || dKH > x.khHigh {
			t.Errorf("day %g: pH %.2f, KH %.2f dKH; want %g to %g, %g to %g: %s", x.day, got, dKH, x.phLow, x.phHigh, x.khLow, x.khHigh, x.reason)
		}
	}
}
