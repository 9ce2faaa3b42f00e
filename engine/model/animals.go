package model

import "ripen/engine/unit"

// allGone is the weight, g, that is left where losses come to all that was told of.
const allGone = 0.005

// Animals holds if animals are in the tank at a time, as far as was told: where all were
// weighed, until losses come to as much.
func (c *Case) Animals(now unit.Days) bool {
	in := c.Setup.Method == FishIn
	counted := !in || c.Setup.Given.Stock && c.Setup.Stock > 0
	left := 0.0
	if in {
		left = float64(c.Setup.Stock)
	}
	for _, x := range c.Changes {
		if x.Day <= now && x.Stock != nil {
			counted = false
		}
	}
	for _, e := range c.Events {
		switch {
		case e.Day > now:
		case e.Kind == Stocked:
			in = true
			left += float64(e.Mass)
		case e.Kind == Losses:
			left -= float64(e.Mass)
		}
	}
	return in && !(counted && left < allGone)
}
