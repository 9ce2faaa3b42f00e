package commands

import (
	"fmt"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Took is what a seed or a culture saved, judged by the readings that came after it.
type Took struct {
	What string  `json:"what"` // "seed" or "culture"
	Day  float64 `json:"day"`
	Gain
}

// took is what the last seed or culture gave that readings came after, nil if there is
// none.
func (c *call) took(cs model.Case, now unit.Days) *Took {
	for _, e := range slices.Backward(cs.Events) {
		what := map[model.EventKind]string{model.Seed: "seed", model.Culture: "culture"}[e.Kind]
		if what == "" || e.Content == model.Heterotrophs || !readAfter(cs.Readings, e.Day, now) {
			continue
		}
		g, err := c.adviser.Gain(cs, now, e)
		if err != nil {
			return nil
		}
		return &Took{What: what, Day: rounded(float64(e.Day), 0), Gain: *c.gained(e, g)}
	}
	return nil
}

// readAfter says whether ammonia, nitrite or nitrate was read after a day, up to now.
func readAfter(readings []model.Reading, day, now unit.Days) bool {
	return slices.ContainsFunc(readings, func(r model.Reading) bool {
		return r.Day > day && r.Day <= now && (r.Ammonia != nil || r.Nitrite != nil || r.Nitrate != nil)
	})
}

// Text says how many days it saved.
func (r *Took) Text() string {
	return fmt.Sprintf("The %s of day %s, judged by your readings since, against none: %s", r.What, number(r.Day, 0), r.days())
}
