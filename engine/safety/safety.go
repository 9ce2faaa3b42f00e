// Package safety holds water against the published limits for animals: which levels
// are above which limit, which of them is the strictest, how much water a change has
// to replace, and what plain salt does against nitrite.
//
// The limits themselves are in package chem. They were made for what lives in rivers,
// lakes and seas, and of those for the animals that were tested; none was made for
// shrimps or snails kept in tanks.
package safety

import (
	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Water is what is known of some water; nil where nothing is.
type Water struct {
	Ammonia, Nitrite *unit.MgN // total ammonia
	PH               *float64
	Temp             unit.Celsius
	Salinity         float64  // g/kg
	Chloride         *float64 // mg Cl/L; nil counts as that of the salinity
	Chlorine         *float64 // total, mg Cl2/L
	Open             bool     // a chart topped out, so ammonia or nitrite is higher than told
}

// Level names are what is held against limits.
const (
	FreeAmmonia  = "free ammonia"
	TotalAmmonia = "total ammonia"
	Nitrite      = "nitrite"
	Chlorine     = "chlorine"
)

// Level is one level and its limits, all in mg/L: NH3, nitrogen, nitrogen, Cl2.
type Level struct {
	Name  string
	Value float64
	Short float64 // above it is danger
	Long  float64 // for weeks; at most Short
}

// Verdicts on water, worse by rank.
const (
	Safe    = "safe"
	Caution = "caution" // above a limit for a longer time
	Danger  = "danger"  // above a limit for a short time
)

// Verdict returns the verdict of one level.
func (l Level) Verdict() string {
	switch {
	case l.Value > l.Short:
		return Danger
	case l.Value > l.Long:
		return Caution
	}
	return Safe
}

// Report is water held against the limits.
type Report struct {
	Limits    Limits
	Fraction  float64 // of total ammonia that is NH3; 0 if the pH is not known
	Levels    []Level // of what is known, in the order of their names above
	Verdict   string
	Strictest string // the level that is highest above, or nearest below, any of its limits; "" without levels
}

// Level returns the level of a name, if it is known.
func (r Report) Level(name string) (Level, bool) {
	for _, l := range r.Levels {
		if l.Name == name {
			return l, true
		}
	}
	return Level{}, false
}

// Assess holds water against the limits for some animals. Ammonia is left out where
// the pH is not known. Every level counts, so the strictest limit wins. Water with an
// open level is never safe.
func Assess(w Water, a Animals) Report {
	r := Report{Limits: LimitsOf(w, a), Verdict: Safe}
	l := r.Limits
	if w.PH != nil {
		r.Fraction = chem.FreeAmmoniaFraction(*w.PH, w.Temp, w.Salinity)
		if w.Ammonia != nil {
			tan := float64(*w.Ammonia)
			r.add(Level{FreeAmmonia, tan * r.Fraction * unit.MolarNH3 / unit.MolarN, l.FreeNH3, l.FreeNH3})
			r.add(Level{TotalAmmonia, tan, float64(l.AcuteTAN), float64(l.ChronicTAN)})
		}
	}
	if w.Nitrite != nil {
		r.add(Level{Nitrite, float64(*w.Nitrite), float64(l.NitriteMax), float64(l.NitriteMean)})
	}
	if w.Chlorine != nil {
		r.add(Level{Chlorine, *w.Chlorine, l.ChlorineAcute, l.ChlorineChronic})
	}
	if w.Open {
		r.Verdict = Worse(r.Verdict, Caution)
	}
	return r
}

// add takes in one level.
func (r *Report) add(l Level) {
	if first, known := r.Level(r.Strictest); !known || l.Value/l.Long > first.Value/first.Long {
		r.Strictest = l.Name
	}
	r.Levels = append(r.Levels, l)
	r.Verdict = Worse(r.Verdict, l.Verdict())
}

// Worse returns the worse of two verdicts.
func Worse(a, b string) string {
	rank := map[string]int{Caution: 1, Danger: 2}
	if rank[b] > rank[a] {
		return b
	}
	return a
}
