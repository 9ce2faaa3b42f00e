package commands

import (
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// jumps lists values far from the reading before: a step of pH or a nitrogen
// value that changed more than a tank mostly does in three days (common practice,
// no source: 0.8 of pH; more than eightfold, counted from 0.25 mg/L), unless the log
// says what moved it.
func jumps(cs model.Case, now model.Reading) []Jump {
	before := cs.Readings
	var found []Jump
	for _, j := range []struct {
		what    string
		species unit.Species
		of      func(model.Reading) *model.Seen
	}{
		{"ammonia", unit.Ammonia, func(r model.Reading) *model.Seen { return r.Ammonia }},
		{"nitrite", unit.Nitrite, func(r model.Reading) *model.Seen { return r.Nitrite }},
		{"nitrate", unit.Nitrate, func(r model.Reading) *model.Seen { return r.Nitrate }},
	} {
		b := lastWith(before, now.Day, func(r model.Reading) bool { return j.of(r) != nil })
		if b == nil || j.of(now) == nil || now.Day-b.Day > 3 {
			continue
		}
		x, y := ionOf(j.of(*b), j.species), ionOf(j.of(now), j.species)
		if max(x, y) > 8*max(min(x, y), 0.25) && !moved(cs, b.Day, now.Day, j.what, y > x) {
			scale := "ion"
			if j.of(now).AsN {
				scale = "n"
			}
			before := sigText(shownOn(scale, x, j.species)) + " mg/L" + asNitrogen(scale)
			found = append(found, Jump{j.what, before, rounded(float64(now.Day-b.Day), 1)})
		}
	}
	b := lastWith(before, now.Day, func(r model.Reading) bool { return r.PH != nil })
	if b != nil && now.PH != nil && now.Day-b.Day <= 3 && max(*b.PH-*now.PH, *now.PH-*b.PH) >= 0.8 && !moved(cs, b.Day, now.Day, "ph", *now.PH > *b.PH) {
		found = append(found, Jump{"ph", number(*b.PH, 2), rounded(float64(now.Day-b.Day), 1)})
	}
	return found
}

// moved says whether something logged between two readings moves a level that way: a
// dose or food raises ammonia, new water moves all, a buffer the pH.
func moved(cs model.Case, from, to unit.Days, what string, up bool) bool {
	if what == "ph" && slices.ContainsFunc(cs.Changes, func(c model.Change) bool {
		return c.Day >= from && c.Day <= to && (c.PH != nil || c.KH != nil)
	}) {
		return true
	}
	return slices.ContainsFunc(cs.Events, func(e model.Event) bool {
		if e.Day < from || e.Day > to {
			return false
		}
		switch e.Kind {
		case model.WaterChange:
			return !up || what == "ph"
		case model.Buffer:
			return what == "ph" && up
		case model.Dose, model.FeedOnce:
			return what == "ammonia" && up
		}
		return false
	})
}
