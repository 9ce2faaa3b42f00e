package commands

import (
	"fmt"
	"slices"
	"time"

	"ripen/commands/post"
	"ripen/store"
)

// dateOfPost returns when the readings of a post were taken that stand under a
// date or weekday: the last such day up to when it was written. A day on which
// the tank did not run, as undated, is told and not used; one that can be read two
// ways is doubtful.
func (c *call) dateOfPost(t store.Tank, written time.Time, d *post.Date) (at time.Time, undated string, doubt *Snippet) {
	if d == nil {
		return written, "", nil
	}
	var days []time.Time
	for _, day := range datesOf(*d, written) {
		if !midnight(day).Before(midnight(t.Started.UTC())) && !midnight(day).After(written) {
			days = append(days, day)
		}
	}
	switch {
	case len(days) == 0:
		return written, d.Name, nil
	case slices.ContainsFunc(days, func(day time.Time) bool { return sameDay(day, written) }):
		return written, "", nil
	case len(days) > 1:
		return written, "", &Snippet{d.Name, fmt.Sprintf("it can be %s or %s; write the day as %s", day(days[0]), day(days[1]), days[0].Format("2006-01-02"))}
	}
	at, err := readAt("day", days[0].Format("2006-01-02"), written, t.Started)
	if err != nil {
		return written, d.Name, nil
	}
	return at, "", nil
}

// datesOf lists the days that a date can mean, each the last one up to a time.
func datesOf(d post.Date, until time.Time) (days []time.Time) {
	if d.IsWeekday {
		back := (int(until.Weekday()) - int(d.Weekday) + 7) % 7
		return []time.Time{noon(until.AddDate(0, 0, -back))}
	}
	ways := [][2]int{{d.Month, d.Day}}
	if d.Other {
		ways = append(ways, [2]int{d.Day, d.Month})
	}
	for _, w := range ways {
		year := d.Year
		if year == 0 {
			year = until.Year()
			if time.Date(year, time.Month(w[0]), w[1], 0, 0, 0, 0, time.UTC).After(until) {
				year--
			}
		}
		if day := time.Date(year, time.Month(w[0]), w[1], 12, 0, 0, 0, time.UTC); int(day.Month()) == w[0] {
			days = append(days, day)
		}
	}
	return days
}
