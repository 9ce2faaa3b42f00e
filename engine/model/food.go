package model

import (
	"math"

	"ripen/engine/unit"
)

// What food and animals bring. Every place that turns food into ammonia uses
// these, so that all answers agree.
const (
	// FoodN is the nitrogen that a gram of food sets free in a tank in the end, mg
	// N: 0.064 g N per g of a food with 40 % protein (0.16 of it N), four fifths
	// released. Timmons & Ebeling's 0.092 TAN per protein fed, 36.8 mg, is the part
	// that fish give off at once; the rest comes from faeces and leftovers.
	FoodN = 0.8 * 64
	// Ration is the food that animals get in a day where nobody says, as a share
	// of their own mass. Common practice, no source.
	Ration = 0.015
)

// RationAt is Ration at a temperature: below 25 C animals eat less as their metabolism slows
// down, by half for every 10 C (the Q10 of 2 of what fasted fish give off, Kinetics section 4).
func RationAt(t unit.Celsius) float64 {
	return Ration * min(math.Pow(2, (float64(t)-25)/10), 1)
}
