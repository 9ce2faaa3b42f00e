package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripen/engine/outlook"
)

// Text says what to test when, animals first, then what that is good for and
// what may be left out.
func (r NextTest) Text() string {
	var lines []string
	if len(r.Always) > 0 && r.done() {
		lines = append(lines, fmt.Sprintf("Animals are in: go on testing %s each week, and daily for a week after new animals, a cleaning or a medicine.", list(labels(r.Always), "and")))
	} else if len(r.Always) > 0 {
		lines = append(lines, fmt.Sprintf("Animals are in: test %s every day, whatever stands below, and ask /safe. Never skip these.", list(labels(r.Always), "and")))
	}
	lines = append(lines, r.answer())
	if r.Best != nil && r.Against == "" && !r.done() {
		lines = append(lines, r.narrows(), r.Best.either())
	}
	lines = append(lines, r.skips(), r.unreadWords())
	if r.Crash != "" {
		how := "/amount what:buffer to:4dKH"
		if r.Animals {
			how = "/safe"
		}
		lines = append(lines, fmt.Sprintf("KH is used up (%s), and without it the cycle stands still: raise it first, %s says how, and test KH again after that.", strings.TrimPrefix(usedUpText(r.Crash, r.UsedUp), "KH "), how))
	} else if r.LowKH && !slices.Contains(r.Unread, "kh") {
		lines = append(lines, fmt.Sprintf("KH may run out within %d days, and then the cycle stops: keep an eye on it.", r.Days))
	}
	if r.Doses && !r.Animals && r.Stage != "ready" {
		lines = append(lines, "Before each dose test ammonia all the same, so that it does not pile up.")
	}
	if r.Fit == "poor" {
		lines = append(lines, "Some readings do not go with the rest, so test those again first; /outlook names them.")
	}
	lines = append(lines, r.Cautions...)
	var told []string
	for _, l := range lines {
		if l != "" {
			told = append(told, l)
		}
	}
	return strings.Join(told, "\n")
}

// answer is which test on which day.
func (r NextTest) answer() string {
	if r.Against != "" {
		return fmt.Sprintf("Test ammonia and nitrite again tomorrow: the last test shows %s, which should be clear by all before. If it shows the same, bacteria were lost, or more went in than was told.", r.Against)
	}
	if b := r.Best; b != nil && r.done() {
		return fmt.Sprintf("%s is most likely done already. To be sure, test %s on day %s (%s); it will likely show %s.", r.Tank, label(b.What), number(r.dayAt(b.Day), 0), weekday(b.Date), b.shows())
	}
	if b := r.Best; b != nil {
		return fmt.Sprintf("Test %s on day %s (%s); it will likely show %s.", label(b.What), number(r.dayAt(b.Day), 0), weekday(b.Date), b.shows())
	}
	switch {
	case r.Stage == "ready":
		return fmt.Sprintf("%s is most likely done, and no test in the next %d days would tell more about that.", r.Tank, r.Days)
	case r.NotWithin >= 50:
		return fmt.Sprintf("No single test in the next %d days would tell much about when %s is done, as it will hardly be done within %d days of its start. Ask /why what holds it up.",
			r.Days, r.Tank, r.Horizon)
	}
	return fmt.Sprintf("No single test in the next %d days would tell much about when %s is done. Go on as before.", r.Days, r.Tank)
}

// done says whether the tank is ready and hardly any doubt of that is left to narrow.
func (r NextTest) done() bool {
	return r.Stage == "ready" && r.Done.P50 != nil && *r.Done.P50 <= r.Now
}

// weekday prints 2026-03-13 as Friday 13 March.
func weekday(s string) string {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return s
	}
	return t.Format("Monday 2 January")
}

// shows is what a test will likely show.
func (x TestAhead) shows() string {
	high := x.figure(x.High)
	if x.Over {
		high += "+"
	}
	if low := x.figure(x.Low); low != x.figure(x.High) {
		return x.before() + low + " to " + high + x.Unit
	}
	return x.before() + high + x.Unit
}

func (x TestAhead) figure(v float64) string { return number(v, 2) }

