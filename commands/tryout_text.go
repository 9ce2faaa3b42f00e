package commands

import (
	"fmt"
	"math"
	"strings"

	"ripen/engine/dosing"
	"ripen/engine/model"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Text says first what endangers animals, then what comes of all together, then of
// each change, with what comes beside the days.
func (r Tryout) Text() string {
	var b strings.Builder
	for _, text := range r.dangers() {
		fmt.Fprintf(&b, "Careful: %s.\n", text)
	}
	if r.ReadyPercent >= 80 {
		fmt.Fprintf(&b, "%s is most likely done already (%s %%), so there is nothing to save; what would set it back shows as later.\n", r.Tank, number(r.ReadyPercent, 0))
	}
	bullet := ""
	if x := r.Together; x != nil {
		fmt.Fprintf(&b, "All together: %s%s\n\nEach alone:\n", x.days(), r.within(*x))
		bullet = "- "
	}
	for _, x := range r.Changes {
		fmt.Fprintf(&b, "%s%s: %s%s\n", bullet, upperFirst(x.What), x.days(), r.within(x))
		if x.Lives != nil {
			fmt.Fprintf(&b, "  %s\n", x.Lives.Text())
		}
		for _, e := range x.SideEffects {
			if !e.Caution {
				fmt.Fprintf(&b, "  %s\n", sentence(e.Text))
			}
		}
	}
	fmt.Fprintf(&b, "\n%s, day %s, against going on as now; in brackets one chance in ten at either end.%s This is only a try, nothing was noted: what you do, note with /tank edit or /log.", r.Tank, number(r.Day, 0), r.farOff())
	if r.Fit == "poor" {
		fmt.Fprintf(&b, "\n%s", poorFit)
	}
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nAssumed: %s.", strings.Join(r.Assumed, "; "))
	}
	if len(r.Cautions) > 0 {
		fmt.Fprintf(&b, "\n%s", strings.Join(r.Cautions, " "))
	}
	return b.String()
}

// poorFit is what answers say that rest on readings which do not go together.
const poorFit = "Some readings do not go with the rest, so take this with care; /outlook names them."

// dangers returns what would endanger animals, each once: of all together, where it
// comes from there.
func (r Tryout) dangers() (texts []string) {
	said := map[string]bool{}
	for _, x := range r.all() {
		for _, e := range x.SideEffects {
			if e.Caution && !said[e.Name] {
				said[e.Name] = true
				texts = append(texts, e.Text)
			}
		}
	}
	return texts
}

// days says how many days it saves or costs, and how sure that is.
func (x Tried) days() string {
	low, mid, high := *x.DaysSaved.P10, *x.DaysSaved.P50, *x.DaysSaved.P90
	switch {
	case x.Already:
		return "it is so already, so nothing changes."
	case mid >= 0.5 && low > -0.5:
		return fmt.Sprintf("about %s sooner (%s to %s); helps with a chance of %s %%.", daysText(rounded(mid, 0)), number(max(low, 0), 0), number(high, 0), number(x.Percent, 0))
	case mid >= 0.5:
		return fmt.Sprintf("about %s sooner (%s); helps with a chance of %s %%.", daysText(rounded(mid, 0)), span(low, high), number(x.Percent, 0))
	case mid <= -0.5 && high < 0.5:
		return fmt.Sprintf("about %s later (%s to %s); sets it back with a chance of %s %%.", daysText(rounded(-mid, 0)), number(max(-high, 0), 0), number(-low, 0), number(x.HarmPercent, 0))
	case mid <= -0.5:
		return fmt.Sprintf("about %s later (%s); sets it back with a chance of %s %%.", daysText(rounded(-mid, 0)), span(low, high), number(x.HarmPercent, 0))
	case low > -0.5 && high < 0.5:
		return "makes no difference that counts."
	}
	return fmt.Sprintf("most likely no difference (%s); helps with a chance of %s %%, sets it back with %s %%.", span(low, high), number(x.Percent, 0), number(x.HarmPercent, 0))
}

