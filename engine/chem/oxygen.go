package chem

import (
	"math"

	"ripen/engine/unit"
)

// StandardPressure is one atmosphere in kPa.
const StandardPressure = 101.325

// OxygenSaturation returns the dissolved oxygen in mg/L of water in equilibrium with
// water-saturated air at one atmosphere.
//
//	ln C = -139.34411 + 1.575701e5/T - 6.642308e7/T^2 + 1.243800e10/T^3
//	       - 8.621949e11/T^4 - S (1.7674e-2 - 10.754/T + 2140.7/T^2)
//
// Valid for 0-40 C and S 0-40 g/kg; temperature is extrapolated beyond, a negative
// salinity counts as 0.
//
// Source: Benson B.B., Krause D. (1984) Limnol. Oceanogr. 29:620-632, as in Standard
// Methods 4500-O.
func OxygenSaturation(t unit.Celsius, salinity float64) float64 {
	s := max(salinity, 0)
	x := 1 / t.Kelvin()
	fresh := -139.34411 + x*(1.575701e5+x*(-6.642308e7+x*(1.243800e10-x*8.621949e11)))
	salt := 1.7674e-2 + x*(-10.754+x*2140.7)
	return math.Exp(fresh - s*salt)
}

// OxygenSaturationAt is [OxygenSaturation] at a barometric pressure in kPa (not
// reduced to sea level), with P in atmospheres:
//
//	C = C1 P (1 - Pw/P)(1 - theta P) / ((1 - Pw)(1 - theta))
//	ln Pw = 11.8571 - 3840.70/T - 216961/T^2          (water vapour)
//	theta = 0.000975 - 1.426e-5 t + 6.436e-8 t^2
//
// Valid for 50-110 kPa and 0-40 C; extrapolated beyond, never below 0.
//
// Source: Benson & Krause (1984), as in Standard Methods 4500-O.
func OxygenSaturationAt(t unit.Celsius, salinity, pressureKPa float64) float64 {
	p := pressureKPa / StandardPressure
	c, vapour := float64(t), vapourPressure(t)
	theta := 0.000975 - 1.426e-5*c + 6.436e-8*c*c
	factor := (p - vapour) * (1 - theta*p) / ((1 - vapour) * (1 - theta))
	return max(0, OxygenSaturation(t, salinity)*factor)
}

// PressureAt returns the usual barometric pressure in kPa at an altitude in metres
// above the sea, that of the standard atmosphere:
//
//	P = 101.325 (1 - 2.25577e-5 h)^5.25588
//
// Valid for -450 to 5,100 m, where people live (107 to 53 kPa); extrapolated to
// 11,000 m, above which it stays. The weather moves it by 2 to 3 %.
//
// Source: U.S. Standard Atmosphere (1976), troposphere.
func PressureAt(altitude float64) float64 {
	return StandardPressure * math.Pow(1-2.25577e-5*min(altitude, 11000), 5.25588)
}

// vapourPressure returns the saturation pressure of water vapour in atmospheres.
func vapourPressure(t unit.Celsius) float64 {
	T := t.Kelvin()
	return math.Exp(11.8571 - 3840.70/T - 216961/(T*T))
}