// before is what stands before a figure that has no unit.
func (x TestAhead) before() string {
	if x.Unit == "" {
		return label(x.What) + " "
	}
	return ""
}

// narrows says how much the test narrows the window of the done day.
func (r NextTest) narrows() string {
	before, after := r.window(r.Done), r.window(r.Best.After)
	if before == after || !narrower(r.Best.After, r.Done) {
		return fmt.Sprintf("The day it is done lies anywhere from %s (eight chances in ten); on average this test narrows that little.", before)
	}
	return fmt.Sprintf("On average that narrows the day it is done from %s down to about %s (eight chances in ten).", before, after)
}

// narrower says whether a is at least a day and a part in twenty narrower than b.
func narrower(a, b outlook.Quantiles) bool {
	switch {
	case a.P10 == nil || b.P10 == nil || a.P90 == nil:
		return false
	case b.P90 == nil:
		return true
	}
	return *a.P90-*a.P10 <= min(*b.P90-*b.P10-1, 0.95*(*b.P90-*b.P10))
}

// window is "day 18 to 40".
func (r NextTest) window(q outlook.Quantiles) string {
	late := fmt.Sprintf("later than day %d", r.Horizon)
	if q.P10 == nil {
		return late
	}
	from := "day " + number(*q.P10, 0)
	if *q.P10 <= r.Now {
		from = "now"
	}
	switch {
	case q.P90 == nil:
		return from + " to " + late
	case *q.P90 <= r.Now:
		return "now"
	case from == "now":
		return from + " to day " + number(*q.P90, 0)
	}
	return from + " to " + number(*q.P90, 0)
}

// either says what little and what much would mean.
func (x TestAhead) either() string {
	if len(x.If) < 2 || x.If[0].Done.P50 == nil {
		return ""
	}
	less, more := x.If[0], x.If[1]
	much := x.figure(more.Step) + " or more"
	if more.Open {
		much = x.figure(more.Step) + "+"
	}
	little := x.figure(less.Step) + " or less"
	if less.Step == 0 {
		little = "0"
	}
	if x.Unit == "" {
		little, much = "pH "+little, "pH "+much
	}
	return fmt.Sprintf("If it shows %s (%s %%), it is most likely done %s; if %s, %s.",
		little, number(less.Percent, 0), around(less.Done), much, around(more.Done))
}

// around is "around day 17 (15 to 24)".
func around(q outlook.Quantiles) string {
	if q.P50 == nil {
		return "much later or not at all"
	}
	if q.P10 == nil || q.P90 == nil {
		return "around day " + number(*q.P50, 0) + ", or much later"
	}
	if number(*q.P10, 0) == number(*q.P90, 0) {
		return "around day " + number(*q.P50, 0)
	}
	return fmt.Sprintf("around day %s (%s to %s)", number(*q.P50, 0), number(*q.P10, 0), number(*q.P90, 0))
}

// skips says what may be left out today.
func (r NextTest) skips() string {
	if len(r.Skip) == 0 {
		return ""
	}
	if len(r.Skip) == len(r.Today) {
		return "You may skip all tests today: none would say more about that day."
	}
	return fmt.Sprintf("You may skip %s today: %s about that day.", list(labels(r.Skip), "and"), tellsLittle(len(r.Skip)))
}

func tellsLittle(n int) string {
	if n == 1 {
		return "it says little"
	}
	return "they say little"
}

// unreadWords asks for a pH and a hardness that nobody told or read.
func (r NextTest) unreadWords() string {
	if len(r.Unread) == 0 {
		return ""
	}
	what := list(labels(r.Unread), "and")
	if len(r.Unread) > 1 {
		return sentence(what + " were never told or tested. KH matters: bacteria use it up and it holds the pH, and when it is gone the cycle stops. Test both once, today")
	}
	if r.Unread[0] == "ph" {
		return "pH was never told or tested. It decides how fast bacteria grow, so test it once, today."
	}
	return "KH was never told or tested. It matters: bacteria use it up and it holds the pH, and when it is gone the cycle stops. Test it once, today."
}
