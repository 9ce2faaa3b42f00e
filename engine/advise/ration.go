package advise

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// rationed feeds animals that were put in from the day on that they went in, and those that were
// weighed from the day on that they became more or fewer, if nobody told what they get: no meal was
// logged since, and no food of the tank. They get their share of what was planned for all, else what is usual
// at the tank's temperature, model.RationAt. Otherwise they would be taken to fast, or to eat the
// food of all. It says what it assumed; "" if nothing.
func rationed(c model.Case, now unit.Days) (model.Case, string) {
	in, rate := c.Setup.Method == model.FishIn, unit.Grams(model.RationAt(model.Typical(c.Setup).Temp))
	weighed := in && c.Setup.Given.Stock
	var turns []turn
	for _, e := range c.Events {
		if (e.Kind == model.Stocked || e.Kind == model.Losses) && e.Day <= now {
			turns = append(turns, turn{day: e.Day, by: e})
		}
	}
	for _, x := range c.Changes {
		if weighed && x.Stock != nil && x.Day <= now {
			turns = append(turns, turn{day: x.Day, to: x.Stock})
		}
	}
	slices.SortStableFunc(turns, func(a, b turn) int { return cmp.Compare(a.day, b.day) })
	first := unit.Days(-1)
	for _, t := range turns {
		if weighed || t.by.Kind == model.Stocked && t.by.Mass > 0 {
			first = max(t.day, 0)
			break
		}
	}
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
	since := "since none was told"
	if in {
		animals, feed = c.Setup.Stock, c.Setup.Feed
		for _, x := range c.Changes {
			if x.Feed != nil && x.Day < first { // for those that were in
				feed, since = *x.Feed, "since the food told was for another stock"
			}
		}
	}
	c.Setup.Given.Feed = true // what is taken does not rise by itself
	c.Changes = slices.Clone(c.Changes)
	for _, t := range turns {
		left := animals
		switch {
		case t.to != nil:
			left = *t.to
		case t.by.Kind == model.Stocked:
			left += t.by.Mass
		default:
			left = max(left-t.by.Mass, 0)
		}
		if more := left - animals; more > 0 {
			feed += rate * more
		} else if animals > 0 {
			feed *= left / animals
		}
		animals = left
		if t.day >= first {
			grams := feed
			c.Changes = append(c.Changes, model.Change{Day: t.day, Feed: &grams})
		}
	}
	slices.SortStableFunc(c.Changes, func(a, b model.Change) int { return cmp.Compare(a.Day, b.Day) })
	if animals <= 0 {
		return c, ""
	}
	return c, fmt.Sprintf("%s g of food a day for %s g of animals, %s %% of their weight, %s; note meals with /log what:feed, or the daily food with /tank edit feed:",
		plain(float64(feed), 2), plain(float64(animals), 3), plain(100*float64(feed/animals), 2), since)
}

// plain prints a number to so many digits and without an exponent, as people write it.
func plain(x float64, digits int) string {
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// turn is when animals become more or fewer: by an event, or to a weight.
type turn struct {
	day unit.Days
	by  model.Event
	to  *unit.Grams
}
