package commands

import (
	"slices"

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
	Aged             float64  // days since the ammonia or nitrite was read
	Since            []string // what was logged since then that changes it: "water-change", "dose"
}

// add takes in a reading; where a colour stood between two steps the upper one
// counts.
func (w *water) add(r model.Reading) {
	high := func(s *model.Seen, species unit.Species) *unit.MgN {
		if s.AsN {
			return new(unit.MgN(s.High))
		}
		return new(unit.MgIon(s.High).N(species))
	}
	if r.Ammonia != nil {
		w.Ammonia, w.AmmoniaOver = high(r.Ammonia, unit.Ammonia), r.Ammonia.Over
	}
	if r.Nitrite != nil {
		w.Nitrite, w.NitriteOver = high(r.Nitrite, unit.Nitrite), r.Nitrite.Over
	}
	w.PH, w.Temp, w.Chlorine = or(r.PH, w.PH), or(r.Temp, w.Temp), or(r.Chlorine, w.Chlorine)
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

// chlorineFor is how many days a chlorine reading counts: it leaves a running tank by
// itself, free chlorine within a day, chloramine within some. Common practice, no source.
const chlorineFor = 3

// waterOf is the water of a tank at a time: its last readings up to then over
// its set-up. stated tells which of pH and temperature the member ever said.
func waterOf(c model.Case, now unit.Days) (w water, stated model.Given) {
	s := current(c.Setup, c.Changes, now)
	w = water{PH: &s.PH, Temp: &s.Temp, Salinity: &s.Salinity}
	stated = s.Given
	tested := now
	for _, r := range c.Readings {
		if r.Day > now {
			break
		}
		w.add(r)
		stated.PH, stated.Temp = stated.PH || r.PH != nil, stated.Temp || r.Temp != nil
		if r.Day < now-chlorineFor {
			w.Chlorine = nil
		}
		if r.Ammonia != nil || r.Nitrite != nil {
			w.Aged, tested = float64(now-r.Day), r.Day
		}
	}
	for kind, name := range map[model.EventKind]string{model.WaterChange: "water-change", model.Dose: "dose"} {
		if slices.ContainsFunc(c.Events, func(e model.Event) bool { return e.Kind == kind && e.Day > tested && e.Day <= now }) {
			w.Since = append(w.Since, name)
		}
	}
	slices.Sort(w.Since)
	return w, stated
}

// animalsIn holds if animals are in the tank at a time, as far as was told.
func animalsIn(c model.Case, now unit.Days) bool { return c.Animals(now) }
