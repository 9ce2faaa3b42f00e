package commands

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"
)

// week asks for the summary at a time.
func week(t *testing.T, b *Book, at string) (ClubWeek, Reply) {
	t.Helper()
	reply := moderate(t, b, at, "/club week")
	checkReply(t, "week", reply)
	return reply.Data.(ClubWeek), reply
}

// A week tells what happened in it, of members who agreed, and nothing of the others.
func TestClubWeek(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	say := func(member, at, line string) {
		t.Helper()
		r, _ := said(clock(at), member, line)
		if reply := b.Do(t.Context(), r); !reply.OK {
			t.Fatalf("%s: %s", line, reply.Text)
		}
	}
	if r, reply := week(t, b, "2026-03-01T09:00:00Z"); r.Shown != 0 || !strings.Contains(reply.Text, "was quiet") || len(reply.Files) != 0 {
		t.Errorf("of nothing it says %s", reply.Text)
	}
	// By fakeAdviser a tank without readings is done on day 24.3 (10.3 to 52.3).
	say("old", "2026-03-01T09:00:00Z", "/tank new name:first volume:60L share:yes")
	say("old", "2026-03-05T09:00:00Z", "/outlook")
	say("shy", "2026-03-20T09:00:00Z", "/tank new name:secret volume:60L")
	say("shy", "2026-03-20T09:00:00Z", "/why")
	say("new", "2026-03-20T09:00:00Z", "/tank new name:second volume:60L share:yes")
	say("new", "2026-03-20T10:00:00Z", "/why")
	say("end", "2026-03-01T09:00:00Z", "/tank new name:third volume:60L share:yes")
	r, reply := week(t, b, "2026-03-22T18:00:00Z")
	if r.From != "2026-03-16" || r.To != "2026-03-22" || r.Shown != 3 || len(r.New) != 1 || r.New[0].Member != "new" ||
		len(r.Asked) != 1 || r.Asked[0].Tank != "second" || len(r.Near) != 2 || r.Near[0].Date != "2026-03-25" || len(r.Finished) != 0 {
		t.Errorf("the week is %+v\n%s", r, reply.Text)
	}
	if len(reply.Files) != 1 || !strings.HasPrefix(string(reply.Files[0].Data), "\x89PNG") {
		t.Error("it has no picture")
	}
	for _, word := range []string{"secret", "shy"} {
		if strings.Contains(fmt.Sprintf("%+v", r)+reply.Text+reply.Files[0].Alt, word) {
			t.Errorf("the summary has %q, whose member did not agree", word)
		}
	}
	say("old", "2026-03-24T09:00:00Z", "/tank close reason:done")
	say("end", "2026-03-24T09:00:00Z", "/tank close reason:given-up")
	r, reply = week(t, b, "2026-03-29T18:00:00Z")
	if len(r.New)+len(r.Near)+len(r.Asked) != 0 || len(r.Finished) != 1 || !r.Finished[0].Held || r.Finished[0].DoneDay != 23 || *r.Finished[0].Given != 4 {
		t.Errorf("the week after is %+v", r)
	}
	if !strings.Contains(reply.Text, `first of "old", on day 23. The outlook of day 4 said day 10 to 52: it held.`) {
		t.Errorf("it says %s", reply.Text)
	}
	say("brief", "2026-03-26T09:00:00Z", "/tank new name:fourth volume:60L share:yes") // and closed in the same week
	say("brief", "2026-03-28T09:00:00Z", "/tank close reason:moved")
	if r, _ := week(t, b, "2026-03-29T18:30:00Z"); len(r.New) != 1 || r.New[0].Tank != "fourth" || len(r.Finished) != 1 {
		t.Errorf("with a tank that came and went it is %+v", r)
	}
	say("old", "2026-03-29T19:00:00Z", "/data erase confirm:yes")
	say("new", "2026-03-29T19:00:00Z", "/tank edit share:no")
	if r, reply := week(t, b, "2026-03-29T20:00:00Z"); r.Shown != 0 || strings.Contains(reply.Text, "old") || strings.Contains(reply.Text, "second") {
		t.Errorf("after one erased and one left it says %s", reply.Text)
	}
}

