package chem

import (
	"math"

	"ripen/engine/unit"
)

// PK1 returns -log10 K1 of CO2(aq) + H2O = H+ + HCO3- at infinite dilution,
// 6.35 at 25 C. Valid for 0-90 C, extrapolated beyond.
//
// Source: Plummer L.N., Busenberg E. (1982) Geochim. Cosmochim. Acta 46:1011-1040.
func PK1(t unit.Celsius) float64 {
	T := t.Kelvin()
	return 356.3094 + 0.06091964*T - 21834.37/T - 126.8339*math.Log10(T) + 1684915/(T*T)
}

// PK2 returns -log10 K2 of HCO3- = H+ + CO3-- at infinite dilution, 10.33 at 25 C.
// Source and range as for [PK1].
func PK2(t unit.Celsius) float64 {
	T := t.Kelvin()
	return 107.8871 + 0.03252849*T - 5151.79/T - 38.92561*math.Log10(T) + 563713.9/(T*T)
}

// PKH returns -log10 KH of CO2(g) = CO2(aq), KH in mol/(L atm), 1.47 at 25 C.
// Source and range as for [PK1].
func PKH(t unit.Celsius) float64 {
	T := t.Kelvin()
	return -108.3865 - 0.01985076*T + 6919.53/T + 40.45154*math.Log10(T) - 669365/(T*T)
}

// PKw returns -log10 Kw of H2O = H+ + OH- at infinite dilution, 14.00 at 25 C.
// Valid for 0-100 C, extrapolated beyond.
//
// Source: Nordstrom D.K. et al. (1990) Revised chemical equilibrium data for major
// water-mineral reactions and their limitations, ACS Symp. Ser. 416:398-413.
func PKw(t unit.Celsius) float64 {
	T := t.Kelvin()
	return 283.971 + 0.05069842*T - 13323.0/T - 102.24447*math.Log10(T) + 1119669/(T*T)
}

// CO2AtAir returns the dissolved CO2 in mol/L of water in equilibrium with air that
// holds ppm parts of CO2 per million (dry mole fraction) at one atmosphere. The
// water vapour of the air is left out: it would take off 1 % at 5 C and 3 % at 25 C.
//
//	[CO2] = KH p,  p = ppm 1e-6 atm (Henry)
//
// Range and source as for [PKH]; above sea level it is less by the pressure.
func CO2AtAir(t unit.Celsius, ppm float64) float64 {
	return math.Pow(10, -PKH(t)) * ppm * 1e-6
}

// Carbonate is the carbonate system at one temperature and ionic strength, with its
// constants worked out once: the form for a loop that asks for many pH values.
//
// Alkalinity is carbonate alkalinity plus hydroxide less hydrogen ion; borate and
// phosphate and ion pairs are left out. With h the activity of H+, pH = -log10 h:
//
//	Alk = k1 CO2/h + 2 k12 CO2/h^2 + kw/h - h/g1
//
// Compared with a speciation program the pH of bicarbonate waters of 0.25 to 4 meq/L
// agrees within 0.005. In sea water it may be 0.2 off, since the Davies equation ends
// at 0.5 mol/L and sea salt pairs with carbonate: trust the measured pH there. The
// constants are valid for 0-90 C.
type Carbonate struct {
	k1  float64 // K1/g1: [HCO3-] = k1 CO2/h
	k12 float64 // K1 K2/g2: [CO3--] = k12 CO2/h^2
	kw  float64 // Kw/g1: [OH-] = kw/h
	g1  float64 // activity coefficient of a singly charged ion
}

// CarbonateAt returns the system at temperature t and an ionic strength in mol/L,
// with activity coefficients from [DaviesGamma] (0 gives infinite dilution).
func CarbonateAt(t unit.Celsius, ionic float64) Carbonate {
	g1, g2 := DaviesGamma(1, ionic, t), DaviesGamma(2, ionic, t)
	pk1 := PK1(t)
	return Carbonate{
		k1:  math.Pow(10, -pk1) / g1,
		k12: math.Pow(10, -pk1-PK2(t)) / g2,
		kw:  math.Pow(10, -PKw(t)) / g1,
		g1:  g1,
	}
}

// PH returns the pH of water of an alkalinity (any sign) that holds co2 mol/L of
// dissolved CO2. A negative co2 counts as 0.
//
// The charge balance is a cubic in h with one positive root. From that root upwards it
// is convex, so Newton's method, started above, comes down to it without overshoot.
func (c Carbonate) PH(alk unit.MgCaCO3, co2 float64) float64 {
	a := equivalents(alk)
	co2 = max(co2, 0)
	b := c.k1*co2 + c.kw
	d := 2 * c.k12 * co2
	// h^3/g1 + a h^2 - b h - d = 0; without d the root is too low, with d/low too high.
	low := c.quadratic(a, b)
	h := c.quadratic(a, b+d/low)
	for range 60 {
		f := h*(h*(h/c.g1+a)-b) - d
		slope := h*(3*h/c.g1+2*a) - b
		step := f / slope
		h -= step
		if !(math.Abs(step) > 1e-13*h) {
			break
		}
	}
	return -math.Log10(h)
}

// quadratic returns the positive root of h^2/g1 + a h - b = 0, without cancellation.
func (c Carbonate) quadratic(a, b float64) float64 {
	r := math.Sqrt(a*a + 4*b/c.g1)
	if a > 0 {
		return 2 * b / (a + r)
	}
	return c.g1 * (r - a) / 2
}

// CO2 returns the dissolved CO2 in mol/L at a pH and an alkalinity, by the formula
// of [Carbonate]. It is 0 where the alkalinity cannot reach that pH even without CO2.
func (c Carbonate) CO2(ph float64, alk unit.MgCaCO3) float64 {
	h := math.Pow(10, -ph)
	return max(0, (equivalents(alk)-c.kw/h+h/c.g1)/(c.k1/h+2*c.k12/(h*h)))
}

// Alkalinity returns the alkalinity at a pH and co2 mol/L of dissolved CO2, by the
// formula of [Carbonate]; below about pH 5 it is negative, an acidity.
func (c Carbonate) Alkalinity(ph, co2 float64) unit.MgCaCO3 {
	h := math.Pow(10, -ph)
	eq := c.k1*co2/h + 2*c.k12*co2/(h*h) + c.kw/h - h/c.g1
	return unit.MeqL(1e3 * eq).CaCO3()
}

// equivalents returns an alkalinity in eq/L.
func equivalents(alk unit.MgCaCO3) float64 { return float64(alk.Meq()) * 1e-3 }

// PHFromAlkalinity is [Carbonate.PH] at a temperature and an ionic strength in mol/L.
func PHFromAlkalinity(alk unit.MgCaCO3, co2 float64, t unit.Celsius, ionic float64) float64 {
	return CarbonateAt(t, ionic).PH(alk, co2)
}

// CO2FromPH is [Carbonate.CO2] at a temperature and an ionic strength in mol/L.
func CO2FromPH(ph float64, alk unit.MgCaCO3, t unit.Celsius, ionic float64) float64 {
	return CarbonateAt(t, ionic).CO2(ph, alk)
}

// AlkalinityFromPH is [Carbonate.Alkalinity] at a temperature and an ionic strength
// in mol/L.
func AlkalinityFromPH(ph, co2 float64, t unit.Celsius, ionic float64) unit.MgCaCO3 {
	return CarbonateAt(t, ionic).Alkalinity(ph, co2)
}
