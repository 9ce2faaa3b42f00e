package safety

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// MostAtOnce is the largest share of the water replaced in one go, so that the rest of
// its chemistry does not jump; common practice, no source.
const MostAtOnce = 0.5

// most is the largest share in all that is thought of, in seven changes. Whatever asks
// for more asks for other water.
const most = 0.99

// NewWater is what goes in. Its temperature, salinity and chloride are taken to be
// those of the tank, and its chlorine to be neutralised.
type NewWater struct {
	Ammonia, Nitrite unit.MgN
	PH               *float64 // nil counts as the tank's
}

// Change is a share of the water replaced, in equal steps of at most MostAtOnce.
type Change struct {
	Share float64 // in all, whole hundredths
	Times int
	Each  float64 // of each step
	First Report  // the water after the first step
	PH    float64 // that First is judged at; 0 if it is not known
}

// ChloramineLeaves is the ammonia that tap water with chloramine holds once a
// conditioner has broken that up, mg N/L, at the residual that package model takes.
const ChloramineLeaves unit.MgN = 0.8 * chem.AmmoniaNPerChloramine

// ToReach returns the least change of water after which no level but chlorine, which a
// conditioner takes out, is worse than a verdict, Caution or Safe. An open level counts
// as what was told. It returns false if the new water does not allow it.
func ToReach(goal string, w Water, fresh NewWater, a Animals) (Change, bool) {
	w.Chlorine, w.Open = nil, false
	for percent := range int(100*most) + 1 {
		share := float64(percent) / 100
		after := Assess(w.Mixed(fresh, share), a)
		if Worse(goal, after.Verdict) != goal {
			continue
		}
		c := Change{Share: share}
		if c.Times = 1; share > MostAtOnce {
			c.Times = int(math.Ceil(math.Log(1-share)/math.Log(1-MostAtOnce) - 1e-9))
		}
		c.Each = 1 - math.Pow(1-share, 1/float64(c.Times))
		first := w.Mixed(fresh, c.Each)
		if c.First = Assess(first, a); first.PH != nil {
			c.PH = *first.PH
		}
		return c, true
	}
	return Change{}, false
}

// Mixed is water of which a share was replaced. Its pH is somewhere between the two,
// by hardness and carbon dioxide; the higher counts, which errs to the safe side.
func (w Water) Mixed(fresh NewWater, share float64) Water {
	mix := func(old *unit.MgN, new unit.MgN) *unit.MgN {
		if old == nil {
			return nil
		}
		mixed := *old + unit.MgN(share)*(new-*old)
		return &mixed
	}
	w.Ammonia, w.Nitrite = mix(w.Ammonia, fresh.Ammonia), mix(w.Nitrite, fresh.Nitrite)
	if share > 0 && w.PH != nil && fresh.PH != nil {
		ph := max(*w.PH, *fresh.PH)
		w.PH = &ph
	}
	return w
}

// Worsens holds if the first step leaves more free ammonia in the water than it had,
// and more than gills bear: new water of a higher pH frees more than it takes away.
func (c Change) Worsens(before Report) bool {
	had, _ := before.Level(FreeAmmonia)
	has, known := c.First.Level(FreeAmmonia)
	return known && has.Value > had.Value && has.Value > has.Short
}
