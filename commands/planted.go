package commands

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// wellPlanted says whether a tank has more than a few slow plants at a time, so that
// they take a good part of its ammonia.
func wellPlanted(c model.Case, now unit.Days) bool {
	most := current(c.Setup, c.Changes, now).Plants
	for _, e := range c.Events {
		if e.Kind == model.PlantsAdded && e.Day <= now {
			most = max(most, e.Plants)
		}
	}
	return most > model.FewSlow
}
