package chem

import "ripen/engine/unit"

// Chlorine is counted as mg Cl2/L, free or combined, as water suppliers report it.
const (
	molarCl2         = 2 * molarCl
	molarThiosulfate = 2*22.990 + 2*32.06 + 3*molarO
)

// Monochloramine, NH2Cl: one nitrogen holds the oxidising power of one Cl2.
const (
	// AmmoniaNPerChloramine is the ammonia nitrogen left behind when chloramine is
	// neutralised, 0.1976 mg N per mg Cl2.
	AmmoniaNPerChloramine = unit.MolarN / molarCl2
	// ChlorinePerChloramineN is its inverse, 5.06 mg Cl2 per mg N.
	ChlorinePerChloramineN = molarCl2 / unit.MolarN
	// BreakpointChlorinePerN is the chlorine that turns ammonia wholly into nitrogen
	// gas, 3 HOCl per 2 NH3: 7.59 mg Cl2 per mg N.
	BreakpointChlorinePerN = 1.5 * ChlorinePerChloramineN
)

// Anhydrous sodium thiosulfate per chlorine, mg per mg Cl2. The need depends on what
// the thiosulfate ends as; field guides use 1.9 at pH 7 (AWWA, Disinfection of
// Pipelines and Storage Facilities). A dose sure to be enough takes the tetrathionate
// value.
const (
	// ThiosulfatePerChlorine: 2 Na2S2O3 + Cl2 -> Na2S4O6 + 2 NaCl (tetrathionate), 4.46.
	ThiosulfatePerChlorine = 2 * molarThiosulfate / molarCl2
	// ThiosulfatePerChlorineSulfur: Na2S2O3 + Cl2 + H2O -> Na2SO4 + S + 2 HCl, 2.23.
	ThiosulfatePerChlorineSulfur = molarThiosulfate / molarCl2
	// ThiosulfatePerChlorineSulfate: Na2S2O3 + 4 Cl2 + 5 H2O -> 2 NaHSO4 + 8 HCl, 0.557,
	// with chlorine in excess.
	ThiosulfatePerChlorineSulfate = molarThiosulfate / (4 * molarCl2)
	// PentahydratePerThiosulfate is the mass of the crystals Na2S2O3.5H2O that hold one
	// mass of Na2S2O3, 1.570.
	PentahydratePerThiosulfate = (molarThiosulfate + 5*(2*1.008+molarO)) / molarThiosulfate
)
