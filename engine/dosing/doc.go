// Package dosing works out amounts: how much ammonia, buffer or thiosulfate to add to
// a volume of water, and how much water to replace, to come to a level; and what that
// does beside.
//
// Nitrogen is mg N/L, alkalinity mg/L as CaCO3, chlorine mg Cl2/L, masses grams,
// volumes litres and, of what is added, millilitres. Salts are taken as pure. The
// arithmetic is that of package chem; nothing here knows of tanks or days.
package dosing

import "fmt"

// RangeError says that an amount cannot be: a value outside its range.
type RangeError struct {
	What             string // "volume", "percent", "density", "level"
	Value, Low, High float64
}

// Error says the value and its range.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%s %g is outside %g to %g", e.What, e.Value, e.Low, e.High)
}

// within returns a RangeError unless low <= x <= high; what is no number is outside.
func within(what string, x, low, high float64) error {
	if x >= low && x <= high {
		return nil
	}
	return &RangeError{what, x, low, high}
}

// Ranges of what is asked for. Volumes and levels are those that the commands take.
const (
	minVolume, maxVolume = 0.1, 1e5 // L
	maxLevel             = 1000     // mg/L of anything dosed or diluted
)
