package model

import (
	"testing"

	"ripen/engine/unit"
)

// TestFirstFall: a trace of ammonia that goes before the food rots is not the day on which
// ammonia clears; that a later dose stands again does not undo one that nitrite followed.
func TestFirstFall(t *testing.T) {
	par := Central()
	par.Seed = [Guilds]float64{AOB: 0.002, AOA: 0.002, CMX: 0.002, NOB: 0.001}
	of := func(s Setup, events ...Event) Course {
		s.Volume, s.PH, s.KH, s.Temp = 80, 7.8, unit.DKH(6).CaCO3(), 24
		return NewPlan(Case{Setup: Typical(s), Events: events}, 40).Start(&par).Finish(60, nil)
	}
	trace := Setup{Method: Food, Feed: 0.01, Given: Given{Feed: true}} // that little, but for the meals
	trace.Start[unit.Ammonia] = 1.02 * float64(ClearTAN)
	var meals []Event
	for day := range 8 {
		meals = append(meals, Event{Day: unit.Days(2 + day), Kind: FeedOnce, Mass: 1.5})
	}
	if c := of(trace, meals...); !(c.AmmoniaClear > 5 && c.AmmoniaClear < 60) {
		t.Errorf("food: ammonia clear on day %.1f, nitrite highest on day %.1f", c.AmmoniaClear, c.NitritePeak)
	}
	dose := func(day unit.Days) Event { return Event{Day: day, Kind: Dose, N: unit.MgIon(2).N(unit.Ammonia)} }
	once := of(Setup{}, dose(0))
	if again := of(Setup{}, dose(0), dose(unit.Days(once.AmmoniaClear)+1), dose(unit.Days(once.AmmoniaClear)+1.01)); again.AmmoniaClear != once.AmmoniaClear {
		t.Errorf("dosed again after day %.1f: ammonia clear on day %.1f", once.AmmoniaClear, again.AmmoniaClear)
	}
}
