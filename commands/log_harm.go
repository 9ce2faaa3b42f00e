package commands

import (
	"time"

	"ripen/engine/model"
	"ripen/store"
)

// harmHint is what to say of an event that may harm animals or bacteria, beside the
// noting; "" of others.
func (c *call) harmHint(t store.Tank, before []store.Entry, setup model.Setup, e model.Event, at time.Time) (string, error) {
	switch {
	case e.Kind == model.WaterChange:
		return c.untreatedHint(t, before, setup, e, at)
	case e.Kind == model.Outage && e.Hours >= longOutage, e.Kind == model.Cleaned && e.Harsh:
		cs, err := caseOf(t, before)
		if err != nil || !animalsIn(cs, daysSince(t.Started, at)) || c.At.Sub(at) > 72*time.Hour {
			return "", err
		}
		return "That may have cost bacteria, and animals are in: feed little, test ammonia and nitrite today and tomorrow, and ask /safe.", nil
	}
	return "", nil
}

// longOutage is from how many hours a filter that stood still loses bacteria; common
// practice, no source.
const longOutage = 6

// untreatedHint is what to say of a change of tap water that was not conditioned, or
// may not have been; "" of other changes. Chlorine harms gills within hours, so where
// animals are in, what to do now comes first.
func (c *call) untreatedHint(t store.Tank, before []store.Entry, setup model.Setup, e model.Event, at time.Time) (string, error) {
	if setup.Source > model.Chloraminated || e.Treated == model.Yes {
		return "", nil
	}
	if e.Treated == model.AsHabit {
		switch {
		case !setup.Given.Conditioner:
			return "Was the new water conditioned? Add conditioned:yes or conditioned:no next time; chlorine from the tap harms bacteria and animals.", nil
		case setup.Conditioner:
			return "", nil
		}
	}
	cs, err := caseOf(t, before)
	if err != nil {
		return "", err
	}
	if fresh := c.At.Sub(at) < 24*time.Hour; fresh && animalsIn(cs, daysSince(t.Started, at)) {
		return "Animals are in, and chlorine from the tap harms their gills: add a conditioner now, for the whole tank, as its label says. Next time condition the water before it goes in.", nil
	}
	return "Chlorine from the tap harms animals, and the bacteria that you are growing: condition new water before it goes in, as the label says.", nil
}
