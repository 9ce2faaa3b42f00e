package chem

import (
	"math"

	"ripen/engine/unit"
)

// AcuteTAN returns the US EPA 2013 acute freshwater criterion (CMC, a one-hour
// average) as total ammonia nitrogen. oncorhynchus says whether trout and salmon of
// that genus are present, which is stricter in cool water. Mussels are taken to be
// present, as in the published tables.
//
// Tabulated for pH 6.5-9.0 and 0-30 C; the formula is extrapolated beyond, which
// above the bounds gives ever lower, stricter values.
//
// Source: US EPA (2013) EPA-822-R-13-001, Tables 5a and 5b.
func AcuteTAN(ph float64, t unit.Celsius, oncorhynchus bool) unit.MgN {
	low, high := phShares(ph, 7.204)
	invertebrate := 0.7249 * (0.0114*low + 1.6181*high)
	warm := 23.12 * math.Pow(10, 0.036*(20-float64(t)))
	if oncorhynchus {
		return unit.MgN(min(0.275*low+39.0*high, invertebrate*warm))
	}
	return unit.MgN(invertebrate * min(51.93, warm))
}

// ChronicTAN returns the US EPA 2013 chronic freshwater criterion (CCC, a 30-day
// average; no 4-day average above 2.5 times it) as total ammonia nitrogen. Range as
// for [AcuteTAN]; below 7 C the value of 7 C holds.
//
// Source: US EPA (2013) EPA-822-R-13-001, Table 6.
func ChronicTAN(ph float64, t unit.Celsius) unit.MgN {
	low, high := phShares(ph, 7.688)
	warm := 2.126 * math.Pow(10, 0.028*(20-max(float64(t), 7)))
	return unit.MgN(0.8876 * (0.0278*low + 1.1994*high) * warm)
}

// AcuteTANNoMussels returns the US EPA 2013 acute criterion for fresh water where
// neither mussels nor trout and salmon live. Range and average as for [AcuteTAN].
//
// Source: US EPA (2013) EPA-822-R-13-001, Appendix N, as adopted by Virginia in
// 9VAC25-260-155; read in that state's assessment script, not in the appendix itself.
func AcuteTANNoMussels(ph float64, t unit.Celsius) unit.MgN {
	low, high := phShares(ph, 7.204)
	return unit.MgN(0.7249 * (0.0114*low + 1.6181*high) * min(51.93, 62.15*math.Pow(10, 0.036*(20-float64(t)))))
}

// ChronicTANNoMussels returns the US EPA 2013 chronic criterion for fresh water
// where no mussels live and young fish do; with trout it is the same. Range and
// average as for [ChronicTAN], source as for [AcuteTANNoMussels].
func ChronicTANNoMussels(ph float64, t unit.Celsius) unit.MgN {
	low, high := phShares(ph, 7.688)
	return unit.MgN(0.9405 * (0.0278*low + 1.1994*high) * min(6.920, 7.547*math.Pow(10, 0.028*(20-float64(t)))))
}

// US EPA saltwater criteria for un-ionised ammonia, mg NH3/L. From memory, and
// confirmed by the printed limits that British Columbia made of them.
//
// Source: US EPA (1989) Ambient Water Quality Criteria for Ammonia (Saltwater) - 1989,
// EPA 440/5-88-004.
const (
	SeaNH3Acute   = 0.233 // one-hour average
	SeaNH3Chronic = 0.035 // four-day average
)

// SeaTAN returns the saltwater criteria as total ammonia nitrogen, by the share of
// free ammonia at the pH, temperature and salinity in g/kg. British Columbia uses its
// limits of fresh water below 10 g/kg and these above. Range of [FreeAmmoniaFraction].
func SeaTAN(ph float64, t unit.Celsius, salinity float64) (acute, chronic unit.MgN) {
	nPerNH3 := unit.MolarN / unit.MolarNH3 / FreeAmmoniaFraction(ph, t, salinity)
	return unit.MgN(SeaNH3Acute * nPerNH3), unit.MgN(SeaNH3Chronic * nPerNH3)
}

// phShares returns the shares of the criteria's two forms of ammonia at a pH: low
// applies above the mid pH, high below it.
func phShares(ph, mid float64) (low, high float64) {
	return 1 / (1 + math.Pow(10, mid-ph)), 1 / (1 + math.Pow(10, ph-mid))
}

// NitriteLimit returns the British Columbia guideline for nitrite nitrogen in fresh
// water at a chloride concentration in mg Cl/L: the maximum at any time and the
// 30-day average. Chloride competes with nitrite at the gills, so both rise in steps
// of 2 mg/L up to 10: below 2, from 2, 4, 6 and 8, and above 10. Negative or NaN counts
// as none.
//
// Source: Nordin R.N., Pommen L.W. (1986), in British Columbia Approved Water Quality
// Guidelines, 2006 edition, Tables 16 and 17.
func NitriteLimit(chlorideMgL float64) (maximum, average unit.MgN) {
	switch cl := chlorideMgL; {
	case cl > 10:
		return 0.60, 0.20
	case cl >= 8:
		return 0.30, 0.10
	case cl >= 6:
		return 0.24, 0.08
	case cl >= 4:
		return 0.18, 0.06
	case cl >= 2:
		return 0.12, 0.04
	}
	return 0.06, 0.02
}

// US EPA freshwater criteria for total residual chlorine, mg Cl2/L. Kits cannot
// read as low.
//
// Source: US EPA (1985) Ambient Water Quality Criteria for Chlorine - 1984,
// EPA 440/5-84-030.
const (
	ChlorineAcute   = 0.019 // one-hour average
	ChlorineChronic = 0.011 // four-day average
)

// The same for salt water, as chlorine-produced oxidants. The acute one is from
// memory.
const (
	ChlorineSeaAcute   = 0.013  // one-hour average
	ChlorineSeaChronic = 0.0075 // four-day average
)

// ChlorideChronic is the US EPA freshwater criterion for chloride, a four-day
// average, mg Cl/L: more salt than this is no remedy for anything.
//
// Source: US EPA (1988) Ambient Water Quality Criteria for Chloride - 1988,
// EPA 440/5-88-001.
const ChlorideChronic = 230

// ChloridePerNitrite is the chloride that keeps nitrite out of channel catfish, mg Cl
// per mg NO2, at least. The source does not say whether its nitrite is NO2 or its
// nitrogen; NO2 asks for more. Chloride guards many fishes, not all: largemouth bass
// gained nothing by it (Tomasso 1986, Aquatic Toxicology 8:129-137).
//
// Source: Durborow R.M., Crosby D.M., Brunson M.W. (1997) Nitrite in Fish Ponds, SRAC
// Publication 462.
const ChloridePerNitrite = 10

// HarmNH3 is the un-ionised ammonia from which gills are harmed, mg NH3/L. It is far
// below what kills (0.16 to 1.1 mg NH3/L for rainbow trout in four days, Thurston &
// Russo 1983). What is safe for good is not known, and in many cases not near the
// 0.0125 mg/L that fish farmers go by (Meade 1985; Prog. Fish-Cult. 47:135-145, from
// memory). The source counts it as nitrogen, which would be 0.061 mg NH3/L; the
// stricter reading stands.
//
// Source: Francis-Floyd R., Watson C. (1990, revised 1996) Ammonia, FA-16, University
// of Florida, IFAS: "0.05 mg/L may harm fish".
const HarmNH3 = 0.05

// ChloridePerSeaSalt is the share of chloride in the salt of sea water, by mass:
// 19.353 of 35.165 g/kg (Millero et al. 2008, from memory).
const ChloridePerSeaSalt = 19.353 / 35.165
