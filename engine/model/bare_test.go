package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// TestBareWater: water whose KH tests as 0 keeps the pH that was told, and a dose of
// ammonia solution does not make it caustic: a tenth of a meq/L in water at rest with
// air comes to pH 7 to 7.5 by the carbonate constants (pK1 6.35, 10 to 17 µmol/L of carbon dioxide).
func TestBareWater(t *testing.T) {
	par := Central()
	for _, ph := range []float64{6.2, 6.5, 6.8} {
		c := Case{Setup: Typical(Setup{Volume: 20, PH: ph, Temp: 25, Given: Given{PH: true, KH: true}}),
			Events: []Event{{Day: 1, Kind: Dose, N: 1.4}}}
		r := NewPlan(c, 2).Start(&par)
		if got := r.PH(); math.Abs(got-ph) > 0.05 {
			t.Errorf("at first pH is %.2f, was told as %.2f", got, ph)
		}
		r.To(1, nil)
		if got := r.PH(); got < 6.9 || got > 7.6 {
			t.Errorf("after 0.1 meq/L of ammonia the pH is %.2f", got)
		}
		kh := unit.MgCaCO3(0)
		r.assimilate(&Reading{PH: &ph, KH: &kh})
		if r.State.Alk < 0 || r.State.Alk > 0.12 {
			t.Errorf("KH 0 leaves an alkalinity of %.3f meq/L", r.State.Alk)
		}
	}
}
