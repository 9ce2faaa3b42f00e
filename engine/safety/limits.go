package safety

import (
	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Animals are those that US EPA's limits for total ammonia in fresh water tell apart.
// All other limits are the same for all.
type Animals int

// The kinds of animals. Mussels comes first, as what counts where nothing was told:
// its limits are those that US EPA recommends for all fresh water. With mussels it
// means snails that breathe by gills (US EPA 2013, EPA-820-F-13-001).
const (
	Mussels   Animals = iota // and no trout
	Trout                    // trout and salmon, and mussels
	WarmWater                // fishes, and none of these
)

// SeaFrom is the salinity, g/kg, from which water is held to the limits of the sea, as
// British Columbia does (2006, Tables 16 to 22).
const SeaFrom = 10

// Limits are what water is held to.
type Limits struct {
	Sea                            bool     // those of salt water; but the nitrite's are always of fresh water
	FreeNH3                        float64  // mg NH3/L, at any time
	AcuteTAN, ChronicTAN           unit.MgN // total ammonia, an hour and 30 days (sea: 4 days); 0 if the pH is not known
	NitriteMax, NitriteMean        unit.MgN // at any time, and over 30 days
	ChlorineAcute, ChlorineChronic float64  // mg Cl2/L, an hour and 4 days
}

// LimitsOf returns the limits for some animals in water of a pH, temperature, salinity
// and chloride. Sources: see package chem.
func LimitsOf(w Water, a Animals) Limits {
	l := Limits{
		Sea: w.Salinity >= SeaFrom, FreeNH3: chem.HarmNH3,
		ChlorineAcute: chem.ChlorineAcute, ChlorineChronic: chem.ChlorineChronic,
	}
	if l.Sea {
		l.ChlorineAcute, l.ChlorineChronic = chem.ChlorineSeaAcute, chem.ChlorineSeaChronic
	}
	l.NitriteMax, l.NitriteMean = chem.NitriteLimit(w.chloride())
	if w.PH == nil {
		return l
	}
	switch {
	case l.Sea:
		l.AcuteTAN, l.ChronicTAN = chem.SeaTAN(*w.PH, w.Temp, w.Salinity)
	case a == WarmWater:
		l.AcuteTAN, l.ChronicTAN = chem.AcuteTANNoMussels(*w.PH, w.Temp), chem.ChronicTANNoMussels(*w.PH, w.Temp)
	default:
		l.AcuteTAN, l.ChronicTAN = chem.AcuteTAN(*w.PH, w.Temp, a == Trout), chem.ChronicTAN(*w.PH, w.Temp)
	}
	return l
}

// chloride is what is known of the chloride, mg/L.
func (w Water) chloride() float64 {
	if w.Chloride != nil {
		return *w.Chloride
	}
	return w.Salinity * 1000 * chem.ChloridePerSeaSalt
}

// NoChloride holds if nothing was told that chloride could come from, so that nitrite
// is held to the limit of water without any.
func (w Water) NoChloride() bool { return w.Chloride == nil && w.Salinity <= 0 }
