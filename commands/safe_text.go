package commands

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"ripen/engine/safety"
	"ripen/engine/unit"
)

// old is the age in days from which a test says little of today's water; common
// practice, no source.
const old = 7

// freshUpTo is the salinity up to which water counts as fresh, g/kg.
const freshUpTo = 1

// slowing is the total ammonia that slows the bacteria that are to use it up; common
// practice, no source.
const slowing unit.MgIon = 5

// advice says what to do, animals first.
func (r Safe) advice() []string {
	switch {
	case r.Verdict == "safe" && len(r.Since) > 0, slices.Contains(r.Reasons, chlorineUnread):
		return r.sinceAdvice()
	case r.Verdict == "safe" && r.Animals == "no":
		return []string{"nothing now; this is about the water as it was tested. Whether the filter carries animals yet, /stock says"}
	case r.Verdict == "safe" && r.Animals != "yes":
		return []string{"nothing now"}
	case r.Verdict == "safe" && r.Crash != "":
		return []string{r.softAdvice(), "feed little, and test again tomorrow"}
	case r.Verdict == "safe" && r.shows():
		return []string{"nothing now, but where animals live ammonia and nitrite should both read 0: feed little, and test again tomorrow"}
	case r.Verdict == "safe":
		return []string{"nothing now; go on testing, daily while the cycle is not done"}
	case r.Animals == "no" && r.Chlorine != nil && *r.Chlorine > r.ChlorineLong:
		return []string{"chlorine kills the bacteria that you are growing: add a conditioner now, as its label says, and condition new water before it goes in", "no animals are in: put none in until /safe says safe"}
	case r.Animals == "no" && r.Ammonia != nil && *r.Ammonia > float64(slowing.N(unit.Ammonia)):
		return []string{"no animals are in, so nothing is urgent: put none in until /safe says safe", "so much ammonia slows the bacteria as well: dose no more, and ask /why whether to change water"}
	case r.Animals == "no":
		return []string{"no animals are in, so nothing is urgent: put none in until /safe says safe", "do not change water for this alone; the bacteria live on it"}
	}
	var do []string
	if r.Animals == "unknown" {
		do = append(do, "put no animals into this water; if they are in it:")
	}
	if r.Chlorine != nil && *r.Chlorine > r.ChlorineLong {
		do = append(do, "chlorine: add a conditioner now, as its label says, and let the filter ripple the surface")
	}
	do = append(do, r.untreatedAdvice()...)
	do = append(do, r.changeAdvice()...)
	if r.Crash != "" && r.Animals == "yes" {
		do = append(do, r.softAdvice())
	}
	if r.Salt != nil {
		do = append(do, r.Salt.text())
	}
	if r.tooHigh() == "nitrite" {
		do = append(do, "let the filter ripple the surface: with nitrite in the blood animals need more oxygen")
	}
	if r.Over {
		do = append(do, "a chart topped out: mix a sample with as much clean water, test that and double it; the change may have to be larger")
	}
	if r.Ammonia != nil || r.Nitrite != nil {
		do = append(do, "feed nothing and dose nothing until then, and test again after each change and tomorrow")
	}
	return append(do, "sick animals need a vet")
}

// sinceAdvice says what to do with water that would be safe, had nothing been done since
// the last test.
func (r Safe) sinceAdvice() []string {
	do := append(r.untreatedAdvice(), "test "+r.again()+" now, and go by that")
	if r.Animals == "no" {
		return append(do, "whether the filter carries animals yet, /stock says")
	}
	if r.Crash != "" {
		do = append(do, r.softAdvice())
	}
	if r.shows() {
		do = append(do, "feed little until ammonia and nitrite both read 0")
	} else if r.Crash != "" {
		do = append(do, "feed little until then")
	}
	return do
}

// untreatedAdvice is what to do about tap water that brought chlorine.
func (r Safe) untreatedAdvice() []string {
	if !slices.Contains(r.Since, "untreated") || r.Animals == "no" {
		return nil
	}
	return []string{"untreated tap water brings chlorine: add a conditioner now, for the whole tank, as its label says"}
}

// again lists the tests that would tell what was done since the last.
func (r Safe) again() string { return list(labels(r.Again), "and") }

// softAdvice says what to do where the hardness is used up and animals are in.
func (r Safe) softAdvice() string {
	do := "change a fifth of the water a day for some days"
	if r.New.Soft {
		do = "raise it in the daily portions that /amount what:buffer to:4dKH gives, since your new water may bring no hardness"
	}
	return fmt.Sprintf("the hardness is used up (%s), so the pH may fall further and the bacteria stand still: %s, and test pH and ammonia before each, as ammonia turns harmful when the pH rises", usedUpText(r.Crash, r.UsedUp), do)
}

// shows holds if ammonia or nitrite read more than nothing.
func (r Safe) shows() bool {
	return r.Ammonia != nil && *r.Ammonia > 0 || r.Nitrite != nil && *r.Nitrite > 0
}

