package commands

func unitsSpecs() []Spec {
	return []Spec{{Name: "units", Private: true, Help: "show or set the units of numbers that you type without one", Example: "/units volume:gal temp:F",
		Options: []Option{
			{Name: "volume", Type: TypeChoice, Choices: []string{"L", "gal", "impgal"}, Help: "litres, US gallons or imperial gallons"},
			{Name: "temp", Type: TypeChoice, Choices: []string{"C", "F"}, Help: "Celsius or Fahrenheit"},
			{Name: "kh", Type: TypeChoice, Choices: []string{"dKH", "ppm", "meq"}, Help: "German degrees, ppm as CaCO3 or meq/L"},
			{Name: "scale", Type: TypeChoice, Choices: scaleNames[:], Help: "what your kits show: ion (NH4, NO2, NO3) or n (nitrogen)"},
		}}}
}
