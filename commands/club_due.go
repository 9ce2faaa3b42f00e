package commands

import (
	"fmt"
	"slices"
	"time"

	"ripen/store"
)

// DueWeek returns the last moment up to now at which a club's weekly summary was due, and
// the name of its week, "2026-W10" (ISO 8601). The hour is the club's own, whatever its
// clocks do; where they leave it out it is the nearest that there is. A week has one name
// and so one summary, however often the settings change in it.
func DueWeek(s store.Settings, now time.Time) (week string, at time.Time, err error) {
	view := settingsView(s)
	zone, err := time.LoadLocation(view.Zone)
	if err != nil {
		return "", at, fmt.Errorf("the club's time zone %q is not known: %w", view.Zone, err)
	}
	clock, err := time.Parse("15:04", view.Time)
	if err != nil {
		return "", at, fmt.Errorf("the club's time of day %q cannot be read: %w", view.Time, err)
	}
	local := now.In(zone)
	back := (int(local.Weekday()) + 6 - slices.Index(weekdays, view.Day)) % 7 // days since that day
	for at = now.Add(1); at.After(now); back += 7 {
		at = time.Date(local.Year(), local.Month(), local.Day()-back, clock.Hour(), clock.Minute(), 0, 0, zone)
	}
	year, number := at.ISOWeek()
	return fmt.Sprintf("%04d-W%02d", year, number), at.UTC(), nil
}

// WeekUnknown is the trouble of a summary where the program ended, or the line broke, in
// the middle of posting, and too much time has passed to try again.
const WeekUnknown = "it is not known whether it arrived; look into the channel, and post /club week by hand if it is not there"

// reschedule takes notice of new settings: a summary that was due before they were made
// is not posted for them. One of this week that surely was not posted is tried again when
// its channel is named, be it the same, or it is turned on.
func (c *call) reschedule(was, is store.Settings) error {
	if !is.Digest {
		return nil
	}
	name, _, err := DueWeek(is, c.At)
	if err != nil {
		return err
	}
	week, err := c.book.store.Week(c.ctx, c.Club, name)
	switch {
	case err != nil:
		return err
	case week.Trouble != "" && week.Trouble != WeekUnknown && (c.has("channel") || c.has("digest")):
		return c.book.store.DropWeek(c.ctx, c.Club, name)
	case was.Digest && was.Day == is.Day && was.Time == is.Time && was.Zone == is.Zone:
		return nil
	}
	_, err = c.book.store.SetWeek(c.ctx, store.Week{Club: c.Club, Name: name, Claimed: c.At, Ended: c.At}) // unless it is kept already
	return err
}

// WeekPosted is how the last weekly summary went.
type WeekPosted struct {
	Week    string `json:"week"`
	Posted  bool   `json:"posted"`
	Date    string `json:"date"` // in the club's zone
	Trouble string `json:"trouble,omitempty"`
}

// lastWeek says how the last summary went; nil if there was none, or it is on its way.
func (c *call) lastWeek(s store.Settings) (*WeekPosted, error) {
	w, err := c.book.store.LastWeek(c.ctx, c.Club)
	if err != nil || w.Ended.IsZero() || w.Sent.IsZero() && w.Trouble == "" {
		return nil, err
	}
	zone, err := time.LoadLocation(settingsView(s).Zone)
	if err != nil {
		zone = time.UTC
	}
	return &WeekPosted{Week: w.Name, Posted: w.Trouble == "", Date: dateIn(w.Ended, zone), Trouble: w.Trouble}, nil
}

// sentence says how it went.
func (w WeekPosted) sentence() string {
	if w.Posted {
		return "last summary posted on " + shortDate(w.Date)
	}
	return "the weekly summary of " + shortDate(w.Date) + " was not posted: " + w.Trouble
}
