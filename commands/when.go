package commands

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"ripen/engine/unit"
)

// daysSince counts days from start to t.
func daysSince(start, t time.Time) unit.Days { return unit.Days(t.Sub(start).Hours() / 24) }

// dayNumber is the day of a tank as people count it: calendar days (UTC) since
// the date of its start.
func dayNumber(start, t time.Time) float64 {
	return math.Round(float64(daysSince(midnight(start.UTC()), midnight(t.UTC()))))
}

// dateOf returns the moment of a day that counts from start.
func dateOf(start time.Time, d float64) time.Time {
	return start.Add(time.Duration(d * 24 * float64(time.Hour)))
}

// earliest is the first moment that a tank can have been started.
var earliest = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

var (
	dayForm  = regexp.MustCompile(`^(?:day|d)?\s*([0-9]{1,4}(?:\.[0-9]{1,3})?)$`)
	agoForm  = regexp.MustCompile(`^([0-9]{1,4}|half an|an?|one|two|three|four|five|six|a couple of|a couple) (minute|min|hour|hr|day|week|wk)s? ago$`)
	inForm   = regexp.MustCompile(`^in ([0-9]{1,4}|a|one) (day|week)s?$`)
	dateForm = regexp.MustCompile(`^[0-9]{4}-[0-9]{1,2}-[0-9]{1,2}$`)
)

// clockForms are the exact times that are understood; without a zone they are UTC.
var clockForms = []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05"}

const whenExample = "2026-03-01, 2026-03-01 09:00, day 12, yesterday or 2 days ago"

// moment is a time as told: an exact one, or a day of which the hour was not told.
type moment struct {
	t       time.Time
	wholeOf bool // only the day was told
	anyYear bool // the year was not told; t is in this year
	clock   bool // a time of day was told
}

// readMoment reads a time. A day since start needs a start; zero if there is
// none yet. The hour of a day that came alone is noon UTC.
func readMoment(option, typed string, now, start time.Time) (moment, *Error) {
	s := strings.ToLower(strings.Join(strings.Fields(typed), " "))
	for _, form := range clockForms {
		if t, err := time.Parse(form, strings.ToUpper(s)); err == nil {
			return moment{t: t.UTC(), clock: true}, nil
		}
	}
	now = now.UTC()
	if isStart(s) && !start.IsZero() {
		return moment{t: start.UTC()}, nil
	}
	switch s {
	case "now":
		return moment{t: now}, nil
	case "today":
		return moment{t: noon(now), wholeOf: true}, nil
	case "yesterday":
		return moment{t: noon(now.AddDate(0, 0, -1)), wholeOf: true}, nil
	case "tomorrow":
		return moment{t: noon(now.AddDate(0, 0, 1)), wholeOf: true}, nil
	}
	if dateForm.MatchString(s) {
		t, err := time.Parse("2006-1-2", s)
		if err != nil {
			return moment{}, noSuchDay(option, typed)
		}
		return moment{t: noon(t), wholeOf: true}, nil
	}
	if m := agoForm.FindStringSubmatch(s); m != nil {
		if m[1] == "half an" {
			if m[2] != "hour" {
				return moment{}, noTime(option, typed)
			}
			return ago(now, -30, "minute"), nil
		}
		return ago(now, -count(m[1]), m[2]), nil
	}
	if m := inForm.FindStringSubmatch(s); m != nil {
		return ago(now, count(m[1]), m[2]), nil
	}
	if m := dayForm.FindStringSubmatch(s); m != nil {
		if start.IsZero() {
			return moment{}, refuse(CodeTime, option, "%s %s counts from a start that is not known yet; write a date, as 2026-03-01", option, quote(typed))
		}
		d, _ := strconv.ParseFloat(m[1], 64)
		return moment{t: dateOf(start, d).Truncate(time.Second), wholeOf: !strings.Contains(m[1], ".")}, nil
	}
	if m, ok, err := saidMoment(option, typed, s, now, start); ok || err != nil {
		return m, err
	}
	return moment{}, noTime(option, typed)
}

func noTime(option, typed string) *Error {
	return refuse(CodeTime, option, "%s %s is not a time that can be read; write it as %s (times are UTC)", option, quote(typed), whenExample)
}

func noSuchDay(option, typed string) *Error {
	return refuse(CodeTime, option, "%s %s is no day of the calendar; write it as %s", option, quote(typed), whenExample)
}

