package dosing

import (
	"errors"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Product is what ammonia is dosed from: pure ammonium chloride, or a solution of
// ammonia in water.
type Product struct {
	Salt      bool    // ammonium chloride, dry, or Percent grams of it in 100 ml, up to 35
	Percent   float64 // strength of the solution, 0.1 to MaxPercent
	ByVolume  bool    // Percent is grams of ammonia in 100 ml; else it is by weight
	Hydroxide bool    // Percent counts NH4OH; else NH3
	Density   float64 // g/ml, 0.8 to 1.05; 0 for AmmoniaDensity, which ByVolume needs not
}

// AmmoniaDose is how much of a product makes a rise, and what that means for alkalinity.
type AmmoniaDose struct {
	Mass    unit.Grams   // of the product; of a solution of salt, of the salt in it
	ML      float64      // of a solution; 0 for a dry salt
	Density float64      // g/ml that was used; 0 for a salt and for a solution told by volume
	Uses    unit.MgCaCO3 // by oxidising the rise
	Brings  unit.MgCaCO3 // with the solution of ammonia; a salt brings none
}

// ErrNoRise says that the level asked for is not above the one that there is.
var ErrNoRise = errors.New("the level is there already")

// Ammonia returns how much of a product raises total ammonia by rise in v litres.
//
//	g NH4Cl  = 3.819 rise v / 1000
//	g NH3    = 1.216 rise v / 1000 = ml density percent/100
//
// rise is above 0, up to 1,000 mg N/L; v is 0.1 to 100,000 L. The error is a
// *RangeError or ErrNoRise. Uses is what oxidising the rise takes, AlkPerNitrified; of
// it a solution brings half itself, AlkPerAmmonified.
//
// Sources: package chem; the density as told, or [AmmoniaDensity].
func Ammonia(rise unit.MgN, v unit.Litres, p Product) (AmmoniaDose, error) {
	if err := errors.Join(within("volume", float64(v), minVolume, maxVolume), within("level", float64(rise), -maxLevel, maxLevel)); err != nil {
		return AmmoniaDose{}, err
	}
	if rise <= 0 {
		return AmmoniaDose{}, ErrNoRise
	}
	d := AmmoniaDose{Uses: unit.MgCaCO3(chem.AlkPerNitrified * float64(rise))}
	mg := milligrams(float64(rise), v)
	if p.Salt {
		d.Mass = unit.Grams(mg * chem.AmmoniumChloridePerN / 1000)
		if p.Percent == 0 {
			return d, nil
		}
		d.ML = 100 * float64(d.Mass) / p.Percent
		return d, within("percent", p.Percent, 0.1, MaxPercent)
	}
	if err := within("percent", p.Percent, 0.1, MaxPercent); err != nil {
		return AmmoniaDose{}, err
	}
	percent := p.Percent
	if p.Hydroxide {
		percent /= chem.HydroxidePerNH3
	}
	grams := mg * unit.MolarNH3 / unit.MolarN / 1000 // of NH3
	d.Brings = unit.MgCaCO3(chem.AlkPerAmmonified * float64(rise))
	if p.ByVolume {
		d.ML = 100 * grams / percent
		_, density := byWeight(percent)
		d.Mass = unit.Grams(d.ML * density)
		return d, nil
	}
	if d.Density = p.Density; d.Density == 0 {
		d.Density = AmmoniaDensity(percent)
	}
	if err := within("density", d.Density, 0.8, 1.05); err != nil {
		return AmmoniaDose{}, err
	}
	d.Mass = unit.Grams(100 * grams / percent)
	d.ML = float64(d.Mass) / d.Density
	return d, nil
}
