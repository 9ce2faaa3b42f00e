package safety

import (
	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Salt is what plain salt, sodium chloride, does against nitrite.
type Salt struct {
	Chloride   float64  // that it brings the water to, mg/L
	PerLitre   float64  // g of salt for each litre
	NitriteMax unit.MgN // the limit then, at any time
}

// fullGuard is the chloride, mg/L, above which the nitrite guideline rises no further.
const fullGuard = 11

// Against returns the salt that brings chloride to ten times the nitrite, and past the
// last step of the guideline, but not above the limit for chloride itself. It returns
// false if nitrite is within its limit for a longer time, if the water holds that much
// chloride already, or in salt and brackish water.
func Against(w Water) (Salt, bool) {
	if w.Nitrite == nil || w.Salinity >= 1 {
		return Salt{}, false
	}
	has := w.chloride()
	if _, mean := chem.NitriteLimit(has); *w.Nitrite <= mean {
		return Salt{}, false
	}
	s := Salt{Chloride: min(max(chem.ChloridePerNitrite*float64(w.Nitrite.Ion(unit.Nitrite)), fullGuard), chem.ChlorideChronic)}
	if s.Chloride <= has {
		return Salt{}, false
	}
	s.PerLitre = (s.Chloride - has) / chem.ChloridePerSalt / 1000
	s.NitriteMax, _ = chem.NitriteLimit(s.Chloride)
	return s, true
}
