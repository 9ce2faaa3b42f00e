package commands

import (
	"fmt"
	"math"

	"ripen/engine/safety"
	"ripen/engine/unit"
)

// Safety is water held against published limits for animals; what was not known
// is null.
type Safety struct {
	FreeAmmonia   *float64    `json:"free_ammonia_mgl"` // as NH3
	FreeAmmoniaN  *float64    `json:"free_ammonia_n_mgl"`
	Fraction      *float64    `json:"fraction"` // of total ammonia that is NH3
	HarmFrom      float64     `json:"free_ammonia_harm_mgl"`
	Ammonia       *float64    `json:"ammonia_tan_mgl"`       // total ammonia as N
	AcuteTAN      *float64    `json:"acute_limit_tan_mgl"`   // as N
	ChronicTAN    *float64    `json:"chronic_limit_tan_mgl"` // as N
	Nitrite       *float64    `json:"nitrite_mgl"`           // as NO2
	NitriteLimit  float64     `json:"nitrite_limit_mgl"`     // as NO2, at any time
	NitriteLong   float64     `json:"nitrite_longterm_limit_mgl"`
	Chlorine      *float64    `json:"chlorine_mgl"`
	ChlorineLimit float64     `json:"chlorine_limit_mgl"` // for an hour
	ChlorineLong  float64     `json:"chlorine_longterm_limit_mgl"`
	JudgedFor     string      `json:"judged_for"` // "mussels", "trout", "warm-water" or "salt-water"
	Verdict       string      `json:"verdict"`    // "safe", "caution" or "danger"
	Strictest     string      `json:"strictest"`
	Reasons       []string    `json:"reasons"`
	OutOfDanger   *float64    `json:"change_out_of_danger_percent"` // share of the water to replace
	ToSafe        *float64    `json:"change_to_safe_percent"`
	Change        *ChangeStep `json:"change_now"` // the first of these, in steps; null if none is needed, or none helps
	Salt          *SaltDose   `json:"salt"`
}

// ChangeStep is how to replace water, and what the first step leaves.
type ChangeStep struct {
	Percent     float64  `json:"percent"` // of each step
	Times       int      `json:"times"`
	InAll       float64  `json:"in_all_percent"`
	PH          *float64 `json:"ph_after"` // at most
	FreeAmmonia *float64 `json:"free_ammonia_after_mgl"`
	LikePH      bool     `json:"needs_like_ph"`                // the new water's own pH would free too much ammonia
	WithOwnPH   *float64 `json:"free_ammonia_with_new_ph_mgl"` // which is so much, after the first step
	NewPH       *float64 `json:"new_ph"`
}

// SaltDose is what plain salt would do against nitrite.
type SaltDose struct {
	Grams        float64 `json:"grams"`
	Litres       float64 `json:"litres"`       // for so much water
	Chloride     float64 `json:"chloride_mgl"` // that it brings the water to
	NitriteLimit float64 `json:"nitrite_limit_mgl"`
}

// kinds are the choices of animals, as the engine counts them.
var kinds = [...]string{safety.Mussels: "mussels", safety.Trout: "trout", safety.WarmWater: "warm-water"}

// assess holds water against the limits for some animals. litres is what salt is
// worked out for.
func assess(w water, fresh safety.NewWater, a safety.Animals, litres float64) Safety {
	known := w.known()
	r := safety.Assess(known, a)
	l := r.Limits
	s := Safety{
		HarmFrom: l.FreeNH3, NitriteLimit: digits(float64(l.NitriteMax.Ion(unit.Nitrite)), 3), NitriteLong: digits(float64(l.NitriteMean.Ion(unit.Nitrite)), 3),
		Chlorine: w.Chlorine, ChlorineLimit: l.ChlorineAcute, ChlorineLong: l.ChlorineChronic,
		JudgedFor: kinds[a], Verdict: r.Verdict, Strictest: r.Strictest, Reasons: []string{},
	}
	if l.Sea {
		s.JudgedFor = "salt-water"
	}
	if w.PH != nil {
		s.Fraction, s.AcuteTAN, s.ChronicTAN = new(digits(r.Fraction, 4)), new(digits(float64(l.AcuteTAN), 3)), new(digits(float64(l.ChronicTAN), 3))
	}
	for _, x := range r.Levels {
		switch x.Name {
		case safety.FreeAmmonia:
			// With so many digits that its two of the text are those of the reason.
			s.FreeAmmonia, s.FreeAmmoniaN = new(digits(x.Value, 5)), new(digits(x.Value*unit.MolarN/unit.MolarNH3, 5))
		case safety.TotalAmmonia:
			s.Ammonia = new(digits(x.Value, 3))
		case safety.Nitrite:
			s.Nitrite = new(digits(float64(unit.MgN(x.Value).Ion(unit.Nitrite)), 3))
		}
		if text := reason(x, l.Sea); text != "" {
			s.Reasons = append(s.Reasons, text)
		}
	}
	if len(s.Reasons) == 0 {
		s.Reasons = append(s.Reasons, "all that is known lies within the published limits")
	}
	s.changes(known, fresh, a, r)
	if salt, ok := safety.Against(known); ok {
		s.Salt = &SaltDose{digits(salt.PerLitre*litres, 2), rounded(litres, 1), digits(salt.Chloride, 2), digits(float64(salt.NitriteMax.Ion(unit.Nitrite)), 2)}
	}
	return s
}

