package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/engine/outlook"
)

// Text says the answer first, then the stage, what the next test will likely
// show, how sure all this is, and what to do.
func (r Outlook) Text() string { return r.text(r.Chart.Text()) }

// words is the text without the chart in letters.
func (r Outlook) words() string { return r.text("") }

func (r Outlook) text(chart string) string {
	var b strings.Builder
	b.WriteString(r.answer())
	if r.On != nil {
		fmt.Fprintf(&b, "\nBy day %s (%s) the chance that it is done is %s %%.", number(r.On.On, 0), longDate(r.On.Date), number(r.On.Percent, 0))
	}
	fmt.Fprintf(&b, "\n\n%s is at day %s. %s", r.Tank, number(r.Day, 0), r.stageWords())
	if r.Stage != "ready" {
		fmt.Fprintf(&b, "\n%s", r.chances())
	}
	if m := r.milestoneWords(); m != "" && r.Stage != "ready" && r.Crash == "" {
		fmt.Fprintf(&b, "\n%s", m)
	}
	if r.Seeded != nil {
		fmt.Fprintf(&b, "\n%s", r.Seeded.Text())
	}
	fmt.Fprintf(&b, "\n%s", r.nextWords())
	if chart != "" {
		fmt.Fprintf(&b, "\n\n%s\n", chart)
	}
	if r.KeepUp != "" {
		fmt.Fprintf(&b, "\nThis assumes that %s.%s", strings.TrimSuffix(r.KeepUp, "."), asIons(r.Scale, r.KeepUp))
	}
	fmt.Fprintf(&b, "\n%s", r.trust())
	for _, odd := range r.Odd {
		fmt.Fprintf(&b, "\n- %s", odd)
	}
	if r.Caveat != "" {
		fmt.Fprintf(&b, "\n%s", r.Caveat)
	}
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nAssumed: %s.", strings.Join(r.Assumed, "; "))
	}
	fmt.Fprintf(&b, "\n%s", r.Advice)
	return b.String()
}

// asIons tells keepers whose kits read as nitrogen that the engine's own words do not.
func asIons(scale, text string) string {
	if scale != "n" || !strings.Contains(text, "mg/L") {
		return ""
	}
	return " (There mg/L are as NH4, NO2 and NO3, not as nitrogen.)"
}

// answer is the first line: when it will be done.
func (r Outlook) answer() string {
	d := r.DoneDay
	switch {
	case r.Fit == "poor":
		return "The readings do not fit together, so take this with care: " + lowerFirst(r.when())
	case r.Crash != "" && d.P50 != nil && *d.P50 <= r.Chart.Now:
		return "The hardness is used up, and bacteria stop without it. But for that: " + lowerFirst(r.when())
	case r.Against != "" && d.P50 != nil && *d.P50 <= r.Chart.Now:
		return fmt.Sprintf("The last test shows %s, which should be clear by all before. If it was a slip: %s", r.Against, lowerFirst(r.when()))
	case r.Untold:
		return "No ammonia, food or animals were told of so far, so this is a guess: " + lowerFirst(r.when())
	case r.Stage == "ready" && d.P50 != nil && *d.P50 <= r.Chart.Now+1 && r.Animals:
		return fmt.Sprintf("%s is done: its filter carries what is in it.", r.Tank)
	case r.Stage == "ready" && d.P50 != nil && *d.P50 <= r.Chart.Now+1:
		return fmt.Sprintf("%s is done: it clears its %s mg/L of ammonia and the nitrite from it within a day.", r.Tank, number(r.TargetMgL, 2))
	}
	return r.when()
}

func (r Outlook) when() string {
	d := r.DoneDay
	switch {
	case d.P50 != nil && *d.P50 <= r.Chart.Now:
		return fmt.Sprintf("Most likely done already%s.", r.spread())
	case d.P50 != nil:
		return fmt.Sprintf("Most likely done around day %s, that is %s%s.", number(r.dayAt(*d.P50), 0), longDate(*r.DoneDate.P50), r.spread())
	case d.P10 != nil:
		return fmt.Sprintf("Most likely not done within %d days of the start; one chance in ten that it is done before day %s (%s).",
			r.HorizonDays, number(r.dayAt(*d.P10), 0), longDate(*r.DoneDate.P10))
	}
	return fmt.Sprintf("Hardly done within %d days of the start as things are.", r.HorizonDays)
}

