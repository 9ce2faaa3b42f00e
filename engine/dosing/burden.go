package dosing

import (
	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// LargestDose is the total ammonia above which a dose holds back more than it feeds.
// Common practice, no source; what it does is worked out by [BurdenOf].
const LargestDose unit.MgIon = 4

// Burden is what a level of total ammonia does.
type Burden struct {
	Free   float64      // un-ionised, mg/L NH3
	Growth float64      // of the bacteria that oxidise nitrite, the share of their growth that is left, 0..1
	Uses   unit.MgCaCO3 // the alkalinity that oxidising it takes
}

// BurdenOf returns what total ammonia does at a pH, a temperature and a salinity in
// g/kg: the free ammonia, and by it the growth of nitrite-oxidising bacteria,
//
//	left = Ki/(Ki + NH3-N),  Ki = 0.2 mg/L
//
// Source: chem.FreeAmmoniaFraction; Ki is the model's for nitrite oxidisers.
func BurdenOf(tan unit.MgN, ph float64, t unit.Celsius, salinity float64) Burden {
	n := float64(tan) * chem.FreeAmmoniaFraction(ph, t, salinity)
	ki := model.Defaults[model.NOB].KiNH3
	return Burden{Free: n * unit.MolarNH3 / unit.MolarN, Growth: ki / (ki + n), Uses: unit.MgCaCO3(chem.AlkPerNitrified * float64(tan))}
}
