package commands

import (
	"regexp"
	"strconv"
	"testing"
	"time"
)

// dayWithDate is a day that a reply tells with its date.
var dayWithDate = regexp.MustCompile(`[Dd]ay (\d+)(?:, that is | \()(?:[A-Z][a-z]+day )?(\d+ [A-Z][a-z]+)`)

// TestDaysMatchDates: whatever the hour of the start, a day told with a date is the one that
// the date has in every other reply.
func TestDaysMatchDates(t *testing.T) {
	for _, start := range []string{"2026-03-01T00:00:00Z", "2026-03-01T09:00:00Z", "2026-03-01T20:00:00Z", "2026-03-01T23:59:00Z"} {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		must(t, b, start, "/tank new name:w volume:60L ph:7.4")
		must(t, b, "2026-03-02T12:00:00Z", "/reading ammonia:1 nitrite:0")
		pairs := 0
		for _, line := range []string{
			"/outlook on:2026-03-28", "/outlook on:yesterday", `/outlook on:"day 12"`, "/why", "/next-test", "/share", "/chart", "/stock grams:10",
			"/reading ammonia:0.5", "/log what:feed amount:0.1g at:yesterday",
		} {
			reply := must(t, b, "2026-03-10T21:30:00Z", line)
			checkReply(t, line, reply)
			for _, m := range dayWithDate.FindAllStringSubmatch(reply.Text, -1) {
				pairs++
				date, err := time.Parse("2 January 2006", m[2]+" 2026")
				if err != nil {
					t.Fatal(err)
				}
				if want := strconv.Itoa(int(dayNumber(clock(start), date))); m[1] != want {
					t.Errorf("started %s, %s: %q, but that date is day %s", start, line, m[0], want)
				}
			}
		}
		if pairs < 8 {
			t.Errorf("started %s: %d days with dates found", start, pairs)
		}
	}
}
