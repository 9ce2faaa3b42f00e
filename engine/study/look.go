package study

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// read takes a reading, and acts on it.
func (k *keeper) read(day float64) {
	k.seq++
	r := model.Reading{Day: unit.Days(day), Seq: k.seq, Kit: k.tool}
	tan, no2, no3 := k.tank.pools()
	r.Ammonia = k.see(unit.Ammonia, tan)
	if k.rng.Float64() < 0.95 {
		r.Nitrite = k.see(unit.Nitrite, no2)
	}
	if k.rng.Float64() < 0.6 {
		r.Nitrate = k.see(unit.Nitrate, no3+k.mixed*no2)
	}
	if k.rng.Float64() < 0.2 {
		ph := math.Round(5*(k.tank.ph()+0.15*k.rng.NormFloat64())) / 5
		r.PH = &ph
	}
	if k.rng.Float64() < 0.08 {
		alk, _ := k.tank.alkalinity()
		kh := unit.DKH(max(math.Round(float64(unit.MeqL(alk).CaCO3().DKH())+0.5*k.rng.NormFloat64()), 0)).CaCO3()
		r.KH = &kh
	}
	if k.rng.Float64() < 0.1 {
		t := unit.Celsius(math.Round(k.tank.temp()))
		r.Temp = &t
	}
	if k.oxygen > 0 && k.rng.Float64() < 0.2 {
		o := math.Round(10*k.oxygen*spreadOf(k.rng, 1, 0.15)) / 10
		r.Oxygen = &o
	}
	k.act(day, &r)
	k.write(r)
}

// write puts a reading in the log: now and then the values of ammonia and
// nitrite are swapped, or it goes in a day late.
func (k *keeper) write(r model.Reading) {
	switch u := k.rng.Float64(); {
	case k.tidy:
	case u < 0.015 && r.Nitrite != nil:
		r.Ammonia, r.Nitrite = r.Nitrite, r.Ammonia
	case u < 0.04:
		r.Day++
	case u < 0.06:
		return // not written down at all
	}
	k.told.Readings = append(k.told.Readings, r)
}

// act does what the keeper does on seeing r.
func (k *keeper) act(day float64, r *model.Reading) {
	ammonia, nitrite := r.Ammonia.Low, 0.0
	if r.Nitrite != nil {
		nitrite = r.Nitrite.Low
	}
	clear := ammonia <= 0.25 && nitrite <= 0.25
	willing := k.rng.Float64()
	switch k.facts.set.Method {
	case model.Dosed, model.Seeded:
		low := ammonia <= 0.25
		switch k.habit {
		case topsUp:
			low = ammonia <= 1
		case byCalendar:
			low = math.Mod(day, 7) < k.gap && ammonia < 4
		}
		switch {
		case clear && day > 6 && willing < 0.6:
			k.add(day, max(k.dose, k.facts.target))
		case low && willing < 0.9 && (nitrite < 4 || k.heedless || willing < 0.4):
			k.add(day, k.dose)
		}
	case model.FishIn:
		if ammonia >= 1 || nitrite >= 1 {
			k.change(day, between(k.rng, 0.25, 0.5))
		}
	default:
		k.tank.fast(k.facts.set.Method == model.Food && ammonia >= 4)
		if clear && day > 9 && willing < 0.6 {
			k.add(day, k.facts.target)
		}
	}
	// Nitrification uses up the hardness; of those whose pH sinks, some find out.
	if _, left := k.tank.alkalinity(); left < 0.5 && k.rng.Float64() < 0.4 {
		k.change(day, 0.5)
	}
}
