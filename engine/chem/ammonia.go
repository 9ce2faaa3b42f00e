package chem

import (
	"math"

	"ripen/engine/unit"
)

// Salinity bounds in g/kg of the two laws for ammonia: up to freshSalinity the
// constant slides from the fresh-water law to the sea-water law, above maxSalinity
// it stays.
const (
	freshSalinity = 10
	maxSalinity   = 40
)

// PKaAmmonia returns the pKa of NH4+ = NH3 + H+ at temperature t and a salinity in
// g/kg.
//
//	S = 0    pKa = 0.09018 + 2729.92/T                                   (Emerson)
//	S >= 10  pKa = 9.245 + 0.116 I + 0.0324 (298 - T) + 0.0415/T         (Hampson)
//	         I   = 19.9273 S/(1000 - 1.005109 S)
//
// with T in kelvin. Between 0 and 10 g/kg no published law was found: pKa is
// interpolated linearly in S. Valid for 0-50 C in fresh and 0-30 C in saline water;
// extrapolated beyond. The salinity is clamped to 0-40 g/kg.
//
// The fresh law holds at infinite dilution: at the ionic strength of hard tap water
// (0.01 mol/L) it puts the NH3 8 to 10 % too high, which errs to the safe side.
//
// Sources: Emerson K., Russo R.C., Lund R.E., Thurston R.V. (1975) J. Fish. Res.
// Board Can. 32:2379-2383. Hampson B.L. (1977) J. Cons. Int. Explor. Mer 37:11-16,
// in the form used by US EPA (1989) EPA 440/5-88-004 at 1 atm; its coefficients are
// from memory, confirmed by the printed limits of testdata/published.
func PKaAmmonia(t unit.Celsius, salinity float64) float64 {
	s := min(max(salinity, 0), maxSalinity)
	T := t.Kelvin()
	fresh := 0.09018 + 2729.92/T
	if s == 0 {
		return fresh
	}
	i := seaIonicStrength(max(s, freshSalinity))
	saline := 9.245 + 0.116*i + 0.0324*(298-T) + 0.0415/T
	w := min(s/freshSalinity, 1)
	return (1-w)*fresh + w*saline
}

// FreeAmmoniaFraction returns the share of total ammonia nitrogen that is NH3
// (a mole fraction, so also the share of the nitrogen), between 0 and 1.
//
//	f = 1/(1 + 10^(pKa - pH))
//
// Valid for pH 6-10 and the range of [PKaAmmonia]; extrapolated beyond.
func FreeAmmoniaFraction(ph float64, t unit.Celsius, salinity float64) float64 {
	return 1 / (1 + math.Pow(10, PKaAmmonia(t, salinity)-ph))
}
