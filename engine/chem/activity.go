package chem

import (
	"math"

	"ripen/engine/unit"
)

// maxIonic is the end of the Davies equation's range in mol/L.
const maxIonic = 0.5

// DebyeHuckelA returns the Debye-Hückel slope for log10 activity coefficients,
// 0.51 at 25 C.
//
//	A = 1.82e6 (e T)^-1.5,  e = 87.740 - 0.40008 t + 9.398e-4 t^2 - 1.410e-6 t^3
//
// Valid for 0-100 C. Sources: Stumm & Morgan, Aquatic Chemistry; permittivity e of
// water from Malmberg C.G., Maryott A.A. (1956) J. Res. Natl. Bur. Stand. 56:1-8.
func DebyeHuckelA(t unit.Celsius) float64 {
	return 1.82e6 * math.Pow(permittivity(t)*t.Kelvin(), -1.5)
}

// permittivity returns the relative permittivity of water.
func permittivity(t unit.Celsius) float64 {
	c := float64(t)
	return 87.740 + c*(-0.40008+c*(9.398e-4-c*1.410e-6))
}

// DaviesGamma returns the activity coefficient of an ion of the given charge at an
// ionic strength in mol/L.
//
//	log10 g = -A z^2 (sqrt(I)/(1 + sqrt(I)) - 0.3 I)
//
// Valid to 0.5 mol/L; the ionic strength is clamped to 0-0.5, so in sea water
// (0.7 mol/L) the result is a rough one.
//
// Source: Davies C.W. (1962) Ion Association, Butterworths.
func DaviesGamma(charge int, ionic float64, t unit.Celsius) float64 {
	i := min(max(ionic, 0), maxIonic)
	z2 := float64(charge * charge)
	r := math.Sqrt(i)
	return math.Pow(10, -DebyeHuckelA(t)*z2*(r/(1+r)-0.3*i))
}

// IonicStrength estimates the ionic strength in mol/L from a salinity in g/kg and an
// alkalinity: the larger of sea salt's, 19.9273 S/(1000 - 1.005109 S), and that of
// calcium bicarbonate of the alkalinity, 1.5 mol per equivalent, which is most of the
// salt of a usual hard tap water. Negative inputs count as 0, the salinity is clamped
// at 40 g/kg.
//
// Source of the first: as in [PKaAmmonia]; the second follows from the definition.
func IonicStrength(salinity float64, alk unit.MgCaCO3) float64 {
	sea := seaIonicStrength(min(max(salinity, 0), maxSalinity))
	bicarbonate := 1.5e-3 * float64(max(alk, 0).Meq())
	return max(sea, bicarbonate)
}

// seaIonicStrength returns the ionic strength of sea water of salinity s in g/kg.
func seaIonicStrength(s float64) float64 { return 19.9273 * s / (1000 - 1.005109*s) }
