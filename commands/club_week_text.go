package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/commands/picture"
)

// Text is the summary, to be read by all.
func (r ClubWeek) Text() string {
	var b strings.Builder
	span, were := "The week", "was"
	if r.Weeks > 1 {
		span, were = fmt.Sprintf("The %d weeks", r.Weeks), "were"
	}
	fmt.Fprintf(&b, "%s from %s to %s", span, shortDate(r.From), shortDate(r.To))
	if len(r.New)+len(r.Finished)+len(r.Near)+len(r.Asked) == 0 && r.Lesson == nil {
		if r.Shown == 0 {
			return b.String() + " " + were + " quiet: no tank that may be seen. /tank edit share:yes shows yours here."
		}
		return b.String() + fmt.Sprintf(" %s quiet: %s, and nothing new to tell.", were, plural(r.Shown, "tank is on its way", "tanks are on their way"))
	}
	fmt.Fprintf(&b, ", with %s on the way:", plural(r.Shown, "tank", "tanks"))
	if len(r.New) > 0 {
		var names []string
		for _, t := range r.New {
			names = append(names, t.name())
		}
		b.WriteString("\n- New: " + list(names, "and") + ". Welcome!")
	}
	for _, t := range r.Finished {
		b.WriteString("\n- Done: " + t.sentence())
	}
	for _, t := range r.Near {
		b.WriteString("\n- Near the end: " + t.sentence())
	}
	if len(r.Asked) > 0 {
		var names []string
		for _, t := range r.Asked {
			names = append(names, t.name()+" on day "+number(t.Day, 0))
		}
		b.WriteString("\n- Asked for help: " + list(names, "and") + ". Who knows such tanks?")
	}
	if r.Lesson != nil {
		b.WriteString("\n- Lesson of the week: " + r.Lesson.sentence())
	}
	b.WriteString("\nYour tank here as well? /tank edit share:yes, and share:no takes it out.")
	return b.String()
}

// name is how a tank is called in a summary; front ends put a name for the quoted word.
func (t WeekTank) name() string { return t.Tank + " of " + quote(t.Member) }

func (t WeekDone) sentence() string {
	text := fmt.Sprintf("%s, on day %s.", t.name(), number(t.DoneDay, 0))
	if t.Given == nil {
		return text
	}
	said := "later than is foretold"
	switch {
	case t.P10 != nil && t.P90 != nil:
		said = fmt.Sprintf("day %s to %s", number(*t.P10, 0), number(*t.P90, 0))
	case t.P10 != nil:
		said = fmt.Sprintf("day %s or later", number(*t.P10, 0))
	}
	held := "it missed"
	if t.Held {
		held = "it held"
	}
	return text + fmt.Sprintf(" The outlook of day %s said %s: %s.", number(*t.Given, 0), said, held)
}

func (t WeekNear) sentence() string {
	text := t.name() + ", likely done around " + shortDate(t.Date)
	switch {
	case t.Early != nil && t.Late != nil:
		return text + fmt.Sprintf(" (%s to %s).", shortDate(*t.Early), shortDate(*t.Late))
	case t.Early != nil:
		return text + ", or much later."
	}
	return text + "."
}

// shortDate prints an ISO date as in "2 March".
func shortDate(iso string) string {
	t, err := time.Parse("2006-01-02", iso)
	if err != nil {
		return iso
	}
	return t.Format("2 January")
}

// Members are those that the text names, as quoted words.
func (r ClubWeek) Members() (all []string) {
	for _, ts := range [][]WeekTank{r.New, r.Asked} {
		for _, t := range ts {
			all = append(all, t.Member)
		}
	}
	for _, t := range r.Finished {
		all = append(all, t.Member)
	}
	for _, t := range r.Near {
		all = append(all, t.Member)
	}
	return all
}

// sheets draws the open tanks on a calendar.
func (r ClubWeek) sheets() ([]File, error) {
	if len(r.Lines) == 0 {
		return nil, nil
	}
	p := picture.Timelines{Title: fmt.Sprintf("%s: when tanks will be done", shortDate(r.To)), First: -35, Last: 63}
	if r.More > 0 {
		p.Title += fmt.Sprintf(" (%d more left out)", r.More)
	}
	for _, d := range r.DayNames {
		name := strings.Fields(shortDate(d.Date))
		p.Ticks = append(p.Ticks, picture.Tick{Day: d.Day, Name: name[0] + " " + name[1][:3]})
	}
	for _, l := range r.Lines {
		p.Rows = append(p.Rows, picture.Timeline{Name: l.label(), Note: strings.ReplaceAll(l.Verdict, "-", " "), Start: l.Start,
			Done: picture.Window{P10: l.P10, P50: l.P50, P90: l.P90}, Ready: l.Verdict == "ready"})
	}
	data, err := picture.TimelinesPNG(p)
	return []File{{Name: "week-" + r.To + ".png", Alt: r.altText(), Data: data}}, err
}

// label names a tank in a picture, where a platform's number for a member says nothing.
func (l WeekLine) label() string {
	if strings.Trim(l.Member, "0123456789") == "" {
		return l.Tank
	}
	return l.Member + ", " + l.Tank
}

// altText says what the picture shows.
func (r ClubWeek) altText() string {
	lines := []string{"Open tanks, by when they will likely be done."}
	for _, l := range r.Lines {
		when := "past what is foretold"
		if l.P50 != nil {
			when = "in about " + plural(int(max(0, *l.P50)), "day", "days")
		}
		if l.Verdict == "ready" {
			when = "ready"
		}
		lines = append(lines, l.label()+": "+when+".")
	}
	return strings.Join(lines, " ")
}