// spread says how early and how late it may be.
func (r Outlook) spread() string {
	early, late := r.DoneDay.P10, r.DoneDay.P90
	switch {
	case late == nil && early != nil && *early <= r.Chart.Now:
		return fmt.Sprintf(" (more than one chance in ten: not within %d days of the start)", r.HorizonDays)
	case late == nil && early != nil:
		return fmt.Sprintf(" (one chance in ten: before day %s; more than one in ten: not within %d days of the start)", number(r.dayAt(*early), 0), r.HorizonDays)
	case early == nil || late == nil:
		return ""
	case *late <= r.Chart.Now:
		return ""
	case r.DoneDay.P50 != nil && *r.DoneDay.P50 <= r.Chart.Now:
		return fmt.Sprintf(" (nine chances in ten: by day %s)", number(r.dayAt(*late), 0))
	case *early <= r.Chart.Now:
		return fmt.Sprintf(" (it may be done already; nine chances in ten: by day %s)", number(r.dayAt(*late), 0))
	}
	return fmt.Sprintf(" (one chance in ten: before day %s; nine in ten: by day %s)", number(r.dayAt(*early), 0), number(r.dayAt(*late), 0))
}

// longDate prints 2026-03-14 as 14 March 2026.
func longDate(s string) string {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		return s
	}
	return day(t)
}

