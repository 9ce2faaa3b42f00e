package commands

import (
	"fmt"
	"strings"
)

// Text says first whether animals may go in now, then what the filter carries, the
// steps, and what would happen without them.
func (r Stock) Text() string {
	var b strings.Builder
	b.WriteString(r.answer())
	fmt.Fprintf(&b, "\n\n%s", r.carries())
	if len(r.Steps) > 1 || r.Now == "wait" && len(r.Steps) > 0 {
		b.WriteString("\nThe steps, each only if ammonia and nitrite read 0:")
		for _, s := range r.Steps {
			fmt.Fprintf(&b, "\n%d. day %s (%s): %s more, %s g of food a day in all", s.Step, number(s.Day, 0), longDate(s.Date), grams(s.Add.Animals), sigText(s.Total.Feed))
		}
	}
	if r.Planned && len(r.Steps) > 0 && r.Rest.Animals > 0 {
		fmt.Fprintf(&b, "\nFor the other %s nothing is foreseen in the weeks that can be looked ahead. Ask again after the last step; fewer animals or more filter media help.", grams(r.Rest.Animals))
	}
	if text := r.compare(); text != "" {
		fmt.Fprintf(&b, "\n%s", text)
	}
	fmt.Fprintf(&b, "\nThat a tank clears %s mg/L in a day is no licence for any number of animals: their water must never come near that.", number(r.Target, 2))
	fmt.Fprintf(&b, "\nDo:\n- %s", strings.Join(r.do(), "\n- "))
	if r.Fit == "poor" {
		fmt.Fprintf(&b, "\n%s", poorFit)
	}
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nAssumed: %s.", strings.Join(r.Assumed, "; "))
	}
	fmt.Fprintf(&b, "\n\n%s", strings.Join(r.Cautions, " "))
	return b.String()
}

// answer is the first line.
func (r Stock) answer() string {
	switch {
	case r.Now == "all" && !r.Planned:
		return fmt.Sprintf("About %s of animals may go into %s now, with %s g of food a day, if ammonia and nitrite read 0.", grams(r.Wanted.Animals), r.Tank, sigText(r.Wanted.Feed))
	case r.Now == "all":
		return fmt.Sprintf("All %s may go into %s now, with %s g of food a day, if ammonia and nitrite read 0.", grams(r.Wanted.Animals), r.Tank, sigText(r.Wanted.Feed))
	case r.Now == "part":
		return fmt.Sprintf("Only a part now: at most %s of animals into %s, with %s g of food a day, if ammonia and nitrite read 0.", grams(r.Steps[0].Add.Animals), r.Tank, sigText(r.Steps[0].Add.Feed))
	case r.Reason == "soon":
		return fmt.Sprintf("Not today: %s may still show ammonia or nitrite that animals don't bear. The first may go in around day %s (%s).", r.Tank, number(r.Steps[0].Day, 0), longDate(r.Steps[0].Date))
	case r.Reason == "water":
		return fmt.Sprintf("Wait: ammonia or nitrite in %s may stay too high for animals for a week and more.", r.Tank)
	case r.Reason == "shows":
		return fmt.Sprintf("Not now: the last test of %s shows %s, and nothing goes in until both ammonia and nitrite read 0.", r.Tank, list(r.Shows, "and"))
	case r.Reason == "hardness":
		return fmt.Sprintf("Add nothing to %s now: its hardness is used up (%s), and bacteria stop without it.", r.Tank, list(r.Shows, "and"))
	case r.Reason == "full" && r.Present.Feed > *r.Feed.P10:
		return fmt.Sprintf("Add nothing to %s: what is in already asks for more than its filter surely carries.", r.Tank)
	case r.Reason == "capacity" && r.Present.Animals > 0:
		return fmt.Sprintf("Add nothing to %s: its filter does not carry yet what is in.", r.Tank)
	case r.Reason == "full":
		return fmt.Sprintf("Add nothing to %s: what is in already asks for all that its filter carries.", r.Tank)
	}
	return fmt.Sprintf("Wait: the filter of %s does not carry animals yet. /outlook says when it will.", r.Tank)
}

