package dosing

import (
	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// LargestDose is the total ammonia above which a dose is warned of. Common practice, no
// source; what so much does is worked out by [BurdenOf].
const LargestDose unit.MgIon = 4

// Burden is what a level of total ammonia does.
type Burden struct {
	Free   float64      // un-ionised, mg/L NH3
	Growth float64      // of the bacteria that oxidise nitrite, the share of their growth that is left, 0..1
	Uses   unit.MgCaCO3 // the alkalinity that oxidising it takes
}

// GrowthLeft returns the share of their growth, 0..1, that free ammonia in mg/L NH3
// leaves the bacteria that oxidise nitrite:
//
//	left = Ki/(Ki + NH3-N),  Ki = 0.2 mg/L
//
// Source: Ki is the model's for nitrite oxidisers, within the range of Anthonisen et
// al. (1976).
func GrowthLeft(free float64) float64 {
	n := max(free, 0) * unit.MolarN / unit.MolarNH3
	ki := model.Defaults[model.NOB].KiNH3
	return ki / (ki + n)
}

// BurdenOf returns what total ammonia does at a pH, a temperature and a salinity in
// g/kg: the free ammonia by chem.FreeAmmoniaFraction, and what that does.
func BurdenOf(tan unit.MgN, ph float64, t unit.Celsius, salinity float64) Burden {
	free := float64(tan) * chem.FreeAmmoniaFraction(ph, t, salinity) * unit.MolarNH3 / unit.MolarN
	return Burden{Free: free, Growth: GrowthLeft(free), Uses: unit.MgCaCO3(chem.AlkPerNitrified * float64(tan))}
}