func lowerFirst(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// stageWords says what is going on in the tank now.
func (r Outlook) stageWords() string {
	if r.Untold && r.Readings == 0 {
		return "Nothing was told that shows its stage."
	}
	if r.Crash != "" {
		return fmt.Sprintf("Its hardness is used up (%s), so the bacteria stand still: what stands of ammonia and nitrite stays until that is raised.", r.Crash)
	}
	if r.Animals {
		switch r.Stage {
		case "proving":
			return "Last stage: ammonia and nitrite both go down; it still has to show that they stay down with the food of each day."
		case "ready":
			return "More animals only in steps: /stock says how many."
		}
	}
	switch {
	case r.Again && r.Stage == "ammonia":
		return "Back in the first stage: ammonia was down before and stands again, so what eats it has to grow back."
	case r.Again && r.Stage == "nitrite":
		return "Back in the second stage: nitrite was down before and stands again, so what eats it has to grow back."
	}
	if r.Plants && r.Stage == "ammonia" {
		return "First stage: what eats ammonia is still growing; plants take part of it meanwhile, so tests may show little."
	}
	if r.Plants && r.Stage == "nitrite" {
		return "Second stage: ammonia goes down, with plants taking part of it, so nitrite may hardly show; what eats nitrite is still growing."
	}
	switch r.Stage {
	case "ammonia":
		if r.Shows {
			return "First stage: what eats ammonia is at work, as nitrite shows, but there is too little of it yet."
		}
		if r.DoseNow > 0 {
			return "First stage: what eats ammonia is still growing; it needs ammonia, and the last test shows none."
		}
		return "First stage: what eats ammonia is still growing; ammonia stands, and nitrite comes once it falls."
	case "nitrite":
		return "Second stage: ammonia goes down by itself now; what eats nitrite is still growing. This is often the longest part."
	case "proving":
		if r.PassedOnce {
			return "Last stage: by your tests it cleared a whole dose within a day once; it still has to show that this was no chance."
		}
		return "Last stage: ammonia and nitrite both go down; it still has to show that it clears a whole dose within a day."
	case "ready":
		return "Ready for its first animals."
	}
	return "Stage: " + r.Stage + "."
}

// chances says how likely it is done within some days from now.
func (r Outlook) chances() string {
	var parts []string
	for _, d := range []string{"7", "14", "30", "60"} {
		if p, ok := r.PercentBy[d]; ok {
			parts = append(parts, fmt.Sprintf("%s days: %s %%", d, number(p, 0)))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	text := "Chance that it is done within " + strings.Join(parts, ", ") + "."
	if r.NotPercent >= 5 {
		text += fmt.Sprintf(" Not within %d days of the start: %s %%.", r.HorizonDays, number(r.NotPercent, 0))
	}
	return text
}

// milestoneWords lists the turning points that are still to come.
func (r Outlook) milestoneWords() string {
	names := map[string]string{"ammonia-clear": "ammonia clears", "nitrite-peak": "nitrite is highest", "nitrite-clear": "nitrite clears"}
	var parts []string
	for _, m := range r.Milestones {
		if m.Day.P50 == nil || *m.Day.P50 < r.Chart.Now || names[m.Name] == "" {
			continue
		}
		parts = append(parts, fmt.Sprintf("%s around day %s%s", names[m.Name], number(r.dayAt(*m.Day.P50), 0), r.between(m.Day)))
	}
	if len(parts) == 0 {
		return ""
	}
	return "On the way: " + strings.Join(parts, "; ") + "."
}

// between is " (day 8 to 14)" for a spread of days, told in days since the start.
func (h Head) between(q outlook.Quantiles) string {
	if q.P10 == nil || q.P90 == nil || h.dayAt(*q.P10) == h.dayAt(*q.P90) {
		return ""
	}
	return fmt.Sprintf(" (day %s to %s)", number(h.dayAt(*q.P10), 0), number(h.dayAt(*q.P90), 0))
}

// nextWords says what the kits will likely show next.
func (r Outlook) nextWords() string {
	kit := ""
	if r.Scale == "n" {
		kit = " as nitrogen"
	}
	return fmt.Sprintf("A test on day %s will likely show ammonia %s, nitrite %s, nitrate %s mg/L%s.",
		number(r.Next.Day, 0), levels(r.Next.Ammonia), levels(r.Next.Nitrite), levels(r.Next.Nitrate), kit)
}

// levels prints a spread of concentrations as 0.3 (0.1 to 0.6).
func levels(q outlook.Quantiles) string {
	if q.P50 == nil {
		return "unknown"
	}
	mid := sigText(*q.P50)
	if q.P10 == nil || q.P90 == nil || sigText(*q.P10) == sigText(*q.P90) {
		return mid
	}
	return fmt.Sprintf("%s (%s to %s)", mid, sigText(*q.P10), sigText(*q.P90))
}

// trust says how far to trust the outlook.
func (r Outlook) trust() string {
	switch r.Fit {
	case "none":
		return "There is no reading yet, so this rests on the set-up alone and the spread is wide; each /reading narrows it."
	case "poor":
		return "Some readings do not go with the rest of what you told. Check the tests, and whether a water change, a dose or a medicine was not logged:"
	}
	text := "It rests on " + plural(r.Readings, "reading", "readings")
	switch {
	case r.Fit == "strained":
		text += ", not all of which fit together"
	case r.Readings > 1:
		text += ", which fit well together"
	}
	switch {
	case len(r.Odd) > 0 && r.Fit == "strained":
		return text + ":"
	case len(r.Odd) > 0:
		return text + ", but for this:"
	}
	return text + "."
}

// advice says what to do next, animals first.
func (r Outlook) advice() string {
	switch {
	case r.Crash != "" && r.Animals:
		return "Next: raise the hardness in small steps, /amount what:buffer to:5dKH says how; test daily meanwhile and ask /safe, since animals are in."
	case r.Crash != "":
		return "Next: raise the hardness, /amount what:buffer to:5dKH says how; /why says what else holds it up."
	case r.Animals && r.Stage != "ready":
		return "Next: animals are in, so test daily and ask /safe; it says when to change water and how much."
	case r.Stage == "ready" && r.Animals:
		return "Next: go on testing now and then, and change water when the nitrate is high."
	case r.Stage == "ready":
		return "Next: a large water change brings the nitrate down; then add animals in small steps, and test for a week after each."
	case r.Untold:
		return "Next: if the tank was dosed or fed or has animals, note that with /log at: and ask again; if not, dose ammonia and note it with /log what:dose."
	case r.Against != "" && r.DoneDay.P50 != nil && *r.DoneDay.P50 <= r.Chart.Now:
		return "Next: test again tomorrow; if it shows the same, bacteria were lost, or more went in than was told."
	case r.Readings == 0:
		return "Next: test ammonia, nitrite and pH, and tell me with /reading."
	case r.Fit == "poor":
		return "Next: test again with care, and ask /why."
	case r.NotPercent >= 50:
		return "Next: ask /why what holds it up and what to do about it."
	}
	if r.DoseNow > 0 {
		return fmt.Sprintf("Next: the last test was clear of ammonia, so dose %s mg/L and note it with /log what:dose; test again on day %s.", number(r.DoseNow, 2), number(r.Next.Day, 0))
	}
	return fmt.Sprintf("Next: test again on day %s and tell me with /reading. If it seems slow, ask /why.", number(r.Next.Day, 0))
}
