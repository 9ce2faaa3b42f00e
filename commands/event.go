package commands

import (
	"strings"
	"unicode"

	"ripen/engine/chem"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// toEvent makes an event of what was logged. args are the options by name, with
// the amount read by the kind; volume is the tank's water.
func (k logKind) toEvent(args map[string]arg, volume unit.Litres) (model.Event, *Error) {
	e := model.Event{Kind: k.event}
	detail := args["detail"].word
	switch args["conditioned"].word {
	case "yes":
		e.Treated = model.Yes
	case "no":
		e.Treated = model.No
	}
	a, told := args["amount"]
	switch k.event {
	case model.Dose:
		e.N, e.Salt = nitrogen(a, unit.Ammonia), says(detail, "salt", "ammonium", "chloride", "sulfate", "sulphate")
	case model.FeedOnce, model.Stocked, model.Losses:
		e.Mass = unit.Grams(a.low)
	case model.WaterChange:
		e.Fraction = a.low / 100
		if a.measure.dim == dimVolume {
			e.Fraction = a.low / float64(volume)
		}
		if e.Fraction > 1 {
			return e, refuse(CodeRange, "amount", "amount %s is more than the tank holds (%s L); write the part that was replaced, as in amount:40%%",
				quote(a.typed), number(float64(volume), 1))
		}
	case model.Buffer:
		if a.measure.dim == dimKH {
			e.Alk = unit.DKH(a.low).CaCO3()
		} else {
			_, perGram := bufferSalt(detail)
			e.Alk = unit.MgCaCO3(perGram * a.low / float64(volume))
		}
	case model.Seed:
		e.Volume = unit.Litres(a.low)
		donor(args, &e)
	case model.MediaAdded:
		e.Volume = unit.Litres(a.low)
	case model.Culture:
		e.Content = contentOf(args["content"])
	case model.PlantsAdded:
		p, ok := plantsIn(detail)
		if !ok {
			return e, refuse(CodeMissing, "detail", "say in detail how many plants and how fast they grow: detail:few-slow, many-slow, few-fast or many-fast")
		}
		e.Plants = p
	case model.Cleaned:
		e.Fraction = a.low / 100
		e.Harsh = harsh(detail, e.Treated == model.Yes)
	case model.Medicine, model.Outage:
		e.Hours = args["hours"].low
	}
	if !told && k.need != "" {
		return e, refuse(CodeMissing, "amount", "what:%s needs an amount; %s", k.name, k.need)
	}
	return e, nil
}

// Molar masses in g/mol of what raises carbonate hardness, beside baking soda,
// from the atomic masses of package unit and Na 22.990, K 39.098, Mg 24.305.
const (
	molarKHCO3  = 39.098 + 1.008 + 12.011 + 3*15.999
	molarNa2CO3 = 2*22.990 + 12.011 + 3*15.999
	molarK2CO3  = 2*39.098 + 12.011 + 3*15.999
)

// bufferSalt returns the salt that the words name, baking soda if none, and the
// alkalinity that a gram of it gives, in mg as CaCO3.
func bufferSalt(detail string) (name string, perGram float64) {
	potassium, carbonate := says(detail, "potassium"), says(detail, "carbonate") || says(detail, "soda") && says(detail, "washing")
	switch {
	case says(detail, "calcium", "coral", "limestone", "shell", "shells", "chalk"):
		return "calcium carbonate", 1000
	case potassium && carbonate:
		return "potassium carbonate", 1000 * unit.MolarCaCO3 / molarK2CO3
	case potassium:
		return "potassium bicarbonate", 1000 * unit.MolarCaCO3 / (2 * molarKHCO3)
	case carbonate:
		return "sodium carbonate", 1000 * unit.MolarCaCO3 / molarNa2CO3
	}
	return "sodium bicarbonate (baking soda)", 1000 / chem.BicarbonatePerAlk
}

// words cuts a text into lower-case words, "few-fast" into two.
func words(s string) []string {
	return strings.FieldsFunc(strings.ToLower(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// says holds if the text has one of the words and does not deny it ("no tap
// water").
func says(text string, any ...string) bool {
	before := ""
	for _, w := range words(text) {
		for _, a := range any {
			if w == a && before != "no" && before != "not" && before != "without" && before != "never" {
				return true
			}
		}
		before = w
	}
	return false
}

// plantsIn reads how many plants of which growth the words name.
func plantsIn(detail string) (model.Plants, bool) {
	few, many := says(detail, "few", "some", "couple"), says(detail, "many", "lots", "plenty")
	slow, fast := says(detail, "slow"), says(detail, "fast")
	switch {
	case few == many || slow == fast:
		return model.NoPlants, false
	case few && slow:
		return model.FewSlow, true
	case many && slow:
		return model.ManySlow, true
	case few:
		return model.FewFast, true
	}
	return model.ManyFast, true
}

// harsh holds if the words say that the media were cleaned in a way that kills:
// heat, soap, chlorinated water, or not kept at all.
func harsh(detail string, conditioned bool) bool {
	if says(detail, "hot", "boiled", "boiling", "bleach", "soap", "detergent", "replaced", "replacement", "new", "swapped") {
		return true
	}
	return !conditioned && says(detail, "tap", "faucet", "hose")
}
