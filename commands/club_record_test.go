package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"ripen/store"
)

// The record counts each interval apart, the first outlook of a tank in each stage, and
// only those given before the tank was done.
func TestRecordCounts(t *testing.T) {
	start := clock("2026-03-01T09:00:00Z")
	past := math.Inf(1)
	tank := func(given ...[]float64) []scored {
		var all []store.Outlook
		for _, g := range given {
			all = append(all, store.Outlook{Asked: "outlook", At: start.Add(time.Duration(g[0] * 24 * float64(time.Hour))), Day: g[0], Done: [7]float64(g[1:])})
		}
		return scoresOf(store.Tank{Started: start}, 20, all)
	}
	all := slices.Concat(
		tank([]float64{10, 5, 10, 18, 22, 25, 30, 40}, // at half way: all hold
			[]float64{11, 5, 6, 7, 8, 9, 10, 11},          // again there: does not count
			[]float64{19, 19, 19.5, 20, 20, 21, 22, 23},   // near the end
			[]float64{20.5, 19, 19.5, 20, 20, 21, 22, 23}, // too late
		),
		tank([]float64{10, 5, 10, 11, 14, 15, 30, 40}),         // 50 misses, 80 and 95 hold
		tank([]float64{10, 21, 22, 23, 24, 25, 26, 27}),        // done before all
		tank([]float64{10, 5, 6, 7, 12, 13, 14, 15}),           // done after all
		tank([]float64{10, 5, 10, 15, past, past, past, past}), // endless middle
	)
	in := func(stage string) (some []scored) {
		for _, x := range all {
			if RecordStages[x.Stage].Name == stage {
				some = append(some, x)
			}
		}
		return some
	}
	got := tally(RecordStage{}, in("at half way"))
	if got.Outlooks != 5 || got.Held != [3]int{2, 3, 3} || got.Percent != [3]float64{40, 60, 60} || got.Early != 1 || got.Late != 1 {
		t.Errorf("the tally is %+v", got)
	}
	if got.Error == nil || *got.Error != 6 || *got.OfWay != 30 {
		t.Errorf("the middle error is %v of %v %%, want 6 of 30 %%", got.Error, got.OfWay)
	}
	if in := in("near the end"); len(in) != 1 || in[0].Day != 19 || len(all) != 6 {
		t.Errorf("near the end are %+v, in all %d", in, len(all))
	}
}

// From the command on: too few at first, then the shares, with the tanks that nobody
// can score counted apart.
func TestClubRecord(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}), WithVersion("test"))
	say := func(member, at, line string) {
		t.Helper()
		r, _ := said(clock(at), member, line)
		if reply := b.Do(t.Context(), r); !reply.OK {
			t.Fatalf("%s: %s", line, reply.Text)
		}
	}
	record := func() (ClubRecord, Reply) {
		t.Helper()
		reply := moderate(t, b, "2026-06-01T09:00:00Z", "/club record")
		checkReply(t, "record", reply)
		return reply.Data.(ClubRecord), reply
	}
	if r, reply := record(); r.Enough || !strings.Contains(reply.Text, "No outlook was given") {
		t.Errorf("of nothing it says %s", reply.Text)
	}
	for i := range 10 {
		m := fmt.Sprintf("m%d", i)
		say(m, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
		say(m, "2026-03-13T09:00:00Z", "/outlook") // day 12: 10.3 to 52.3, by fakeAdviser
		// Two in ten are done on day 60, after the range; the others on day 24.
		end := "2026-03-25T09:00:00Z"
		if i < 2 {
			end = "2026-04-30T09:00:00Z"
		}
		if i == 5 {
			r, reply := record()
			if r.Finished != 5 || !r.Enough {
				t.Errorf("after five it says %s", reply.Text)
			}
		}
		say(m, end, "/tank close reason:done")
		say(m, end, "/undo")
		say(m, end, "/tank close reason:done")
	}
	say("gone", "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	say("gone", "2026-03-04T09:00:00Z", "/outlook")
	say("gone", "2026-03-20T09:00:00Z", "/tank close reason:given-up")
	say("open", "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	say("open", "2026-03-04T09:00:00Z", "/outlook")
	r, reply := record()
	if r.Outlooks != 12 || r.Finished != 10 || r.NotDone != 1 || r.Open != 1 || r.All.Outlooks != 10 || r.All.Held[1] != 8 || r.All.Late != 2 {
		t.Errorf("the record is %+v", r)
	}
	if !strings.HasPrefix(reply.Text, "Of 8 outlooks at half way, 8 held") {
		t.Errorf("it says %s", reply.Text)
	}
	if len(reply.Files) != 1 || !strings.HasPrefix(string(reply.Files[0].Data), "\x89PNG") || reply.Files[0].Alt == "" {
		t.Errorf("the picture is %d files", len(reply.Files))
	}
	say("m3", "2026-06-01T08:00:00Z", "/data erase confirm:yes")
	if r, _ := record(); r.Finished != 9 || r.Outlooks != 11 {
		t.Errorf("after one erased the record has %d tanks", r.Finished)
	}
}

// A corrected start moves the days of outlooks that were given before with it.
func TestRecordAfterStartCorrected(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-05T09:00:00Z", "/tank new name:a volume:60L")
	must(t, b, "2026-03-09T09:00:00Z", "/outlook") // day 4
	must(t, b, "2026-03-10T09:00:00Z", "/tank edit started:2026-03-01")
	must(t, b, "2026-03-25T09:00:00Z", "/tank close reason:done") // 20 days after the old start
	c := &call{Request: Request{Club: "club"}, ctx: t.Context(), book: b}
	all, err := c.scores(&ClubRecord{})
	if err != nil || len(all) != 1 || math.Abs(all[0].done-all[0].Day-16) > 0.2 || math.Abs(all[0].Done[3]-all[0].Day-20.3) > 0.2 { // of 24.3 in the middle
		t.Errorf("scored %+v, %v", all, err)
	}
}
