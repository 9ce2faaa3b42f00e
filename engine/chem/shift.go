package chem

import "ripen/engine/unit"

// RoomAir is the carbon dioxide that the air of a room holds at least, ppm: that of the
// open air, about 420 in 2024 (NOAA; from memory). People and closed windows add to it.
const RoomAir = 420

// HeldCO2 returns the dissolved CO2 in mol/L that a water keeps while its alkalinity
// is changed: what its pH says that it holds, but no less than air gives it, since
// gas exchange makes up for what is missing.
func HeldCO2(ph float64, alk unit.MgCaCO3, t unit.Celsius, salinity float64) float64 {
	return max(CO2FromPH(ph, alk, t, IonicStrength(salinity, alk)), CO2AtAir(t, RoomAir))
}

// PHAfter returns the pH of a water of a pH and an alkalinity once its alkalinity is
// brought to another, with its carbon dioxide as it was ([HeldCO2]). A bicarbonate
// brings nearly as much carbonate as alkalinity, so this holds at once; a base or an
// acid moves the pH further at first, and comes to this as gas is exchanged. More
// alkalinity never lowers the pH here, and less never raises it.
//
// Range and accuracy are those of [Carbonate]: what counts is the difference, in which
// most of the error cancels.
func PHAfter(ph float64, alk, to unit.MgCaCO3, t unit.Celsius, salinity float64) float64 {
	c := CarbonateAt(t, IonicStrength(salinity, alk))
	p := c.PH(to, HeldCO2(ph, alk, t, salinity))
	switch {
	case to > alk:
		return max(ph, p)
	case to < alk:
		return min(ph, p)
	}
	return ph
}