// span says from where to where days saved go, on both sides of now.
func span(low, high float64) string {
	side := func(x float64) string {
		switch {
		case x >= 0.5:
			return number(x, 0) + " sooner"
		case x <= -0.5:
			return number(-x, 0) + " later"
		}
		return "0"
	}
	return side(low) + " to " + side(high)
}

// within says how many tanks like it never get done, if that differs.
func (r Tryout) within(x Tried) string {
	if x.Already || math.Abs(x.NotPercent-r.NotPercent) < 5 {
		return ""
	}
	return fmt.Sprintf(" Not done within %d days of the start: %s %% as now, %s %% with this.", r.Horizon, number(r.NotPercent, 0), number(x.NotPercent, 0))
}

// upperFirst begins a line with a capital, but for pH.
func upperFirst(s string) string {
	if strings.HasPrefix(s, "pH") {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

// farOff says where the counting of days ends, if many tanks like it come there.
func (r Tryout) farOff() string {
	if r.NotPercent < 10 {
		return ""
	}
	return fmt.Sprintf(" Days past day %d are not counted, so with a tank as slow as this a change may save more.", r.Horizon)
}

// beside adds what was read to what is likely, where the two differ as printed: a test may
// be off by a step, so the likely value lies between it and what the tests before foretold.
func beside(likely, read string) string {
	if read == "" || read == likely {
		return likely
	}
	return fmt.Sprintf("%s (you read %s)", likely, read)
}

// changeWords says what is changed, and from what.
func (c *call) changeWords(name string, x tryout.Change, s model.Setup, now WaterAt, read ReadWith) string {
	a := c.args[name]
	switch x := x.(type) {
	case tryout.Temp:
		return fmt.Sprintf("%s instead of %s", inUnit(temps(), c.units.Temp, a.low), now.Temp)
	case tryout.KH:
		was := ""
		if read.KH != nil {
			was = read.KH.String()
		}
		return fmt.Sprintf("KH %s instead of about %s", inUnit(hardnesses(), c.units.KH, a.low), beside(now.KH.String(), was))
	case tryout.PH:
		was := ""
		if read.PH != nil {
			was = number(*read.PH, 1)
		}
		return fmt.Sprintf("pH %s instead of about %s", number(a.low, 2), beside(number(now.PH, 1), was))
	case tryout.WaterChange:
		how := map[model.Treated]string{model.Yes: ", conditioned", model.No: ", not conditioned"}[x.Treated]
		if how == "" && s.Source <= model.Chloraminated { // elsewhere there is no chlorine to take out
			how = map[bool]string{true: ", conditioned as you usually do", false: ", not conditioned, as usual"}[s.Conditioner]
		}
		return fmt.Sprintf("%s %% of the water changed%s", number(a.low, 1), how)
	case tryout.Dose:
		return fmt.Sprintf("a dose of %s mg/L ammonia now", number(a.low, 2))
	case tryout.Plants:
		return fmt.Sprintf("plants %s instead of %s", a.word, plantNames[s.Plants])
	case tryout.Seed:
		return fmt.Sprintf("%s L of seed media", number(a.low, 3)) + donorOf(x.Event(), c.units).words()
	case tryout.Culture:
		return "a bottled culture, content " + a.word
	case tryout.Media:
		words := "media " + mediaNames[x.Kind]
		if x.Volume > 0 {
			words += fmt.Sprintf(" %s L", number(float64(x.Volume), 3))
		}
		words += " instead of " + mediaNames[s.Media]
		if s.Media != model.NoMedia {
			words += fmt.Sprintf(" %s L", number(float64(s.MediaVolume), 3))
		}
		return words
	case tryout.Flow:
		return fmt.Sprintf("flow %s instead of %s", a.word, flowNames[s.Flow])
	}
	return map[string]string{"yes": "new water conditioned from now on", "no": "new water not conditioned from now on"}[a.word]
}

// effectText says what comes with a change, and whether it endangers animals.
func (c *call) effectText(e tryout.Effect, now, after WaterAt, animals bool) (text string, danger bool) {
	switch e {
	case tryout.LessOxygen:
		return fmt.Sprintf("warmer water holds less oxygen: %s mg/L at %s instead of %s at %s; let the filter ripple the surface", number(after.Oxygen, 1), after.Temp, number(now.Oxygen, 1), now.Temp), false
	case tryout.FreesAmmonia:
		return fmt.Sprintf("free ammonia, the harmful part, rises to %s mg/L NH3 from %s", sigText(after.FreeAmmonia), sigText(now.FreeAmmonia)), false
	case tryout.Diluted:
		return "new water without chlorine takes hardly any bacteria, which sit on surfaces" + washedOut(now, after), false
	case tryout.Chlorine:
		return "untreated tap water brings chlorine, which kills bacteria and harms animals: condition it", animals
	case tryout.LargeDose:
		left := dosing.GrowthLeft(after.FreeAmmonia)
		return fmt.Sprintf("a dose above %s mg/L is large: ammonia comes to about %s mg/L, %s of it free, which leaves the bacteria that eat nitrite %s %% of their growth; better give a part, and the rest once it is clear",
			number(onScaleOf(c.units.Scale, tryout.LargestDose.N(unit.Ammonia), unit.Ammonia), 1), sigText(after.Ammonia), sigText(after.FreeAmmonia), number(100*left, 0)), false
	case tryout.DosedAnimals:
		return "ammonia is never dosed with animals in: it harms them", true
	case tryout.PHJump:
		return fmt.Sprintf("the pH moves from %s to %s with animals in; take days over it, no more than %s a day", number(now.PH, 1), number(after.PH, 1), number(tryout.GentlePH, 1)), true
	case tryout.TempJump:
		return fmt.Sprintf("from %s to %s is a lot with animals in; go a degree or two a day", now.Temp, after.Temp), true
	case tryout.Poison:
		return fmt.Sprintf("free ammonia comes to %s mg/L NH3, above the %s that harms gills: do not do this until the ammonia is down", sigText(after.FreeAmmonia), number(tryout.HarmFrom, 2)), true
	case tryout.OldMedia:
		return "this counts on the old medium staying in beside the new for some weeks: its bacteria would leave with it", false
	case tryout.Rooting:
		return "new plants take some weeks to root, and until then take up less than is counted here", false
	case tryout.RaisesPH:
		return fmt.Sprintf("the pH comes to about %s with it", number(after.PH, 1)), false
	case tryout.FallsBack:
		return "a pH that is moved without its hardness seldom stays; kh: tries the way that lasts", false
	case tryout.CountedOn:
		return "the outlook counts on such a dose anyway, since you are taken to dose whenever ammonia is clear: it is leaving it out that would cost days", false
	case tryout.NoChangeAhead:
		return "by your log no water changes are to come, and then this changes nothing", false
	case tryout.NoMediaLeft:
		return "the bacteria in the medium leave with it, and what is left has only glass and ground to live on", false
	}
	return string(e), false
}

// washedOut says which levels new water brings down; nothing of those that are at nil.
func washedOut(now, after WaterAt) string {
	var down []string
	for _, x := range []struct {
		name        string
		before, now float64
	}{{"ammonia", now.Ammonia, after.Ammonia}, {"nitrite", now.Nitrite, after.Nitrite}} {
		if x.before >= 0.05 {
			down = append(down, fmt.Sprintf("%s goes from about %s to %s mg/L", x.name, sigText(x.before), sigText(x.now)))
		}
	}
	if len(down) == 0 {
		return ""
	}
	return "; " + list(down, "and")
}