// changes finds how much water to replace. Where the new water's pH makes it worse,
// or never enough, it is water of the tank's own pH that is counted.
func (s *Safety) changes(w safety.Water, fresh safety.NewWater, a safety.Animals, before safety.Report) {
	like := fresh
	like.PH = nil
	for _, goal := range []struct {
		reach string
		share **float64
	}{{safety.Caution, &s.OutOfDanger}, {safety.Safe, &s.ToSafe}} {
		own, ok := safety.ToReach(goal.reach, w, fresh, a)
		c, worse := own, !ok || own.Worsens(before)
		if worse && fresh.PH != nil {
			c, ok = safety.ToReach(goal.reach, w, like, a)
		} else {
			worse = false
		}
		if !ok || c.Share == 0 {
			continue
		}
		*goal.share = new(rounded(100*c.Share, 0))
		if s.Change != nil {
			continue
		}
		s.Change = &ChangeStep{Percent: math.Ceil(100*c.Each - 1e-9), Times: c.Times, InAll: **goal.share, LikePH: worse}
		if worse {
			s.Change.NewPH = new(rounded(*fresh.PH, 2))
			if x, known := safety.Assess(w.Mixed(fresh, c.Each), a).Level(safety.FreeAmmonia); known {
				s.Change.WithOwnPH = new(digits(x.Value, 2))
			}
		}
		if x, known := c.First.Level(safety.FreeAmmonia); known {
			s.Change.PH, s.Change.FreeAmmonia = new(rounded(c.PH, 2)), new(digits(x.Value, 2))
		}
	}
}

// reason says why a level is too high; "" if it is not.
func reason(l safety.Level, sea bool) string {
	level, short, long, of := l.Value, l.Short, l.Long, "mg/L"
	switch l.Name {
	case safety.FreeAmmonia:
		of = "mg/L NH3"
	case safety.TotalAmmonia:
		of = "mg/L as N"
	case safety.Nitrite:
		ion := func(x float64) float64 { return float64(unit.MgN(x).Ion(unit.Nitrite)) }
		level, short, long, of = ion(level), ion(short), ion(long), "mg/L NO2"
	}
	switch l.Verdict() {
	case safety.Danger:
		return fmt.Sprintf("%s is %s %s, above %s (%s)", l.Name, distinct(level, short), of, distinct(short, level), limitSource(l.Name, sea))
	case safety.Caution:
		return fmt.Sprintf("%s is %s %s, above %s, the limit for a longer time (%s)", l.Name, distinct(level, long), of, distinct(long, level), limitSource(l.Name, sea))
	}
	return ""
}

// distinct prints x with so many digits more that it differs from y.
func distinct(x, y float64) string {
	for n := 2; n < 6; n++ {
		if digits(x, n) != digits(y, n) {
			return number(digits(x, n), 8)
		}
	}
	return sigText(x)
}

// limitSource names who published a limit.
func limitSource(name string, sea bool) string {
	switch name {
	case safety.FreeAmmonia:
		return "gills may be harmed from there, University of Florida 1996"
	case safety.TotalAmmonia:
		if sea {
			return "US EPA 1989, salt water"
		}
		return "US EPA 2013"
	case safety.Nitrite:
		return "British Columbia 1986, for the chloride in the water"
	}
	return "US EPA 1985"
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
	n := max(0, 1-int(math.Floor(math.Log10(math.Abs(x)))))
	return number(rounded(x, n), n)
}
