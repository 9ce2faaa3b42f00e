package advise

import (
	"cmp"
	"fmt"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// rationed feeds animals that were put in from the day on that they went in, if nobody
// told what they get: no meal was logged since, and no food of the tank. They get their
// share of what was planned for all, else what is usual at the tank's temperature, model.RationAt.
// Otherwise they would be taken to fast, or to eat the food of all. It says what it
// assumed; "" if nothing.
func rationed(c model.Case, now unit.Days) (model.Case, string) {
	first := unit.Days(-1)
	for _, e := range c.Events {
		if e.Kind == model.Stocked && e.Mass > 0 && e.Day <= now && first < 0 {
			first = max(e.Day, 0)
		}
	}
	in, rate := c.Setup.Method == model.FishIn, unit.Grams(model.RationAt(model.Typical(c.Setup).Temp))
	if planned := c.Setup.Given.Feed && c.Setup.Method != model.Food; !in && planned && c.Setup.Stock > 0 {
		rate = c.Setup.Feed / c.Setup.Stock
	} else if planned {
		return c, ""
	}
	fed := func(e model.Event) bool { return e.Kind == model.FeedOnce && e.Day >= first && e.Day <= now }
	told := func(x model.Change) bool { return x.Feed != nil && x.Day >= first && x.Day <= now }
	if first < 0 || slices.ContainsFunc(c.Events, fed) || slices.ContainsFunc(c.Changes, told) {
		return c, ""
	}
	var animals, feed unit.Grams
	if in {
		animals, feed = c.Setup.Stock, c.Setup.Feed
	}
	c.Setup.Given.Feed = true // what is taken does not rise by itself
	c.Changes = slices.Clone(c.Changes)
	for _, e := range c.Events {
		switch {
		case e.Day > now:
			continue
		case e.Kind == model.Stocked:
			animals, feed = animals+e.Mass, feed+rate*e.Mass
		case e.Kind == model.Losses && animals > 0:
			left := max(animals-e.Mass, 0)
			animals, feed = left, feed*left/animals
		default:
			continue
		}
		if e.Day >= first {
			grams := feed
			c.Changes = append(c.Changes, model.Change{Day: e.Day, Feed: &grams})
		}
	}
	slices.SortStableFunc(c.Changes, func(a, b model.Change) int { return cmp.Compare(a.Day, b.Day) })
	if animals <= 0 {
		return c, ""
	}
	return c, fmt.Sprintf("%.2g g of food a day for %.3g g of animals, %.2g %% of their weight, since none was told; note meals with /log what:feed, or the daily food with /tank edit feed:",
		float64(feed), float64(animals), 100*float64(feed/animals))
}
