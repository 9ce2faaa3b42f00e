package dosing

import (
	"errors"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// The reactions of thiosulfate with chlorine in tap water and with chloramine, that
// [Dechlorinate] counts on: to tetrathionate, the way that takes most. The way to
// sulfate, S2O3-- + 4 HOCl + H2O -> 2 SO4-- + 4 Cl- + 6 H+, takes an eighth.
const (
	ChlorineReaction   = "2 S2O3-- + HOCl + H+ -> S4O6-- + Cl- + H2O"
	ChloramineReaction = "2 S2O3-- + NH2Cl + 2 H+ -> S4O6-- + NH4+ + Cl-"
)

// MostChlorine is the most chlorine or chloramine that drinking water may hold, mg
// Cl2/L: the US limits (yearly average), in testdata/published/water_supply.csv.
const MostChlorine = 4.0

// Dechlorination is how much sodium thiosulfate takes away chlorine.
type Dechlorination struct {
	Crystals  unit.Grams // of the pentahydrate, Na2S2O3.5H2O, which is the usual form
	Anhydrous unit.Grams // of Na2S2O3
	Least     unit.Grams // of crystals, if all of it went to sulfate
	Ammonia   unit.MgN   // that chloramine leaves behind; 0 for chlorine
}

// Dechlorinate returns the thiosulfate that takes cl mg Cl2/L, free or bound as
// chloramine, out of v litres, sure to be enough: two thiosulfates for each chlorine.
//
//	g Na2S2O3 = 4.46 cl v / 1000
//
// cl is above 0, up to 1,000 mg/L; the error is a *RangeError or ErrNoRise.
// Source: molar masses; the reactions above.
func Dechlorinate(cl float64, v unit.Litres, chloramine bool) (Dechlorination, error) {
	if err := errors.Join(within("volume", float64(v), minVolume, maxVolume), within("level", cl, 0, maxLevel)); err != nil {
		return Dechlorination{}, err
	}
	if cl == 0 {
		return Dechlorination{}, ErrNoRise
	}
	g := milligrams(cl, v) / 1000
	d := Dechlorination{
		Anhydrous: unit.Grams(g * chem.ThiosulfatePerChlorine),
		Least:     unit.Grams(g * chem.ThiosulfatePerChlorineSulfate * chem.PentahydratePerThiosulfate),
	}
	d.Crystals = d.Anhydrous * chem.PentahydratePerThiosulfate
	if chloramine {
		d.Ammonia = ChloramineLeaves(cl)
	}
	return d, nil
}

// ChloramineLeaves returns the ammonia that cl mg Cl2/L of chloramine leave behind once
// they are taken away, 0.198 mg N per mg. A cl below 0 counts as none.
func ChloramineLeaves(cl float64) unit.MgN {
	return unit.MgN(max(cl, 0) * chem.AmmoniaNPerChloramine)
}