// carries says what the filter does and what food that is.
func (r Stock) carries() string {
	text := fmt.Sprintf("The filter oxidises about %s mg of nitrogen a day with ample ammonia (one chance in ten: below %s).", sigText(*r.Capacity.P50), sigText(*r.Capacity.P10))
	if r.Plants {
		text += " What plants take comes on top and is not counted on, since they stop when they ail."
	}
	if r.Reason == "capacity" || r.Reason == "hardness" {
		return text
	}
	text += fmt.Sprintf(" To be prudent %s %% of that low figure is used: at most %s g of food a day in all, and less if the water would not stay good; bacteria are slow where ammonia is as low as animals need it.",
		number(r.Prudent, 0), sigText(*r.Feed.P10))
	switch {
	case r.Present.Feed > *r.Feed.P10:
		text += fmt.Sprintf(" Animals in it (%s) get about %s g, which is more: feed less, and test daily.", grams(r.Present.Animals), sigText(r.Present.Feed))
	case r.Present.Feed > 0:
		text += fmt.Sprintf(" Animals in it (%s) get about %s g of that.", grams(r.Present.Animals), sigText(r.Present.Feed))
	}
	return text
}

// compare says what all at once does to the water, and what the steps do.
func (r Stock) compare() string {
	if r.AtOnce == nil || !r.Planned && len(r.Steps) == 0 {
		return ""
	}
	text := fmt.Sprintf("All %s at once: ammonia would reach about %s mg/L and nitrite %s within two weeks (one chance in ten: above %s and %s); chance of staying within the limits %s %%.",
		grams(r.Wanted.Animals), high(r.AtOnce.Ammonia.P50), high(r.AtOnce.Nitrite.P50), high(r.AtOnce.Ammonia.P90), high(r.AtOnce.Nitrite.P90), number(r.AtOnce.Percent, 0))
	if r.Staged != nil && len(r.Steps) > 1 {
		text += fmt.Sprintf(" In steps: about %s and %s (above %s and %s), %s %%.",
			high(r.Staged.Ammonia.P50), high(r.Staged.Nitrite.P50), high(r.Staged.Ammonia.P90), high(r.Staged.Nitrite.P90), number(r.Staged.Percent, 0))
	}
	scale := ""
	if r.Scale == "n" {
		scale = " as nitrogen"
	}
	if r.Limits.NoChloride {
		scale += " (in water without chloride; tap water mostly holds some, and then nitrite harms less: add what your supplier's report says as chloride:)"
	}
	return r.muchFood() + text + fmt.Sprintf(" The limits here: ammonia %s, free ammonia %s, nitrite %s mg/L%s. Assumed: %s %% of the water is changed every %s days.",
		sigText(r.Limits.Ammonia), sigText(r.Limits.Free), sigText(r.Limits.Nitrite), scale, number(r.Change, 0), number(r.Every, 0))
}

// muchFood warns of a plan that feeds far more than animals eat.
func (r Stock) muchFood() string {
	if r.Wanted.Animals <= 0 || r.Wanted.Feed <= lavish*r.Wanted.Animals {
		return ""
	}
	return fmt.Sprintf("For %s of animals %s g of food a day is a lot, and what is not eaten rots: most get about %s %% of their weight. ", grams(r.Wanted.Animals), sigText(r.Wanted.Feed), number(r.Ration, 1))
}

// lavish is the food a day, as a share of the animals' weight, that hardly any eat;
// common practice, no source.
const lavish = 0.1

// high prints a peak.
func high(x *float64) string {
	if x == nil {
		return "unknown"
	}
	return sigText(*x)
}

// do says how to go about it.
func (r Stock) do() []string {
	if r.Now == "wait" && len(r.Steps) == 0 {
		if r.Reason == "hardness" {
			do := []string{"raise the hardness in small steps, /amount what:buffer to:5dKH says how, and test KH and pH after each", "test ammonia and nitrite daily meanwhile, and ask again when KH is up"}
			if r.Present.Animals > 0 {
				do[1] = "test ammonia and nitrite daily meanwhile, and ask /safe: it says when to change water, and how much"
			}
			return do
		}
		if r.Present.Animals > 0 {
			return []string{"test ammonia and nitrite now, and ask /safe: it says when to change water, and how much"}
		}
		if r.Reason == "shows" {
			return []string{"test again tomorrow, and ask again when ammonia and nitrite both read 0"}
		}
		return []string{"go on with the cycle, tell your tests with /reading, and ask again when /outlook says that it is done"}
	}
	var do []string
	if r.Present.Animals == 0 {
		do = append(do, "stop dosing ammonia, change a large part of the water, and test, all before the first animals")
	}
	return append(do,
		"after each step test ammonia and nitrite daily for a week, and tell me with /log what:stock and /reading; then ask again",
		"do not add the next ones, nor feed more than said, while either shows; if it does, ask /safe")
}

// grams prints a mass of animals.
func grams(g float64) string { return sigText(g) + " g" }