// changeAdvice says how much water to replace, and by which water.
func (r Safe) changeAdvice() (do []string) {
	c := r.Change
	if c == nil {
		if l := r.tooHigh(); l != "" && !r.Over {
			return []string{fmt.Sprintf("a water change does not bring %s down far enough: the new water itself holds too much; use other water, as RO water with salts for aquariums", l)}
		}
		return nil
	}
	do = append(do, c.text(), r.newWater())
	if c.LikePH {
		do = append(do, fmt.Sprintf("not with water of pH %s: the higher pH would free more ammonia, up to %s mg/L NH3 after the first change; use water of about the tank's pH, or a conditioner that binds ammonia, as its label says", number(*c.NewPH, 2), sigText(*c.WithOwnPH)))
	} else if c.PH != nil && r.Water.PH != nil && *c.PH > *r.Water.PH+0.05 && *c.FreeAmmonia >= r.HarmFrom/5 { // less is not worth a word
		do = append(do, fmt.Sprintf("this counts with the new water's pH of %s, at which more of the ammonia is free: up to %s mg/L NH3 after the first change", number(*c.PH, 2), sigText(*c.FreeAmmonia)))
	}
	if r.OutOfDanger != nil && r.ToSafe != nil && *r.ToSafe > *r.OutOfDanger {
		do = append(do, fmt.Sprintf("that ends the danger; to be within the limits for longer it takes %s %% in all, over the next days", number(*r.ToSafe, 0)))
	}
	return do
}

// tooHigh names what a water change should bring down.
func (r Safe) tooHigh() string {
	switch {
	case r.Nitrite != nil && *r.Nitrite > r.NitriteLong:
		return "nitrite"
	case r.Ammonia != nil && r.ChronicTAN != nil && (*r.Ammonia > *r.ChronicTAN || *r.FreeAmmonia > r.HarmFrom):
		return "ammonia"
	}
	return ""
}

// newWater says which water to use.
func (r Safe) newWater() string {
	text := "use water of the same temperature and a like pH"
	if r.Water.Salinity != nil && *r.Water.Salinity > freshUpTo {
		text = "use water of the same salt, the same temperature and a like pH"
	}
	switch {
	case r.New.Untreated:
		text += ", and condition it first, as the label says: untreated tap water brings chlorine, which harms animals and bacteria"
	case r.New.Source == "" || strings.HasPrefix(r.New.Source, "chlor"):
		text += ", conditioned if it is tap water"
	}
	var holds []string
	if r.New.Ammonia > 0 {
		holds = append(holds, number(r.New.Ammonia, 2)+" mg/L ammonia")
	}
	if r.New.Nitrite > 0 {
		holds = append(holds, number(r.New.Nitrite, 3)+" mg/L nitrite")
	}
	if len(holds) > 0 {
		text += "; counted with " + list(holds, "and") + " in it"
		if r.New.Chloramine {
			text += ", which chloramine leaves behind"
		}
	}
	return text
}

// text says how to replace the water.
func (c ChangeStep) text() string {
	switch {
	case c.Times == 1:
		return fmt.Sprintf("replace about %s %% of the water now", number(c.Percent, 0))
	case c.Times <= 3:
		return fmt.Sprintf("replace about %s %% of the water %d times, some hours apart (together %s %%)", number(c.Percent, 0), c.Times, number(c.InAll, 0))
	}
	return fmt.Sprintf("replace about %s %% of the water now, and again every few hours, up to %d times (together %s %%); stop once the tests are down", number(c.Percent, 0), c.Times, number(c.InAll, 0))
}

// text says what salt does, and for whom it is not.
func (s SaltDose) text() string {
	return fmt.Sprintf("beside that, for %s L dissolve %s g of plain salt, sodium chloride and nothing else: about %s mg/L chloride keeps nitrite out of many fishes' gills, and the limit is then %s mg/L. Not where plants, snails or fishes live that bear no salt",
		number(s.Litres, 1), sigText(s.Grams), number(s.Chloride, 0), sigText(s.NitriteLimit))
}

