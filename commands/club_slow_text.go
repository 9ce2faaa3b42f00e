package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/safety"
	"ripen/engine/unit"
	"ripen/store"
)

// animalSafety is what /safe says of the last test of a tank with animals; "" where
// there are none, or nothing was tested.
func animalSafety(cs model.Case, t store.Tank, at time.Time) string {
	now := daysSince(t.Started, at)
	w := waterAt(cs, now).judged()
	if !animalsIn(cs, now) || w.Ammonia == nil && w.Nitrite == nil && w.Chlorine == nil {
		return ""
	}
	return safety.Assess(w.known(), safety.Mussels).Verdict
}

// lastReading is the last test of ammonia or nitrite; nil if there was none.
func lastReading(t store.Tank, cs model.Case, scale string) *LastReading {
	for i := len(cs.Readings) - 1; i >= 0; i-- {
		x := cs.Readings[i]
		if x.Ammonia == nil && x.Nitrite == nil {
			continue
		}
		s := shareReading(x, dayNumber(t.Started, dateOf(t.Started, float64(x.Day)).Round(time.Minute)), store.Units{Scale: scale, Temp: "C", KH: "dKH"})
		return &LastReading{s.Day, s.Ammonia, s.Nitrite}
	}
	return nil
}

// question is what to ask the member, most pressing first.
func (row SlowRow) question(settle string) string {
	switch {
	case row.Urgency == "danger":
		return "has the water been changed since, and what do ammonia and nitrite read now?"
	case row.LastReading == nil:
		return "what do ammonia and nitrite read?"
	case row.SilentDays > silentAfter:
		return "how is it going, and what do ammonia and nitrite read now?"
	case settle != "":
		return settle
	}
	return "what was done since the last test, and what does the next one read?"
}

// Text lists the tanks, a line and a question each.
func (r ClubSlow) Text() string {
	var b strings.Builder
	switch {
	case r.Open == 0:
		return "The club has no open tank yet." + r.trouble()
	case r.Behind == 0 && r.Pending > 0:
		b.WriteString("No tank that was looked at needs anybody.")
	case r.Behind == 0:
		b.WriteString("No tank that may be seen needs anybody.")
	default:
		fmt.Fprintf(&b, "Tanks that need somebody, most urgent first (%d in all", r.Behind)
		if r.Pages > 1 {
			fmt.Fprintf(&b, "; page %d of %d", r.Page, r.Pages)
		}
		b.WriteString("):")
	}
	for _, row := range r.Rows {
		b.WriteString("\n" + row.line() + "\n   Ask: " + row.Ask)
	}
	var rest []string
	if r.Well > 0 {
		rest = append(rest, plural(r.Well, "tank is", "tanks are")+" on track or ready")
	}
	if r.Pending > 0 {
		rest = append(rest, plural(r.Pending, "tank is", "tanks are")+" being looked at just now; ask again in a while")
	}
	if r.Unseen > 0 {
		rest = append(rest, plural(r.Unseen, "open tank is", "open tanks are")+" not shown, as the member did not agree (/tank edit share:yes)")
	}
	if len(rest) > 0 {
		b.WriteString("\n" + sentence(strings.Join(rest, "; ")))
	}
	if r.Next > 0 {
		fmt.Fprintf(&b, "\nMore with page:%d. Tanks of other pages are ranked by their outlooks only.", r.Next)
	}
	return b.String() + r.trouble()
}

// trouble says why the last weekly summary was not posted, on a line of its own.
func (r ClubSlow) trouble() string {
	if r.Trouble == nil {
		return ""
	}
	return "\n" + sentence(r.Trouble.sentence())
}

// Members are those that the text names, as quoted words.
func (r ClubSlow) Members() (all []string) {
	for _, row := range r.Rows {
		all = append(all, row.Member)
	}
	return all
}

// line is one tank.
func (row SlowRow) line() string {
	text := fmt.Sprintf("- %s, %s, day %s, %s stage: %s", quote(row.Member), row.Tank, number(row.Day, 0), row.Stage, row.Verdict)
	if row.Stage == "ready" {
		text = fmt.Sprintf("- %s, %s, day %s: ready", quote(row.Member), row.Tank, number(row.Day, 0))
	}
	if row.AsOf != nil {
		text += " (as of day " + number(*row.AsOf, 0) + ")"
	}
	if row.Urgency == "danger" {
		text += ", animals in danger by the last test"
	}
	if row.Percent != nil {
		text += fmt.Sprintf(". %s (%s %%)", causeWords(row.Cause), number(*row.Percent, 0))
	}
	switch l := row.LastReading; {
	case l == nil:
		text += ". No test yet"
	default:
		var seen []string
		if l.Ammonia != "" {
			seen = append(seen, unit.Ammonia.String()+" "+l.Ammonia)
		}
		if l.Nitrite != "" {
			seen = append(seen, unit.Nitrite.String()+" "+l.Nitrite)
		}
		text += fmt.Sprintf(". Day %s: %s mg/L", number(l.Day, 0), strings.Join(seen, ", "))
	}
	if row.SilentDays > silentAfter {
		text += fmt.Sprintf(". Silent for %s days", number(row.SilentDays, 0))
	}
	return text
}
