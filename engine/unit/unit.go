// Package unit holds the quantities of the engine as types, so that the
// compiler keeps milligrams of nitrogen apart from milligrams of an ion.
//
// The engine works in mg N/L, mg/L as CaCO3 (alkalinity), degrees Celsius,
// litres and days. Numbers from people are converted once, at the edge, by the
// functions of this package.
//
// All conversions hold for any value of either sign, and come back to
// where they started. They use the conventional atomic masses of IUPAC (2021):
// H 1.008, C 12.011, N 14.007, O 15.999, Ca 40.078.
package unit

// Molar masses in g/mol, from the atomic masses above.
const (
	MolarN     = 14.007
	MolarNH3   = 17.031
	MolarNH4   = 18.039
	MolarNO2   = 46.005
	MolarNO3   = 62.004
	MolarCaCO3 = 100.086
)

type (
	// MgN is a concentration of nitrogen in mg N/L.
	MgN float64
	// MgIon is a concentration of a nitrogen species as its ion or molecule, in
	// mg/L: NH4 for total ammonia, NO2 for nitrite, NO3 for nitrate.
	MgIon float64
	// MgCaCO3 is an alkalinity in mg/L as CaCO3.
	MgCaCO3 float64
	// DKH is an alkalinity in German degrees of carbonate hardness.
	DKH float64
	// MeqL is an alkalinity in milliequivalents per litre.
	MeqL float64
	// Celsius is a temperature in degrees Celsius.
	Celsius float64
	// Litres is a volume in litres.
	Litres float64
	// Grams is a mass in grams.
	Grams float64
	// Days is a time in days; in the engine it counts from the tank's start.
	Days float64
)

// Species is a nitrogen species that kits measure.
type Species int

// The species of the three nitrogen kits.
const (
	Ammonia Species = iota // total ammonia, NH3 + NH4
	Nitrite                // NO2
	Nitrate                // NO3
)

// String returns the species' plain name.
func (s Species) String() string { return [...]string{"ammonia", "nitrite", "nitrate"}[s] }

// IonPerN returns the mass of ion that holds one mass of nitrogen: 1.288 for
// total ammonia, counted as NH4 because more than nine tenths of it is NH4
// up to pH 8.2 at 25 C, 3.284 for nitrite, 4.427 for nitrate.
func (s Species) IonPerN() float64 {
	return [...]float64{MolarNH4 / MolarN, MolarNO2 / MolarN, MolarNO3 / MolarN}[s]
}

// N converts a concentration on the ion scale of s to mg N/L, by [Species.IonPerN].
func (c MgIon) N(s Species) MgN { return MgN(float64(c) / s.IonPerN()) }

// Ion converts a concentration of nitrogen to the ion scale of s.
func (c MgN) Ion(s Species) MgIon { return MgIon(float64(c) * s.IonPerN()) }

// mgCaCO3PerMeq is mg CaCO3 per milliequivalent (half a mole).
const mgCaCO3PerMeq = MolarCaCO3 / 2

// mgCaCO3PerDKH: one German degree is 10 mg CaO/L, and CaO is 56.077 g/mol.
const mgCaCO3PerDKH = 10 * MolarCaCO3 / 56.077

// CaCO3 converts German degrees (1 dKH = 17.848 mg/L as CaCO3).
func (d DKH) CaCO3() MgCaCO3 { return MgCaCO3(float64(d) * mgCaCO3PerDKH) }

// DKH converts an alkalinity to German degrees.
func (a MgCaCO3) DKH() DKH { return DKH(float64(a) / mgCaCO3PerDKH) }

// Meq converts an alkalinity to meq/L (1 meq/L = 50.043 mg/L as CaCO3).
func (a MgCaCO3) Meq() MeqL { return MeqL(float64(a) / mgCaCO3PerMeq) }

// CaCO3 converts meq/L to mg/L as CaCO3: 50.043 mg for half a mole.
func (m MeqL) CaCO3() MgCaCO3 { return MgCaCO3(float64(m) * mgCaCO3PerMeq) }

// FromFahrenheit converts degrees Fahrenheit: C = (F - 32)/1.8, by definition.
func FromFahrenheit(f float64) Celsius { return Celsius((f - 32) / 1.8) }

// Fahrenheit converts to degrees Fahrenheit: F = 1.8 C + 32.
func (c Celsius) Fahrenheit() float64 { return float64(c)*1.8 + 32 }

// Kelvin converts to kelvin: K = C + 273.15, by definition.
func (c Celsius) Kelvin() float64 { return float64(c) + 273.15 }

// Litres per gallon: US liquid gallon (231 cubic inches, exact) and imperial
// gallon (UK Weights and Measures Act 1985, exact).
const (
	litresPerUSGal  = 3.785411784
	litresPerImpGal = 4.54609
)

// FromUSGal converts US liquid gallons of 3.785411784 L.
func FromUSGal(g float64) Litres { return Litres(g * litresPerUSGal) }

// FromImpGal converts imperial gallons of 4.54609 L.
func FromImpGal(g float64) Litres { return Litres(g * litresPerImpGal) }

// USGal converts to US liquid gallons.
func (l Litres) USGal() float64 { return float64(l) / litresPerUSGal }

// ImpGal converts to imperial gallons.
func (l Litres) ImpGal() float64 { return float64(l) / litresPerImpGal }
