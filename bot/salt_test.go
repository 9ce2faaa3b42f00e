package main

import (
	"math"
	"strings"
	"testing"
)

// TestSaltTank: a tank at sea salinity is foretold like any other, with a wider spread
// than the same tank in fresh water, and the reply says how little is known there.
func TestSaltTank(t *testing.T) {
	const told = "2026-03-01T09:00:00Z @tern /tank new name:reef volume:100L ph:8.1 kh:7dKH temp:26C media:ceramic media-volume:1L SALT\n" +
		"2026-03-01T10:00:00Z @tern /log what:dose amount:2ppm\n" +
		"2026-03-05T09:00:00Z @tern /reading ammonia:2 nitrite:0.25 nitrate:0\n" +
		"2026-03-12T09:00:00Z @tern /reading ammonia:0 nitrite:2 nitrate:10\n"
	const asked = "2026-03-12T09:10:00Z @tern /outlook\n2026-03-12T09:20:00Z @tern /why\n2026-03-12T09:30:00Z @tern /safe\n"
	spread := func(salt, end string) float64 {
		o := outlookOf(t, strings.ReplaceAll(told, "SALT", salt)+end)
		if o.DoneDay.P10 == nil || o.DoneDay.P90 == nil {
			t.Fatalf("%s: done on day %s to %s", salt, show(o.DoneDay.P10), show(o.DoneDay.P90))
		}
		return (*o.DoneDay.P90 - 11) / math.Max(*o.DoneDay.P10-11, 1) // of the days still to come
	}
	sea, fresh := spread("salinity:35 altitude:500m", asked), spread("", "2026-03-12T09:10:00Z @tern /outlook\n")
	if sea <= 1.2*fresh {
		t.Errorf("p90 over p10 is %.2f in the sea and %.2f in fresh water, want more doubt in the sea", sea, fresh)
	}
	for salinity, caveat := range map[string]bool{"salinity:35": true, "salinity:2": false} {
		r := bot(t, strings.ReplaceAll(told, "SALT", salinity)+"2026-03-12T09:10:00Z @tern /outlook\n", "replay", "-")
		if got := strings.Contains(strings.Join(strings.Fields(r.out), " "), "hardly any of these bacteria were measured in salt water"); got != caveat {
			t.Errorf("%s: said that little is known: %v, want %v in\n%s", salinity, got, caveat, r.out)
		}
	}
}
