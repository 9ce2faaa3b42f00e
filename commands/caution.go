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
	case "mix":
		return "Never mix chemicals with each other."
	case "electricity":
		return "Unplug heater, filter and lamp before your hands go into the water."
	case "label":
		return "The product's label comes first."
	case "raise-ph": // the step of pH is common practice, no source
		return "Raise pH and hardness in small steps, no more than about 0.3 of pH a day with animals in; free ammonia rises with the pH."
	case "medicine":
		return "Do not break off a treatment on your own; ask the vet who ordered it."
	case "species":
		return "Grams say nothing of what a species needs: look up its water, its room and its company before you buy it."
	case "test-before-animals":
		return "Test ammonia and nitrite before any animal goes in."
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