// past brings a date without its year to the last year in which it has been.
func (m moment) past(now time.Time) moment {
	if m.anyYear && midnight(m.t).After(now) {
		m.t = m.t.AddDate(-1, 0, 0)
	}
	return m
}

// isStart says whether a typed time is the tank's start.
func isStart(typed string) bool {
	return slices.Contains([]string{"start", "the start", "day 0", "0"}, strings.ToLower(strings.TrimSpace(typed)))
}

func noon(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 12, 0, 0, 0, time.UTC)
}

func midnight(t time.Time) time.Time { return noon(t).Add(-12 * time.Hour) }

func sameDay(a, b time.Time) bool { return midnight(a.UTC()).Equal(midnight(b.UTC())) }

func count(s string) int {
	if n, err := strconv.Atoi(s); err == nil {
		return n
	}
	return max(1, map[string]int{"two": 2, "a couple": 2, "a couple of": 2, "three": 3, "four": 4, "five": 5, "six": 6}[s]) // else "a", "an", "one"
}

func ago(now time.Time, n int, unit string) moment {
	switch unit {
	case "minute", "min":
		return moment{t: now.Add(time.Duration(n) * time.Minute)}
	case "hour", "hr":
		return moment{t: now.Add(time.Duration(n) * time.Hour)}
	case "week", "wk":
		n *= 7
	}
	return moment{t: noon(now.AddDate(0, 0, n)), wholeOf: true}
}

// readAt reads when something happened to a tank. A day told without its hour
// means noon, or now if it is today, or the start if it is the start's own day.
// Times before the start and times to come are refused.
func readAt(option, typed string, now, start time.Time) (time.Time, *Error) {
	m, err := readMoment(option, typed, now, start)
	if err != nil {
		return time.Time{}, err
	}
	m = m.past(now)
	switch {
	case m.wholeOf && sameDay(m.t, now):
		m.t = now.UTC()
	case m.wholeOf && sameDay(m.t, start) && m.t.Before(start):
		m.t = start.UTC()
	}
	if m.t.After(now) {
		return time.Time{}, refuse(CodeTime, option, "%s %s is still to come; it is %s now; name a time that has been, as 2 hours ago, or leave it out for now",
			option, quote(typed), minute(now))
	}
	if m.t.Before(start) {
		return time.Time{}, refuse(CodeTime, option, "%s %s is before the tank's start on %s; name a later time, or correct the start with /tank edit started:%s",
			option, quote(typed), minute(start), m.t.Format("2006-01-02"))
	}
	return m.t, nil
}

// readStarted reads when a tank was started: a day without an hour means the
// beginning of that day, UTC.
func readStarted(typed string, now, start time.Time) (time.Time, *Error) {
	m, err := readMoment("started", typed, now, start)
	if err != nil {
		return time.Time{}, err
	}
	m = m.past(now)
	if m.wholeOf {
		m.t = midnight(m.t)
	}
	if m.t.After(now) {
		return time.Time{}, refuse(CodeTime, "started", "started %s is still to come; it is %s now; name a day that has been, or register the tank when it is filled",
			quote(typed), minute(now))
	}
	if m.t.Before(earliest) {
		return time.Time{}, refuse(CodeTime, "started", "started %s is before %s; check the year", quote(typed), earliest.Format("2006-01-02"))
	}
	return m.t, nil
}

// readDay reads a day to look forward to, in days since start. A date means the
// end of that day, UTC. Beyond the horizon of the outlook nothing can be said.
func readDay(option, typed string, now, start time.Time) (float64, *Error) {
	m, err := readMoment(option, typed, now, start)
	if err != nil {
		return 0, err
	}
	if m.anyYear && m.t.Before(start) {
		m.t = m.t.AddDate(1, 0, 0)
	}
	if m.wholeOf && !dayForm.MatchString(strings.ToLower(strings.TrimSpace(typed))) {
		m.t = midnight(m.t).Add(24*time.Hour - time.Second)
	}
	d := float64(daysSince(start, m.t))
	if d < 0 || d > horizonDays {
		return 0, refuse(CodeTime, option, "%s %s is outside what an outlook reaches: day 0 (%s) to day %d (%s)", option, quote(typed),
			start.UTC().Format("2006-01-02"), horizonDays, dateOf(start, horizonDays).Format("2006-01-02"))
	}
	return d, nil
}

// horizonDays is how far an outlook reaches, in days from the tank's start.
const horizonDays = 180
