package commands

import (
	"strings"
	"testing"
	"time"
)

func TestReadAt(t *testing.T) {
	start, now := clock("2026-03-01T15:00:00Z"), clock("2026-03-13T09:00:00Z")
	tests := []struct{ typed, want, reason string }{
		{"2026-03-05T08:30:00Z", "2026-03-05T08:30:00Z", "RFC 3339"},
		{"2026-03-05T08:30:00+02:00", "2026-03-05T06:30:00Z", "RFC 3339 with a zone"},
		{"2026-03-05 08:30", "2026-03-05T08:30:00Z", "no zone is UTC"},
		{"2026-03-05t8:30", "2026-03-05T08:30:00Z", "an hour of one digit"},
		{"2026-03-05", "2026-03-05T12:00:00Z", "a day alone is its noon"},
		{"2026-3-5", "2026-03-05T12:00:00Z", "no leading zeros"},
		{"2026-03-13", "2026-03-13T09:00:00Z", "today is now"},
		{"today", "2026-03-13T09:00:00Z", "today is now"},
		{"now", "2026-03-13T09:00:00Z", "now"},
		{"yesterday", "2026-03-12T12:00:00Z", "noon of the day"},
		{"2 days ago", "2026-03-11T12:00:00Z", "noon of the day"},
		{"a week ago", "2026-03-06T12:00:00Z", "noon of the day"},
		{"3 hours ago", "2026-03-13T06:00:00Z", "exact"},
		{"day 4", "2026-03-05T15:00:00Z", "days since the start"},
		{"4", "2026-03-05T15:00:00Z", "a bare number is a day"},
		{"DAY 4.5", "2026-03-06T03:00:00Z", "part of a day"},
		{"day 12", "2026-03-13T09:00:00Z", "12 days since the start are still to come, but the day is today"},
		{"day 0", "2026-03-01T15:00:00Z", "the start"},
		{"start", "2026-03-01T15:00:00Z", "the start"},
		{"2026-03-01", "2026-03-01T15:00:00Z", "noon of the first day is before the start; the day is meant"},
		{"2026-02-28", "", "before the start"},
		{"2026-03-01 14:59", "", "before the start, and exact"},
		{"30 days ago", "", "before the start"},
		{"2026-03-14", "", "to come"},
		{"2026-03-13 09:01", "", "to come"},
		{"tomorrow", "", "to come"},
		{"in 2 days", "", "to come"},
		{"day 13", "", "to come"},
		{"9999 weeks ago", "", "before the start"},
		{"2026-02-30", "", "no such day"},
		{"2026-13-01", "", "no such month"},
		{"3/1/2026", "", "day or month first?"},
		{"", "", "nothing"},
		{"soon", "", "no time"},
		{"day -1", "", "no day"},
	}
	for _, tt := range tests {
		got, err := readAt("at", tt.typed, now, start)
		switch {
		case tt.want == "" && err == nil:
			t.Errorf("%q = %v, want a refusal: %s", tt.typed, got, tt.reason)
		case tt.want == "" && err.Code != CodeTime:
			t.Errorf("%q: code %q, want %q: %s", tt.typed, err.Code, CodeTime, tt.reason)
		case tt.want != "" && err != nil:
			t.Errorf("%q: %v: %s", tt.typed, err, tt.reason)
		case tt.want != "" && !got.Equal(clock(tt.want)):
			t.Errorf("%q = %v, want %v: %s", tt.typed, got, tt.want, tt.reason)
		}
	}
}

func TestReadStarted(t *testing.T) {
	now := clock("2026-03-13T09:00:00Z")
	tests := []struct{ typed, want, reason string }{
		{"2026-03-05", "2026-03-05T00:00:00Z", "a day begins at midnight"},
		{"today", "2026-03-13T00:00:00Z", "today too"},
		{"2026-03-05 18:00", "2026-03-05T18:00:00Z", "exact"},
		{"3 weeks ago", "2026-02-20T00:00:00Z", "a day begins at midnight"},
		{"day 3", "", "there is nothing to count from"},
		{"2026-03-14", "", "to come"},
		{"1999-12-31", "", "too long ago"},
	}
	for _, tt := range tests {
		got, err := readStarted(tt.typed, now, time.Time{})
		if (err != nil) != (tt.want == "") || err == nil && !got.Equal(clock(tt.want)) {
			t.Errorf("%q = %v, %v, want %q: %s", tt.typed, got, err, tt.want, tt.reason)
		}
	}
}

func TestReadDay(t *testing.T) {
	start, now := clock("2026-03-01T00:00:00Z"), clock("2026-03-13T09:00:00Z")
	tests := []struct {
		typed  string
		want   float64 // -1 for a refusal
		reason string
	}{
		{"30", 30, "a day since the start"},
		{"day 30", 30, "a day since the start"},
		{"2026-03-31", 31, "the end of the date"},
		{"in 10 days", 23, "the end of the date"},
		{"day 180", 180, "the horizon"},
		{"day 181", -1, "past the horizon"},
		{"2025-03-01", -1, "before the start"},
	}
	for _, tt := range tests {
		got, err := readDay("on", tt.typed, now, start)
		if (err != nil) != (tt.want < 0) || err == nil && (got > tt.want || got < tt.want-0.001) {
			t.Errorf("%q = %v, %v, want %v: %s", tt.typed, got, err, tt.want, tt.reason)
		}
	}
}

func TestDayNumber(t *testing.T) {
	start := clock("2026-03-01T20:00:00Z")
	for at, want := range map[string]float64{
		"2026-03-01T23:59:00Z": 0, "2026-03-02T00:01:00Z": 1, "2026-03-05T09:00:00Z": 4, "2026-03-05T21:00:00Z": 4,
	} {
		if got := dayNumber(start, clock(at)); got != want {
			t.Errorf("%s is day %v, want %v", at, got, want)
		}
	}
}

// TestClockIsUTC holds that a time of day that was told, or that a refusal names, stands
// with its zone, and that a day told alone has no time of day.
func TestClockIsUTC(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:w volume:60L")
	for _, c := range []struct{ line, want, not string }{
		{`/reading ammonia:1 at:"yesterday 23:00"`, "(8 March 2026, 23:00 UTC)", ""},
		{`/log what:dose amount:1ppm at:"2026-03-09T00:30:00+02:00"`, "(8 March 2026, 22:30 UTC)", ""},
		{`/tank edit ph:7 at:"9 March 3am"`, "(9 March 2026, 03:00 UTC)", ""},
		{`/reading ammonia:2 at:"this morning"`, "(9 March 2026):", "UTC"}, // said before it: now
		{`/reading ammonia:1 at:yesterday`, "(8 March 2026):", ":00"},
		{`/reading ammonia:1 at:"2 hours ago"`, "(9 March 2026):", "UTC"},
		{`/reading ammonia:1`, "(9 March 2026):", "UTC"},
		{`/reading ammonia:1 at:22:00`, "it is 2026-03-09 04:00 UTC now", ""},
		{`/reading ammonia:1 at:"1 March 8am"`, "start on 2026-03-01 09:00 UTC;", ""},
		{`/tank edit started:today`, "first entry of \"w\" (2026-03-08 12:00 UTC)", ""},
		{`/help reading`, "when it was, in UTC:", ""},
	} {
		text := tell(t, b, "2026-03-09T04:00:00Z", c.line).Text
		if !strings.Contains(text, c.want) || c.not != "" && strings.Contains(text, c.not) {
			t.Errorf("%s: %s\nwant %q, not %q", c.line, text, c.want, c.not)
		}
	}
}
