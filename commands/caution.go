package commands

import "slices"

// aCaution is a short warning and the replies that need it.
type aCaution struct {
	name  string
	words string
	needs []string // names of replies, see cautionsOf; replies of the engine's causes name cautions themselves
}

// cautionTable holds every warning once. They stand at the end of a reply, in this
// order.
var cautionTable = []aCaution{
	{"welfare", "With animals in the water their welfare comes first; local animal-welfare rules apply.",
		[]string{"tank new fish-in", "stock", "tryout harm", "amount animals"}},
	{"ammonia", "Ammonia stings: handle it in fresh air, keep it off skin and eyes and away from children, and never mix it with bleach or other cleaners.",
		[]string{"tank new dosed", "amount ammonia", "log large dose", "tryout dose"}},
	{"chlorine", "Never mix chlorine or bleach with other chemicals.",
		[]string{"why chlorine"}},
	{"mix", "Never mix chemicals with each other.",
		[]string{"amount buffer", "amount conditioner", "tryout buffer"}},
	{"acids", "Never pour an acid into a tank with animals: the pH falls in a jump once the hardness is used up.",
		[]string{"tryout lower pH"}},
	{"electricity", "Unplug heater, filter and lamp before your hands go into the water.",
		[]string{"amount water-change", "amount water-change without tap", "tryout equipment"}},
	{"raise-ph", "Raise pH and hardness in small steps, no more than about 0.3 of pH a day with animals in; free ammonia rises with the pH.", // the step is common practice, no source
		[]string{"raise pH with animals"}},
	{"medicine", "Do not break off a treatment on your own; ask the vet who ordered it.",
		[]string{"log medicine", "why chlorine"}},
	{"vet", "Sick animals need a vet.",
		[]string{"log medicine", "log losses", "safe danger"}},
	{"local-rules", "Which medicines you may buy and use depends on local rules.",
		[]string{"log medicine"}},
	{"label", "The product's label comes first.",
		[]string{"amount ammonia", "amount buffer", "amount conditioner", "log buffer", "log medicine", "tryout buffer", "why chlorine"}},
	{"water-report", "Your supplier's water report says whether it uses chlorine or chloramine, and how much.",
		[]string{"amount conditioner", "amount water-change"}},
	{"test-before-animals", "Test ammonia and nitrite before any animal goes in.",
		[]string{"stock", "next-test done"}},
	{"species", "Grams say nothing of what a species needs: look up its water, its room and its company before you buy it.",
		[]string{"stock"}},
}

// caution returns the words of a warning; a name that is not known is words already.
func caution(name string) string {
	i := slices.IndexFunc(cautionTable, func(c aCaution) bool { return c.name == name })
	if i < 0 {
		return name
	}
	return cautionTable[i].words
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

// cautionsOf returns the words of the warnings that a reply needs, which may be several
// of the table's at once; each once, in the table's order.
func cautionsOf(replies ...string) []string {
	texts := []string{}
	for _, c := range cautionTable {
		if slices.ContainsFunc(c.needs, func(n string) bool { return slices.Contains(replies, n) }) {
			texts = append(texts, c.words)
		}
	}
	return texts
}
