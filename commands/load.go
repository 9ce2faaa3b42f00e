package commands

import (
	"ripen/engine/model"
	"ripen/engine/stocking"
	"ripen/engine/unit"
)

// checkLoad refuses animals or food, g, of which no water holds so much; said is the
// value as it was written, most that of a litre.
func checkLoad(option, said string, grams, most float64, volume unit.Litres) *Error {
	if grams <= most*float64(volume) {
		return nil
	}
	return refuse(CodeRange, option, "%s %s is more than %s L of water can hold; 0 to %s g would fit. Check the number and its unit, as in %s:2g",
		option, said, number(float64(volume), 1), number(most*float64(volume), 0), option)
}

// checkMass refuses what is logged of animals put in and of food.
func checkMass(e model.EventKind, a arg, volume unit.Litres) *Error {
	switch e {
	case model.Stocked:
		return checkLoad("amount", quote(a.typed), a.low, stocking.MostAnimals, volume)
	case model.FeedOnce:
		return checkLoad("amount", quote(a.typed), a.low, stocking.MostFeed, volume)
	}
	return nil
}
