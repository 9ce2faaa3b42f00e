package dosing

import (
	"errors"
	"fmt"
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Salt is a salt that raises carbonate hardness.
type Salt int

// The salts. The bicarbonates dissolve at once; calcium carbonate (coral, limestone,
// shells) slowly, over weeks, and only until the water is saturated.
const (
	SodiumBicarbonate Salt = iota
	PotassiumBicarbonate
	CalciumCarbonate
)

// perAlk is grams of salt per gram of alkalinity as CaCO3.
func (s Salt) perAlk() float64 {
	return [...]float64{chem.BicarbonatePerAlk, chem.PotassiumBicarbonatePerAlk, 1}[s]
}

// Water is the water that is treated.
type Water struct {
	Volume   unit.Litres
	PH       float64
	KH       unit.MgCaCO3
	Temp     unit.Celsius
	Salinity float64  // g/kg
	Ammonia  unit.MgN // total; 0 if none is known
}

// state is the water's pH and free ammonia at an alkalinity.
func (w Water) state(to unit.MgCaCO3) (ph, free float64) {
	ph = chem.PHAfter(w.PH, w.KH, to, w.Temp, w.Salinity)
	return ph, BurdenOf(w.Ammonia, ph, w.Temp, w.Salinity).Free
}

// Portion is what is added at once, and what the water is then.
type Portion struct {
	Mass unit.Grams
	KH   unit.MgCaCO3
	PH   float64 // with the carbon dioxide as it was
	Free float64 // un-ionised ammonia, mg/L NH3
}

// Buffer is how much of a salt brings water to a hardness.
type Buffer struct {
	Mass     unit.Grams   // in all; of calcium carbonate what dissolves
	Portions []Portion    // one a day
	Before   Portion      // the water as it is; no mass
	Ends     unit.MgCaCO3 // of calcium carbonate, where it stops dissolving; else 0
}

// LowerKH says that a hardness below the present one was asked for, which no salt gives.
type LowerKH struct{ Asked, Now unit.MgCaCO3 }

// Error says what was asked and what there is.
func (e *LowerKH) Error() string {
	return fmt.Sprintf("alkalinity %.0f mg/L is below the present %.0f", float64(e.Asked), float64(e.Now))
}

// mostPortions is the most days over which an addition is spread.
const mostPortions = 30

// Raise returns how much of a salt brings w from its KH to another, in portions that
// each raise the pH by mostPH at most; 0 takes all at once. The pH follows with the
// carbon dioxide as it was (chem.PHAfter).
//
//	g = g per alkalinity (to - KH) v / 1000
//
// Calcium carbonate is counted up to the saturation of calcite with the water's carbon
// dioxide held, and in one portion, as it sets its own pace. Calcium is not measured by
// the kits here: it is taken as half of the alkalinity in moles, as in calcium
// bicarbonate, so that much else in it makes less dissolve.
//
// to is above w.KH, up to 1,000 mg/L. The error is a *RangeError, or a *LowerKH.
func Raise(w Water, to unit.MgCaCO3, s Salt, mostPH float64) (Buffer, error) {
	if err := errors.Join(within("volume", float64(w.Volume), minVolume, maxVolume), within("level", float64(to), 0, maxLevel), within("level", float64(w.KH), 0, maxLevel)); err != nil {
		return Buffer{}, err
	}
	if to <= w.KH {
		return Buffer{}, &LowerKH{to, w.KH}
	}
	b := Buffer{Before: Portion{KH: w.KH}}
	b.Before.PH, b.Before.Free = w.state(w.KH)
	end, n := to, 1
	if s == CalciumCarbonate {
		calcium := float64(w.KH.Meq()) * 0.5e-3
		b.Ends = chem.CalciteSaturation(w.KH, calcium, chem.HeldCO2(w.PH, w.KH, w.Temp, w.Salinity), w.Temp)
		if end = min(to, b.Ends); end <= w.KH {
			return b, nil
		}
	} else if ph, _ := w.state(to); mostPH > 0 {
		n = min(max(1, int(math.Ceil((ph-w.PH)/mostPH-1e-9))), mostPortions)
	}
	before := w.KH
	for i := 1; i <= n; i++ {
		p := Portion{KH: w.between(end, float64(i)/float64(n))}
		p.PH, p.Free = w.state(p.KH)
		p.Mass = unit.Grams(s.perAlk() * milligrams(float64(p.KH-before), w.Volume) / 1000)
		b.Mass += p.Mass
		b.Portions = append(b.Portions, p)
		before = p.KH
	}
	return b, nil
}

// between returns the alkalinity at which the pH has gone a share of its way from w's
// KH to end.
func (w Water) between(end unit.MgCaCO3, share float64) unit.MgCaCO3 {
	last, _ := w.state(end)
	want := w.PH + share*(last-w.PH)
	if share >= 1 || last <= w.PH {
		return w.KH + unit.MgCaCO3(share)*(end-w.KH)
	}
	low, high := w.KH, end
	for range 60 {
		mid := (low + high) / 2
		if ph, _ := w.state(mid); ph < want {
			low = mid
		} else {
			high = mid
		}
	}
	return high
}
