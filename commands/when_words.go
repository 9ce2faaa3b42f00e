package commands

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Times as people say them: "yesterday 8pm", "last monday", "11 March", "this
// morning". What can be read two ways is asked about.

var (
	clockTail = regexp.MustCompile(`^(.*?)[ ,]*(?:(?:at|@) )?\b([0-9]{1,2})(?::([0-9]{2}))? ?(am|pm|)$`)
	partTail  = regexp.MustCompile(`^(.*?) ?(morning|afternoon|evening|night|tonight|noon|midday)$`)
	dayMonth  = regexp.MustCompile(`^([0-9]{1,2})(?:st|nd|rd|th)?[ -](?:of )?([a-z]{3,9})\.?(?:[ ,-]+([0-9]{4}))?$`)
	monthDay  = regexp.MustCompile(`^([a-z]{3,9})\.?[ -]([0-9]{1,2})(?:st|nd|rd|th)?(?:[ ,-]+([0-9]{4}))?$`)
	dotted    = regexp.MustCompile(`^([0-9]{1,2})\.([0-9]{1,2})\.([0-9]{4}|[0-9]{2})?$`)
	slashed   = regexp.MustCompile(`^([0-9]{1,2})[/-]([0-9]{1,2})(?:[/-]([0-9]{4}|[0-9]{2}))?$`)
	clockHead = regexp.MustCompile(`^((?:[0-9]{1,2}:[0-9]{2}|[0-9]{1,2}) ?(?:am|pm)|[0-9]{1,2}:[0-9]{2})(?: on)? ([a-z].*)$`)
	yearFirst = regexp.MustCompile(`^([0-9]{4})[/.]([0-9]{1,2})[/.]([0-9]{1,2})$`)
)

// partHours are the hours, UTC, that parts of a day stand for.
var partHours = map[string]int{"morning": 8, "noon": 12, "midday": 12, "afternoon": 15, "evening": 20, "night": 21, "tonight": 20}

// saidMoment reads what readMoment does not: a day with an hour or a part of it,
// or a day in words. ok is false if it is none of these.
func saidMoment(option, typed, s string, now, start time.Time) (m moment, ok bool, err *Error) {
	if d, ok, err := saidDay(option, typed, s, now); ok || err != nil {
		return d, ok, err
	}
	if c := clockHead.FindStringSubmatch(s); c != nil { // "9:30 am yesterday"
		s = c[2] + " " + c[1]
	}
	hour, minute, rest := 0, 0, ""
	if c := clockTail.FindStringSubmatch(s); c != nil && (c[3] != "" || c[4] != "") {
		hour, _ = strconv.Atoi(c[2])
		minute, _ = strconv.Atoi(c[3])
		rest = c[1]
		if c[4] != "" && (hour < 1 || hour > 12) || hour > 23 || minute > 59 {
			return moment{}, false, nil
		}
		if c[4] != "" {
			hour %= 12
		}
		if c[4] == "pm" {
			hour += 12
		}
	} else if c := partTail.FindStringSubmatch(s); c != nil {
		hour, rest = partHours[c[2]], c[1]
		switch rest {
		case "this", "in the", "today":
			rest = ""
		case "last":
			rest = "yesterday"
		}
		if rest == "" {
			m = moment{t: onClock(now, hour, 0), clock: true}
			if m.t.After(now) {
				m = moment{t: now} // "this evening", said early
			}
			return m, true, nil
		}
	} else {
		return moment{}, false, nil
	}
	m = moment{t: noon(now), wholeOf: true}
	if rest != "" {
		if m, err = readMoment(option, rest, now, start); err != nil || !m.wholeOf {
			return moment{}, false, nil
		}
	}
	return moment{t: onClock(m.t, hour, minute), anyYear: m.anyYear, clock: true}, true, nil
}

// onClock is an hour of the day of t.
func onClock(t time.Time, hour, minute int) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, hour, minute, 0, 0, time.UTC)
}

// saidDay reads a day in words or in the forms of other countries.
func saidDay(option, typed, s string, now time.Time) (moment, bool, *Error) {
	if s == "day before yesterday" || s == "the day before yesterday" {
		return moment{t: noon(now.AddDate(0, 0, -2)), wholeOf: true}, true, nil
	}
	if m, ok := saidWeekday(s, now); ok {
		return m, true, nil
	}
	var d, mon, y string
	switch {
	case yearFirst.MatchString(s):
		c := yearFirst.FindStringSubmatch(s)
		y, mon, d = c[1], c[2], c[3]
	case dotted.MatchString(s):
		c := dotted.FindStringSubmatch(s)
		d, mon, y = c[1], c[2], c[3]
	case slashed.MatchString(s):
		c := slashed.FindStringSubmatch(s)
		d, mon, y = c[1], c[2], c[3]
		first, _ := strconv.Atoi(d)
		second, _ := strconv.Atoi(mon)
		if first <= 12 && second <= 12 && first != second {
			year := y
			if year = fullYear(y); year == "" {
				year = strconv.Itoa(now.Year())
			}
			return moment{}, false, refuse(CodeTime, option, "%s %s could be %s-%02d-%02d or %s-%02d-%02d; write the one that you mean", option, quote(typed), year, first, second, year, second, first)
		}
		if second > 12 {
			d, mon = mon, d
		}
	case dayMonth.MatchString(s):
		c := dayMonth.FindStringSubmatch(s)
		d, mon, y = c[1], monthNumber(c[2]), c[3]
	case monthDay.MatchString(s):
		c := monthDay.FindStringSubmatch(s)
		mon, d, y = monthNumber(c[1]), c[2], c[3]
	}
	if d == "" || mon == "" {
		return moment{}, false, nil
	}
	any := y == ""
	if y = fullYear(y); any {
		y = strconv.Itoa(now.Year())
	}
	t, err := time.Parse("2006-1-2", fmt.Sprintf("%s-%s-%s", y, strings.TrimLeft(mon, "0"), strings.TrimLeft(d, "0")))
	if err != nil {
		return moment{}, false, noSuchDay(option, typed)
	}
	return moment{t: noon(t), wholeOf: true, anyYear: any}, true, nil
}

// fullYear makes 26 to 2026.
func fullYear(y string) string {
	if len(y) == 2 {
		return "20" + y
	}
	return y
}

// monthNumber is the number of a month's name or its first letters, "" if it is
// none.
func monthNumber(name string) string {
	for m := time.January; m <= time.December; m++ {
		if full := strings.ToLower(m.String()); strings.HasPrefix(full, name) || name == "sept" && m == time.September {
			return strconv.Itoa(int(m))
		}
	}
	return ""
}

// saidWeekday reads "monday", "last mon": the last such day up to today, with
// "last" before today.
func saidWeekday(s string, now time.Time) (moment, bool) {
	name, last := strings.CutPrefix(strings.TrimPrefix(s, "on "), "last ")
	if len(name) < 3 {
		return moment{}, false
	}
	for back := range 8 {
		t := now.AddDate(0, 0, -back)
		if strings.HasPrefix(strings.ToLower(t.Weekday().String()), name) && (back > 0 || !last) {
			return moment{t: noon(t), wholeOf: true}, true
		}
	}
	return moment{}, false
}
