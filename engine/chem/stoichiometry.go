package chem

import "ripen/engine/unit"

// Molar masses in g/mol, from the conventional atomic masses of IUPAC (2021):
// H 1.008, C 12.011, N 14.007, O 15.999, Na 22.990, S 32.06, Cl 35.45, K 39.098.
const (
	molarO      = 15.999
	molarCO2    = 12.011 + 2*molarO
	molarCl     = 35.45
	molarNaHCO3 = 22.990 + 1.008 + 12.011 + 3*molarO
	molarKHCO3  = 39.098 + 1.008 + 12.011 + 3*molarO
	molarNH4OH  = unit.MolarNH3 + 2*1.008 + molarO
	molarNaCl   = 22.990 + molarCl
	molarNH4Cl  = unit.MolarNH4 + molarCl
)

// MolarCO2 is the molar mass of carbon dioxide in g/mol.
const MolarCO2 = molarCO2

// Nitrification without growth, per mg of nitrogen:
//
//	NH4+ + 1.5 O2 -> NO2- + 2 H+ + H2O
//	NO2- + 0.5 O2 -> NO3-
const (
	// AlkPerNitrified is the alkalinity used in mg CaCO3 per mg N, all of it in the
	// first step: two H+ take one mole of CaCO3, 7.145. With growth 7.07 (US EPA 1993).
	AlkPerNitrified = unit.MolarCaCO3 / unit.MolarN
	// OxygenPerAmmonia is the oxygen used by the first step, 3.427 mg O2 per mg N.
	OxygenPerAmmonia = 3 * molarO / unit.MolarN
	// OxygenPerNitrite is the oxygen used by the second step, 1.142 mg O2 per mg N.
	OxygenPerNitrite = molarO / unit.MolarN
	// OxygenPerNitrified is the oxygen used by both, 4.569 mg O2 per mg N. With
	// growth 4.2 to 4.3.
	OxygenPerNitrified = OxygenPerAmmonia + OxygenPerNitrite
)

// Ammonia from protein.
const (
	// AlkPerAmmonified is the alkalinity that comes with ammonia set free as NH3 from
	// food, fish or a dosed ammonia solution: one H+ is taken up to make NH4+,
	// 3.573 mg CaCO3 per mg N. A dosed ammonium salt brings none.
	AlkPerAmmonified = AlkPerNitrified / 2
	// NitrogenPerProtein is the mass share of nitrogen in protein, 0.16, the usual
	// factor of food analysis (1/6.25).
	NitrogenPerProtein = 0.16
	// TANPerProtein is mg of total ammonia nitrogen that fish give off per mg of protein
	// fed: 0.16 nitrogen x 0.80 assimilated x 0.80 of that excreted x 0.90 of that as
	// ammonia, rounded as the source rounds it.
	// Source: Timmons M.B., Ebeling J.M. (2013) Recirculating Aquaculture.
	TANPerProtein = 0.092
	// ExcretedPerFed is the share of the nitrogen fed that fish give off as total
	// ammonia, 0.575. The rest leaves in growth or comes later from waste.
	ExcretedPerFed = TANPerProtein / NitrogenPerProtein
)

// Salts, in mg of pure salt per mg of what it brings.
const (
	// BicarbonatePerAlk is sodium bicarbonate per alkalinity as CaCO3, 1.679.
	BicarbonatePerAlk = 2 * molarNaHCO3 / unit.MolarCaCO3
	// PotassiumBicarbonatePerAlk is potassium bicarbonate per alkalinity as CaCO3, 2.001.
	PotassiumBicarbonatePerAlk = 2 * molarKHCO3 / unit.MolarCaCO3
	// HydroxidePerNH3 is the mass of ammonium hydroxide, NH4OH, as which some labels
	// count ammonia, per mass of NH3: 2.058.
	HydroxidePerNH3 = molarNH4OH / unit.MolarNH3
	// AmmoniumChloridePerN is ammonium chloride per ammonia nitrogen, 3.819.
	AmmoniumChloridePerN = molarNH4Cl / unit.MolarN
	// ChloridePerSalt is the chloride in sodium chloride, 0.6066 mg per mg.
	ChloridePerSalt = molarCl / molarNaCl
)
