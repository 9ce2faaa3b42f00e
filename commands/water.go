package commands

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/safety"
	"ripen/engine/unit"
)

// water is what is known of some water; nil where nothing is.
type water struct {
	Ammonia, Nitrite *unit.MgN // total ammonia
	PH               *float64
	Temp             *unit.Celsius
	Salinity         *float64 // g/kg
	Chloride         *float64 // mg/L
	Chlorine         *float64 // mg/L Cl2
	AmmoniaOver      bool     // the chart topped out: the truth may be worse
	NitriteOver      bool
	Aged             float64    // days since the ammonia or nitrite was read
	Since            sinceTests // what was logged since the last test, as in tankWater
}

// known is the water as the engine judges it; the temperature has to be known.
func (w water) known() safety.Water {
	k := safety.Water{
		Ammonia: w.Ammonia, Nitrite: w.Nitrite, PH: w.PH, Temp: *w.Temp, Chloride: w.Chloride, Chlorine: w.Chlorine,
		Open: w.AmmoniaOver || w.NitriteOver,
	}
	if w.Salinity != nil {
		k.Salinity = *w.Salinity
	}
	return k
}

// judged is the water with the highest pH that it may be of. Where nothing was tested
// there is nothing to judge, whatever was logged.
func (t tankWater) judged() water {
	w := water{PH: new(t.ph.high), Temp: new(unit.Celsius(t.temp.now)), Salinity: new(t.Salinity)}
	ammonia, nitrite, chlorine := t.levels["ammonia"], t.levels["nitrite"], t.levels["chlorine"]
	if nitrite == nil && chlorine == nil && (ammonia == nil || !ammonia.told) {
		return w
	}
	w.Since = t.since
	if ammonia != nil {
		w.Ammonia, w.AmmoniaOver = new(unit.MgN(ammonia.now)), ammonia.over
	}
	if nitrite != nil {
		w.Nitrite, w.NitriteOver = new(unit.MgN(nitrite.now)), nitrite.over
	}
	if chlorine != nil {
		w.Chlorine = new(chlorine.now)
	}
	w.Aged = math.Inf(1)
	for _, l := range []*level{ammonia, nitrite} {
		if l != nil && l.told {
			w.Aged = min(w.Aged, float64(t.day-l.at))
		}
	}
	if math.IsInf(w.Aged, 1) {
		w.Aged = 0 // of chlorine alone
	}
	return w
}

// animalsIn holds if animals are in the tank at a time, as far as was told.
func animalsIn(c model.Case, now unit.Days) bool { return c.Animals(now) }
