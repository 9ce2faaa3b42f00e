package advise

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// hour is in days.
const hour = 1.0 / 24

// Hourly lets answers hold for an hour: they are worked out as of the last full hour
// since the tank's start, or as of the last entry if that is later. A tank moves by
// weeks, and what is asked next about it shall say the same at once. It returns e.
func (e *Engine) Hourly() *Engine {
	e.hourly = true
	return e
}

// moment is when the case is looked at for a question asked now.
func (e *Engine) moment(c model.Case, now unit.Days) unit.Days {
	now = max(now, 0)
	if !e.hourly {
		return now
	}
	at := unit.Days(math.Floor(float64(now)/hour) * hour)
	told := func(day unit.Days) {
		if day <= now {
			at = max(at, day)
		}
	}
	for _, r := range c.Readings {
		told(r.Day)
	}
	for _, x := range c.Events {
		told(x.Day)
	}
	for _, x := range c.Changes {
		told(x.Day)
	}
	return at
}