// Text says the verdict first.
func (r Safe) Text() string {
	var b strings.Builder
	b.WriteString(map[string]string{"safe": "Safe", "caution": "Caution", "danger": "Danger"}[r.Verdict] + " for animals")
	if r.Tank != "" {
		fmt.Fprintf(&b, " in %s", r.Tank)
	}
	if r.Age >= old {
		fmt.Fprintf(&b, ", by a test %s days old", number(r.Age, 0))
	}
	fmt.Fprintf(&b, ": %s.", strings.Join(r.Reasons, "; "))
	if r.Over {
		b.WriteString(" A chart topped out, so it may be worse.")
	}
	if r.Age >= old {
		b.WriteString("\nThat says little of today: test again before you go by this.")
	} else if r.Age >= 2 {
		fmt.Fprintf(&b, "\nThe last test is %s days old; test again to be sure.", number(r.Age, 0))
	}
	if len(r.Since) > 0 {
		b.WriteString("\n" + r.sinceText())
	}
	if r.Doubt != nil {
		fmt.Fprintf(&b, "\nThe pH is not told, and at pH %s, which is not unusual, it would be: %s. Test the pH and add it, as in ph:7.6.", number(r.Doubt.PH, 1), r.Doubt.Verdict)
	}
	if r.FreeAmmonia != nil && *r.FreeAmmonia > 0 {
		fmt.Fprintf(&b, "\nAt pH %s and %s, %s mg/L of the ammonia is free NH3, the harmful part; gills are harmed from about %s mg/L.",
			number(*r.Water.PH, 2), r.Water.Temp, sigText(*r.FreeAmmonia), sigText(r.HarmFrom))
	}
	if r.Verdict != "safe" {
		fmt.Fprintf(&b, "\nThe strictest here: %s.", r.Strictest)
	}
	b.WriteString("\nDo:")
	for _, d := range r.Do {
		fmt.Fprintf(&b, "\n- %s", d)
	}
	if text := r.judgedFor(); text != "" {
		fmt.Fprintf(&b, "\n%s", text)
	}
	if usual := slices.DeleteFunc(slices.Clone(r.Assumed), func(o string) bool { return o == "animals" }); len(usual) > 0 {
		fmt.Fprintf(&b, "\nNot told, so the usual is taken: %s%s.", list(labels(usual), "and"), chlorideNote(usual))
	}
	return b.String()
}

// sinceWords are what was done since a test, in words; olderWords where it was so long ago
// that it is not counted.
var (
	sinceWords = map[string]string{
		"buffer": "a buffer was added", "clean": "the filter was cleaned harshly", "conditioner": "conditioner was added", "dose": "ammonia was dosed",
		"feed": "food was given", "losses": "animals died", "medicine": "medicine was given", "outage": "the filter stood still",
		"stock": "animals were put in", "untreated": "untreated tap water went in", "water-change": "water was changed",
	}
	olderWords = map[string]string{"buffer": "a buffer was added days ago", "dose": "ammonia was dosed more than a day ago"}
)

// sinceText says what was done since the last test and how far it is counted.
func (r Safe) sinceText() string {
	var in, out []string
	for _, x := range r.Counted {
		in = append(in, sinceWords[x])
	}
	for _, x := range r.Not {
		out = append(out, cmp.Or(olderWords[x], sinceWords[x]))
	}
	var parts []string
	if len(in) > 0 {
		text := list(in, "and") + ", which is counted here"
		if slices.Contains(r.Again, phTest) && (slices.Contains(r.Counted, "buffer") || !slices.Contains(r.Since, "buffer")) {
			text += fmt.Sprintf(", with a pH up to %s", number(*r.Water.PH, 1))
		}
		parts = append(parts, text)
	}
	if len(out) > 0 {
		parts = append(parts, list(out, "and")+", which is not counted here")
	}
	since := "that test"
	if !slices.Contains(r.Again, nitrogenTest) {
		since = r.again() + " was told"
	}
	return fmt.Sprintf("Since %s %s: test %s again.", since, strings.Join(parts, "; "), r.again())
}

// judgedFor says what the limits are for, where that matters.
func (r Safe) judgedFor() string {
	switch sea, ammonia := r.JudgedFor == "salt-water", r.Ammonia != nil && *r.Ammonia > 0; {
	case sea && r.Nitrite != nil && *r.Nitrite > 0:
		return "Ammonia and chlorine are held to the limits of salt water, nitrite to those of fresh water, as none was found for the sea."
	case sea:
		return "The limits are those of salt water."
	case !ammonia:
		return ""
	case r.Water.Salinity != nil && *r.Water.Salinity > freshUpTo:
		return "In brackish water the limits of fresh water are taken; take them as a guide."
	case r.JudgedFor == kinds[safety.WarmWater]:
		return "Total ammonia is judged for fishes other than trout and salmon, without mussels and snails with gills. None of the limits was made for shrimps."
	case r.JudgedFor == kinds[safety.Trout]:
		return "Total ammonia is judged for trout and salmon, and for mussels. None of the limits was made for shrimps."
	case slices.Contains(r.Assumed, "animals") && r.Strictest == safety.TotalAmmonia && r.Verdict != "safe":
		return "Total ammonia is judged as where mussels and snails with gills live, the strict way; for other animals add animals:warm-water or animals:trout."
	}
	return ""
}

func chlorideNote(assumed []string) string {
	if slices.Contains(assumed, "chloride") {
		return " (none; tap water mostly holds some, and then nitrite harms less: add what your supplier's report says as chloride:)"
	}
	return ""
}
