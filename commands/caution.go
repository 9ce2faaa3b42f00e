package commands

import "slices"

// caution returns the words of a short warning, said once where it matters; a
// name that is not known is words already.
func caution(name string) string {
	switch name {
	case "ammonia":
		return "Ammonia stings: handle it in fresh air, keep it off skin and eyes and away from children, and never mix it with bleach or other cleaners."
	case "chlorine":
		return "Never mix chlorine or bleach with other chemicals."
	case "mixing":
		return "Never mix chemicals with each other."
	case "electricity":
		return "Unplug heater, filter and lamp before your hands go into the water."
	case "label":
		return "The product's label comes first."
	case "vet":
		return "Sick animals need a vet."
	case "water-report":
		return "Your supplier's water report says whether it uses chlorine or chloramine, and how much."
	case "welfare":
		return "With animals in the water their welfare comes first; local animal-welfare rules apply."
	}
	return name
}

// cautionTexts returns the words of warnings, each once.
func cautionTexts(names ...string) []string {
	var texts []string
	for _, n := range names {
		if text := caution(n); !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
	}
	return texts
}
