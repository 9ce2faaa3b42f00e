package commands

import (
	"fmt"

	"ripen/store"
)

func unitsSpecs() []Spec {
	return []Spec{{Name: "units", Private: true, Help: "show or set the units of numbers that you type without one", Example: "/units volume:gal temp:F", run: units,
		Options: []Option{
			{Name: "volume", Type: TypeChoice, Choices: []string{"L", "gal", "impgal"}, Help: "litres, US gallons or imperial gallons"},
			{Name: "temp", Type: TypeChoice, Choices: []string{"C", "F"}, Help: "Celsius or Fahrenheit"},
			{Name: "kh", Type: TypeChoice, Choices: []string{"dKH", "ppm", "meq"}, Help: "German degrees, ppm as CaCO3 or meq/L"},
			{Name: "scale", Type: TypeChoice, Choices: scaleNames[:], Help: "what your kits show: ion (NH4, NO2, NO3) or n (nitrogen)"},
		}}}
}

// UnitsSet is a member's own units.
type UnitsSet struct {
	store.Units
	Changed bool `json:"changed"`
}

// units shows a member's units, or sets those that are named. What was told
// before keeps the units that it was told in.
func units(c *call) (Result, error) {
	if len(c.args) == 0 {
		return UnitsSet{Units: c.units}, nil
	}
	u := c.units
	for option, to := range map[string]*string{"volume": &u.Volume, "temp": &u.Temp, "kh": &u.KH, "scale": &u.Scale} {
		if a, ok := c.args[option]; ok {
			*to = a.word
		}
	}
	if err := c.book.store.SetUnits(c.ctx, c.Club, c.Member, u); err != nil {
		return nil, err
	}
	return UnitsSet{u, true}, nil
}

// Text names the units.
func (r UnitsSet) Text() string {
	scale := "as the ion (NH4, NO2, NO3)"
	if r.Scale == "n" {
		scale = "as nitrogen"
	}
	text := fmt.Sprintf("A number without a unit means: volume in %s, temperature in %s, KH in %s, kits that read %s.", r.Volume, r.Temp, r.KH, scale)
	if r.Changed {
		return text + " What you told before keeps its units."
	}
	return text + " Change it as in /units volume:gal temp:F kh:ppm scale:n"
}
