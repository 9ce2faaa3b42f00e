package commands

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text says the verdict, animals before it, then the causes with what to do about
// each.
func (r Why) Text() string {
	var b strings.Builder
	if r.Animals && r.Verdict != "ready" {
		b.WriteString("Animals are in: their water comes first. Ask /safe before you change anything.\n\nThe cycle itself: ")
	}
	b.WriteString(r.verdict())
	for _, n := range r.Notes {
		fmt.Fprintf(&b, "\n%s", sentence(n))
	}
	told := r.told()
	if len(told) > 0 && (r.Verdict == "on-track" || r.Verdict == "ready") && !r.heldUp() {
		b.WriteString("\nThis is worth a look:")
	}
	for _, c := range told {
		fmt.Fprintf(&b, "\n\n%d. %s: %s %% likely, costs %s.", c.Rank, causeWords(c.Cause), number(c.Percent, 0), costWords(c.DaysCost))
		for _, e := range c.Evidence {
			fmt.Fprintf(&b, "\n   - %s", e)
		}
		for _, f := range []struct{ head, text string }{{"Do: ", c.Fix}, {"", c.DoNot}, {"To be sure: ", c.Settle}} {
			if f.text != "" {
				fmt.Fprintf(&b, "\n   %s%s", f.head, sentence(f.text))
			}
		}
	}
	all := strings.Join(r.Notes, " ")
	for _, c := range told {
		all += strings.Join(c.Evidence, " ") + c.Fix
	}
	b.WriteString(strings.Replace(asIons(r.Scale, all), " (", "\n\n(", 1))
	if r.Fit == "poor" {
		b.WriteString("\n\nSome readings do not go with the rest, so take this with care; /outlook names them.")
	}
	if len(r.Cautions) > 0 {
		fmt.Fprintf(&b, "\n\n%s", strings.Join(r.Cautions, " "))
	}
	return b.String()
}

// verdict is the first line.
func (r Why) verdict() string {
	switch r.Verdict {
	case "ready":
		return fmt.Sprintf("Nothing is wrong: %s is ready.", r.Tank)
	case "on-track":
		if r.Unjudged != "" {
			return fmt.Sprintf("Whether %s is late at day %s can't be said: %s.", r.Tank, number(r.Day, 0), r.Unjudged)
		}
		if r.DoneDay.P50 == nil {
			return fmt.Sprintf("%s is as far at day %s as its set-up allows, but as it is set up it will hardly be done within %d days.", r.Tank, number(r.Day, 0), r.Horizon)
		}
		text := fmt.Sprintf("Nothing is wrong: %s is on track at day %s.", r.Tank, number(r.Day, 0))
		if r.Animals { // who may be in danger all the same
			text = fmt.Sprintf("%s is on track at day %s.", r.Tank, number(r.Day, 0))
		}
		if r.heldUp() {
			text = fmt.Sprintf("%s is within the usual range at day %s, but something seems to cost it days.", r.Tank, number(r.Day, 0))
		}
		switch {
		case *r.DoneDay.P50 > r.Day:
			text += r.wait()
		case r.Animals:
			text += " It is most likely done already; no ammonia and no nitrite day after day would show it."
		default:
			text += " It is most likely done already; a full dose that is gone a day later, with no nitrite left, would show it."
		}
		return text
	case "stalled":
		return fmt.Sprintf("%s is stalled at day %s: hardly any progress over the last week%s.%s", r.Tank, number(r.Day, 0), r.delay(), r.unexplained())
	}
	return fmt.Sprintf("%s is slow at day %s%s.%s", r.Tank, number(r.Day, 0), r.delay(), r.unexplained())
}

// unexplained says what to do when a slow tank shows no fault, or none that costs the
// most of the delay.
func (r Why) unexplained() string {
	told := r.told()
	if r.Again { // it did not begin with few
		return ""
	}
	if len(told) > 0 {
		explained := 0.0
		for _, c := range told {
			if c.Cause == "test-artefact" && c.Chance >= 0.5 { // the delay is only apparent
				return ""
			}
			if c.Chance >= worthOnPace {
				explained += c.Chance * c.DaysCost
			}
		}
		if late := r.DelayDays.P50; late != nil && *late >= 5 && explained < *late/2 {
			return " What is named here explains only a part of that; for the rest no fault shows in what you told, and some tanks simply begin with few bacteria."
		}
		return ""
	}
	text := " No fault shows in what you told: some tanks simply begin with few bacteria."
	if r.DoneDay.P50 != nil && *r.DoneDay.P50 > r.Day {
		text += r.wait()
	}
	return text
}

