package chem

import (
	"math"

	"ripen/engine/unit"
)

// PKaNitrous returns the pKa of HNO2 = H+ + NO2-.
//
//	Ka = exp(-2300/(273 + t)), so pKa = 2300/(273 + t)/ln 10
//
// The 273 is the source's. Valid for 0-40 C, extrapolated beyond.
//
// Source: Anthonisen A.C., Loehr R.C., Prakasam T.B.S., Srinath E.G. (1976)
// J. Water Pollut. Control Fed. 48:835-852.
func PKaNitrous(t unit.Celsius) float64 {
	return 2300 / (273 + float64(t)) / math.Ln10
}

// FreeNitrousFraction returns the share of total nitrite that is undissociated HNO2
// (a mole fraction), between 0 and 1: one part in several thousand at pH 7.
// Same source and range as [PKaNitrous].
func FreeNitrousFraction(ph float64, t unit.Celsius) float64 {
	return 1 / (1 + math.Pow(10, ph-PKaNitrous(t)))
}
