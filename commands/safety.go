package commands

import (
	"fmt"
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Safety compares water with published limits for animals; what was not known
// is null.
type Safety struct {
	FreeAmmonia     *float64    `json:"free_ammonia_mgl"` // as NH3
	FreeAmmoniaN    *float64    `json:"free_ammonia_n_mgl"`
	Fraction        *float64    `json:"fraction"` // of total ammonia that is NH3
	HarmFrom        float64     `json:"free_ammonia_harm_mgl"`
	Ammonia         *float64    `json:"ammonia_tan_mgl"`       // total ammonia as N
	AcuteTAN        *float64    `json:"acute_limit_tan_mgl"`   // as N
	ChronicTAN      *float64    `json:"chronic_limit_tan_mgl"` // as N
	Nitrite         *float64    `json:"nitrite_mgl"`           // as NO2
	NitriteLimit    float64     `json:"nitrite_limit_mgl"`     // as NO2, at any time
	NitriteLong     float64     `json:"nitrite_longterm_limit_mgl"`
	Chlorine        *float64    `json:"chlorine_mgl"`
	ChlorineLimit   float64     `json:"chlorine_limit_mgl"` // for an hour
	ChlorineLong    float64     `json:"chlorine_longterm_limit_mgl"`
	Verdict         string      `json:"verdict"` // "safe", "caution" or "danger"
	Strictest       string      `json:"strictest"`
	Reasons         []string    `json:"reasons"`
	OutOfDanger     *float64    `json:"change_out_of_danger_percent"` // share of the water to replace
	ToSafe          *float64    `json:"change_to_safe_percent"`
	over, overSafer float64     // largest ratio of a level to its danger limit and to its long-term limit
	byChange        levelsRatio // the same, of what a water change takes out
}

// levelsRatio is how far levels are above their limits, 1 at the limit.
type levelsRatio struct{ danger, safe float64 }

// assess compares water with the limits.
//
// Sources: US EPA (2013) for total ammonia, British Columbia (1986) for nitrite
// against chloride, US EPA (1985) for chlorine; see package chem.
func assess(w water) Safety {
	s := Safety{Verdict: "safe", HarmFrom: chem.HarmNH3, ChlorineLimit: chem.ChlorineAcute, ChlorineLong: chem.ChlorineChronic, Reasons: []string{}}
	s.ammonia(w)
	s.nitrite(w)
	if w.Chlorine != nil {
		s.Chlorine = w.Chlorine
		s.hold("chlorine", *w.Chlorine, s.ChlorineLimit, s.ChlorineLong, "mg/L", "US EPA 1985", false)
	}
	if len(s.Reasons) == 0 {
		s.Reasons = append(s.Reasons, "all that is known lies within the published limits")
	}
	s.OutOfDanger, s.ToSafe = share(s.byChange.danger), share(s.byChange.safe)
	return s
}

func (s *Safety) ammonia(w water) {
	if w.PH == nil || w.Temp == nil {
		return
	}
	salinity := 0.0
	if w.Salinity != nil {
		salinity = *w.Salinity
	}
	f := chem.FreeAmmoniaFraction(*w.PH, *w.Temp, salinity)
	acute, chronic := float64(chem.AcuteTAN(*w.PH, *w.Temp, false)), float64(chem.ChronicTAN(*w.PH, *w.Temp))
	s.Fraction, s.AcuteTAN, s.ChronicTAN = new(digits(f, 4)), new(digits(acute, 3)), new(digits(chronic, 3))
	if w.Ammonia == nil {
		return
	}
	tan := float64(*w.Ammonia)
	free := tan * f
	nh3 := free * unit.MolarNH3 / unit.MolarN
	s.Ammonia, s.FreeAmmonia, s.FreeAmmoniaN = new(digits(tan, 3)), new(digits(nh3, 3)), new(digits(free, 3))
	s.hold("free ammonia", nh3, chem.HarmNH3, chem.HarmNH3, "mg/L NH3", "gills are harmed from there, common practice", true)
	s.hold("total ammonia", tan, acute, chronic, "mg/L as N", "US EPA 2013", true)
}

func (s *Safety) nitrite(w water) {
	chloride := 0.0
	switch {
	case w.Chloride != nil:
		chloride = *w.Chloride
	case w.Salinity != nil:
		chloride = *w.Salinity * 1000 * chem.ChloridePerSeaSalt
	}
	maximum, average := chem.NitriteLimit(chloride)
	s.NitriteLimit = digits(float64(maximum.Ion(unit.Nitrite)), 3)
	s.NitriteLong = digits(float64(average.Ion(unit.Nitrite)), 3)
	if w.Nitrite == nil {
		return
	}
	s.Nitrite = new(digits(float64(w.Nitrite.Ion(unit.Nitrite)), 3))
	s.hold("nitrite", *s.Nitrite, s.NitriteLimit, s.NitriteLong, "mg/L NO2", "British Columbia 1986, for the chloride in the water", true)
}

// hold compares one level with its limit for a short time (danger above it) and
// for a long one (caution above it).
func (s *Safety) hold(name string, level, danger, safe float64, unit, source string, byChange bool) {
	short, long := level/danger, level/safe
	switch {
	case short > 1:
		s.Verdict = "danger"
		s.Reasons = append(s.Reasons, fmt.Sprintf("%s is %s %s, above %s (%s)", name, sigText(level), unit, sigText(danger), source))
	case long > 1:
		if s.Verdict == "safe" {
			s.Verdict = "caution"
		}
		s.Reasons = append(s.Reasons, fmt.Sprintf("%s is %s %s, above %s, the limit for a longer time (%s)", name, sigText(level), unit, sigText(safe), source))
	}
	if long > s.overSafer || s.Strictest == "" {
		s.overSafer, s.Strictest = long, name
	}
	s.over = max(s.over, short)
	if byChange {
		s.byChange.danger, s.byChange.safe = max(s.byChange.danger, short), max(s.byChange.safe, long)
	}
}

// share returns the percentage of water to replace that brings a level from
// ratio times its limit down to it, if the new water holds none of it; nil if
// it is there already. Rounded up to whole percent.
func share(ratio float64) *float64 {
	if ratio <= 1 {
		return nil
	}
	return new(math.Ceil(100 * (1 - 1/ratio)))
}

// digits rounds x to so many significant digits.
func digits(x float64, n int) float64 {
	if x == 0 || math.IsInf(x, 0) || math.IsNaN(x) {
		return x
	}
	return rounded(x, n-1-int(math.Floor(math.Log10(math.Abs(x)))))
}

// sigText prints x with two significant digits at least: 0.021, 1.3, 24.
func sigText(x float64) string {
	if x == 0 {
		return "0"
	}
	return number(x, max(0, 1-int(math.Floor(math.Log10(math.Abs(x))))))
}
