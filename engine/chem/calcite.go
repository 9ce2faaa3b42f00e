package chem

import (
	"math"

	"ripen/engine/unit"
)

// PKspCalcite returns -log10 Ksp of CaCO3(s) = Ca++ + CO3-- for calcite at infinite
// dilution, 8.48 at 25 C. Valid for 0-90 C, extrapolated beyond. Aragonite (coral, many
// shells) is 0.14 lower, so a little more of it dissolves.
//
//	log Ksp = -171.9065 - 0.077993 T + 2839.319/T + 71.595 log T
//
// Source: Plummer L.N., Busenberg E. (1982) Geochim. Cosmochim. Acta 46:1011-1040.
func PKspCalcite(t unit.Celsius) float64 {
	T := t.Kelvin()
	return 171.9065 + 0.077993*T - 2839.319/T - 71.595*math.Log10(T)
}

// CalciteSaturation returns the alkalinity at which water stops dissolving calcite: its
// alkalinity alk, plus what dissolves until Ca++ and CO3-- meet the solubility product.
// calcium is in mol/L, co2 in mol/L and held, as in water that air and filter keep at
// it. Water that is saturated already gives its own alk.
//
//	(Ca + x) [CO3--](Alk + 2x) g2^2 = Ksp
//
// The ionic strength grows with what dissolves. Valid for fresh water of 0-40 C, within
// 10 % of what dissolves: the ion pairs CaHCO3+ and CaCO3, left out, would let 2 % more
// dissolve under air and 6 % more at 6 meq/L (by their constants in the source of
// [PKspCalcite]). Magnesium and phosphate slow it, or end it before.
func CalciteSaturation(alk unit.MgCaCO3, calcium, co2 float64, t unit.Celsius) unit.MgCaCO3 {
	ksp := math.Pow(10, -PKspCalcite(t))
	below := func(a unit.MgCaCO3) bool {
		ionic := IonicStrength(0, a)
		c := CarbonateAt(t, ionic)
		h := math.Pow(10, -c.PH(a, co2))
		g2 := DaviesGamma(2, ionic, t)
		ca := max(calcium, 0) + float64((a-alk).Meq())*0.5e-3
		return ca*c.k12*max(co2, 0)/(h*h)*g2*g2 < ksp
	}
	low, high := alk, alk+unit.MeqL(50).CaCO3()
	if !below(low) {
		return alk
	}
	for range 60 {
		if mid := (low + high) / 2; below(mid) {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}