// wait says until when, and what to look for meanwhile.
func (r Why) wait() string {
	return fmt.Sprintf(" It will most likely be done around day %s (%s)%s", number(r.dayAt(*r.DoneDay.P50), 0), longDate(*r.DoneDate.P50), r.patience())
}

// heldUp says whether a tank that is not slow has a cause that is likely and
// costs it time.
func (r Why) heldUp() bool {
	for _, c := range r.told() {
		if c.Chance >= 0.5 && c.DaysCost >= 2 {
			return true
		}
	}
	return false
}

// patience says what the end of a stage looks like.
func (r Why) patience() string {
	if slices.ContainsFunc(r.Causes, func(c Cause) bool { return c.Cause == "plants-take-up" && c.Chance > 0.5 }) {
		return "; go on testing, and do not wonder if little shows where plants take the ammonia."
	}
	switch {
	case r.Again:
		return "; wait, and look for ammonia and nitrite that fall again."
	}
	switch r.Stage {
	case "ammonia":
		if r.Shows {
			return "; wait, and look first for ammonia that falls to nothing."
		}
		return "; wait, and look first for ammonia that falls and nitrite that shows."
	case "nitrite":
		return "; wait, and look for nitrite that falls to nothing. The nitrite stage takes its time."
	case "proving":
		if r.Animals {
			return "; wait, and look for no ammonia and no nitrite day after day."
		}
		return "; wait, and look for no ammonia and no nitrite a day after a full dose."
	}
	return "."
}

// delay says how far behind it is.
func (r Why) delay() string {
	d := r.DelayDays
	switch {
	case d.P50 == nil:
		return fmt.Sprintf(", and as things are it will hardly be done within %d days of the start", r.Horizon)
	case *d.P50 < 0.5:
		return ""
	case d.P10 == nil || d.P90 == nil:
		return fmt.Sprintf(", about %s days behind the same tank without a fault", number(*d.P50, 0))
	}
	return fmt.Sprintf(", about %s days (%s to %s) behind the same tank without a fault", number(*d.P50, 0), number(max(0, *d.P10), 0), number(*d.P90, 0))
}

func costWords(days float64) string {
	if days < 0.95 {
		return "less than a day"
	}
	return "about " + daysText(rounded(days, 0))
}

// sentence ends a text with a full stop and begins it with a capital.
func sentence(s string) string {
	first, width := utf8.DecodeRuneInString(s)
	if s == "" || first == utf8.RuneError {
		return s
	}
	if !strings.HasPrefix(s, "pH") {
		s = string(unicode.ToUpper(first)) + s[width:]
	}
	if strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// causeWords is a cause in words.
func causeWords(name string) string {
	switch name {
	case "acidic-water":
		return "Acidic water"
	case "low-alkalinity":
		return "Too little carbonate hardness"
	case "cold-water":
		return "Cold water"
	case "hot-water":
		return "Water too hot"
	case "low-oxygen":
		return "Too little oxygen"
	case "chlorine":
		return "Chlorine in new water"
	case "ammonia-overdose":
		return "Too much ammonia"
	case "no-ammonia-source":
		return "No food for the bacteria"
	case "little-surface":
		return "Too little surface for bacteria"
	case "medication":
		return "Medicine"
	case "filter-interrupted":
		return "The filter stood still"
	case "media-washed":
		return "Filter media washed or replaced"
	case "mismatched-seed":
		return "Seed from unlike water"
	case "plants-take-up":
		return "Plants take the ammonia up"
	case "test-artefact":
		return "The test shows something else"
	case "low-phosphate":
		return "Too little phosphate"
	case "nitrite-backlog":
		return "Nitrite piled up"
	}
	return sentence(strings.ReplaceAll(name, "-", " "))
}
