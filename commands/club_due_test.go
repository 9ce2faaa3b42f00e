package commands

import (
	"fmt"
	"testing"
	"time"

	"ripen/store"
)

// In any zone, at any hour of three years, the last summary was due within the last week,
// on its day and hour by the club's own clocks, and each week has one.
func TestDueWeek(t *testing.T) {
	for _, s := range []store.Settings{
		{},
		{Day: "sunday", Time: "18:00", Zone: "Europe/Lisbon"},
		{Day: "sunday", Time: "01:30", Zone: "Europe/Lisbon"}, // left out in spring, twice in autumn
		{Day: "sunday", Time: "02:30", Zone: "America/New_York"},
		{Day: "saturday", Time: "23:45", Zone: "Asia/Kolkata"},
		{Day: "monday", Time: "00:00", Zone: "Pacific/Auckland"},
		{Day: "sunday", Time: "02:15", Zone: "Australia/Lord_Howe"}, // clocks move by half an hour
	} {
		view := settingsView(s)
		zone, err := time.LoadLocation(view.Zone)
		if err != nil {
			t.Fatal(err)
		}
		dueOf := map[string]time.Time{}
		var before time.Time
		for now := clock("2026-01-01T00:07:00Z"); now.Year() < 2029; now = now.Add(time.Hour) {
			name, at, err := DueWeek(s, now)
			if err != nil {
				t.Fatal(err)
			}
			if ago := now.Sub(at); ago < 0 || ago > 7*24*time.Hour+time.Hour {
				t.Fatalf("%+v: at %s it was due %s ago", view, now, ago)
			}
			local := at.In(zone)
			year, week := local.ISOWeek()
			if capital(view.Day) != local.Weekday().String() || name != fmt.Sprintf("%04d-W%02d", year, week) {
				t.Fatalf("%+v: due %s, as %s", view, local, name)
			}
			if local.Format("15:04") != view.Time && !leftOut(local, view.Time) {
				t.Fatalf("%+v: due %s", view, local)
			}
			if due, ok := dueOf[name]; ok && !due.Equal(at) {
				t.Fatalf("%+v: %s is due at %s and at %s", view, name, due, at)
			}
			if dueOf[name] = at; at.Before(before) {
				t.Fatalf("%+v: due %s after %s", view, at, before)
			}
			before = at
		}
		if n := len(dueOf); n < 156 || n > 158 {
			t.Errorf("%+v: %d weeks in three years", view, n)
		}
	}
	for _, bad := range []store.Settings{{Zone: "Mars/Olympus"}, {Time: "25:00"}} {
		if _, _, err := DueWeek(bad, clock("2026-01-01T00:00:00Z")); err == nil {
			t.Errorf("%+v is no error", bad)
		}
	}
}

// leftOut says whether the clocks of a day leave a time out.
func leftOut(day time.Time, at string) bool {
	start := time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, day.Location())
	for t := start; t.Day() == day.Day(); t = t.Add(time.Minute) {
		if t.Format("15:04") == at {
			return false
		}
	}
	return true
}