// A tank that is done is listed once, in the summary of the week in which its log came to
// show it, whatever is told of it later.
func TestFinishedIsListedOnce(t *testing.T) {
	const dose, clear = "/log what:dose amount:2ppm", "/reading ammonia:0 nitrite:0"
	twice := []string{"2026-03-10T18:00:00Z " + dose, "2026-03-11T18:00:00Z " + clear, "2026-03-12T18:00:00Z " + dose, "2026-03-13T18:00:00Z " + clear}
	for _, tt := range []struct {
		reason string
		lines  []string
		want   string // Sundays on whose summaries it is
	}{
		{"proved and left open", twice, "2026-03-15"},
		{"closed two weeks later", slices.Concat(twice, []string{"2026-03-25T09:00:00Z /tank close reason:done"}), "2026-03-15"},
		{"closed without a proof", []string{"2026-03-25T09:00:00Z /tank close reason:done"}, "2026-03-29"},
		{"closed, taken back, closed again", []string{"2026-03-19T09:00:00Z /tank close reason:done", "2026-03-19T09:01:00Z /undo", "2026-03-25T09:00:00Z /tank close reason:done"}, "2026-03-29"},
		{"given up", []string{"2026-03-25T09:00:00Z /tank close reason:given-up"}, ""},
		{"its last test told a week later", append(twice[:3:3], "2026-03-19T18:00:00Z "+clear+" at:2026-03-13T18:00:00Z"), "2026-03-22"},
		{"a lower target told later", append(strings.Split(strings.ReplaceAll(strings.Join(twice, "\n"), "2ppm", "1ppm"), "\n"), "2026-03-26T18:00:00Z /tank edit target:1ppm"), "2026-03-29"},
		{"more told of before", slices.Concat(twice, []string{"2026-03-20T18:00:00Z /reading ammonia:1 at:2026-03-05T18:00:00Z"}), "2026-03-15"},
		{"erased in the same week", slices.Concat(twice, []string{"2026-03-14T18:00:00Z /data erase confirm:yes"}), ""},
	} {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L share:yes")
		var listed []string
		lines := tt.lines
		for sunday := clock("2026-03-01T18:00:00Z"); sunday.Month() < 5; sunday = sunday.AddDate(0, 0, 7) {
			for len(lines) > 0 && clock(strings.Fields(lines[0])[0]).Before(sunday) {
				at, line, _ := strings.Cut(lines[0], " ")
				must(t, b, at, line)
				lines = lines[1:]
			}
			if r, _ := week(t, b, sunday.Format(time.RFC3339)); len(r.Finished) > 0 {
				listed = append(listed, r.To)
			}
		}
		if got := strings.Join(listed, " "); got != tt.want {
			t.Errorf("%s: it is listed on %q, want %q", tt.reason, got, tt.want)
		}
	}
}

// Since tells a summary where the one before ended; weeks in which clocks change are no
// hour too long.
func TestClubWeekSince(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	moderate(t, b, "2026-03-01T09:00:00Z", "/club settings zone:Europe/Lisbon")
	must(t, b, "2026-03-22T18:30:00Z", "/tank new name:nano volume:60L share:yes") // 18:30 there, a week before the clocks change
	ask := func(since string) ClubWeek {
		t.Helper()
		r, _ := said(clock("2026-03-29T17:00:00Z"), "tern", "/club week") // 18:00 there
		if r.Moderator = true; since != "" {
			r.Since = clock(since)
		}
		reply := b.Do(t.Context(), r)
		checkReply(t, "week", reply)
		return reply.Data.(ClubWeek)
	}
	if r := ask(""); len(r.New) != 1 || r.Weeks != 1 || r.From != "2026-03-23" {
		t.Errorf("the week is %+v", r)
	}
	if r := ask("2026-03-22T18:30:00Z"); len(r.New) != 0 || r.Weeks != 1 {
		t.Errorf("what the summary before told stands in this one as well: %+v", r)
	}
	r := ask("2026-03-08T18:00:00Z")
	if len(r.New) != 1 || r.Weeks != 3 || !strings.HasPrefix(r.Text(), "The 3 weeks from 9 March to 29 March, with") {
		t.Errorf("after three weeks it says %s", r.Text())
	}
}

// The week ends today in the club's zone.
func TestClubWeekZone(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	moderate(t, b, "2026-03-01T09:00:00Z", "/club settings zone:Asia/Tokyo")
	if r, _ := week(t, b, "2026-03-22T18:00:00Z"); r.To != "2026-03-23" || r.From != "2026-03-17" {
		t.Errorf("the week is %s to %s", r.From, r.To)
	}
}

// A lesson needs enough tanks of both sorts that differ more than chance lets them.
func TestLesson(t *testing.T) {
	for _, tt := range []struct {
		reason     string
		warm, cold []int // days to done
		want       string
	}{
		{"plainly faster", []int{20, 21, 22, 23, 24}, []int{30, 31, 32, 33, 34}, "those at 25 °C and more took 22 days in the middle (5 tanks), those in cooler water 32 days (5 tanks)"},
		{"too few", []int{20, 21, 22, 23}, []int{30, 31, 32, 33, 34}, ""},
		{"all alike", []int{20, 25, 30, 35, 40}, []int{21, 26, 31, 36, 41}, ""},
	} {
		b := New(newStore(t), WithAdviser(fakeAdviser{}))
		start := clock("2026-03-01T09:00:00Z")
		for sort, days := range map[string][]int{"27C": tt.warm, "20C": tt.cold} {
			for i, d := range days {
				for k, line := range []string{"/tank new name:a volume:60L share:yes temp:" + sort, "/tank close reason:done"} {
					r, _ := said(start.AddDate(0, 0, k*d), fmt.Sprint(sort, i), line)
					if reply := b.Do(t.Context(), r); !reply.OK {
						t.Fatal(reply.Text)
					}
				}
			}
		}
		r, reply := week(t, b, "2026-06-01T09:00:00Z")
		if (r.Lesson != nil) != (tt.want != "") || !strings.Contains(reply.Text, tt.want) {
			t.Errorf("%s: it says %s", tt.reason, reply.Text)
		}
	}
}

func TestRankSum(t *testing.T) {
	if z := rankSum([]float64{4, 5, 6}, []float64{1, 2, 3}); z < 1.96 || z > 1.97 { // (9 - 4.5) / sqrt(9*7/12)
		t.Errorf("z is %g", z)
	}
	if z := rankSum([]float64{1, 1}, []float64{1, 1}); z != 0 {
		t.Errorf("of equals z is %g", z)
	}
}
