package commands

import (
	"testing"
	"time"

	"ripen/store"
)

// What a log must show for a tank to count as done, and since when.
func TestFinish(t *testing.T) {
	const (
		dose  = "/log what:dose amount:2ppm"
		clear = "/reading ammonia:0 nitrite:0"
		blue  = "/reading ammonia:0 nitrite:0.5"
	)
	type line struct{ at, typed string } // day and hour of March
	for _, tt := range []struct {
		reason string
		lines  []line
		want   float64 // -1 for not done
	}{
		{"two doses in a row cleared by the next evening", []line{{"10T18", dose}, {"11T18", clear}, {"11T19", dose}, {"12T18", clear}}, 9.375},
		{"one is not enough", []line{{"10T18", dose}, {"11T18", clear}}, -1},
		{"a test that failed between starts anew", []line{{"10T18", dose}, {"11T18", clear}, {"11T19", dose}, {"12T18", blue}, {"13T18", dose}, {"14T18", clear}}, -1},
		{"what comes after two does not count", []line{{"10T18", dose}, {"11T18", clear}, {"11T19", dose}, {"12T18", clear}, {"12T19", dose}, {"13T18", blue}}, 9.375},
		{"a test two days later tells nothing of one day", []line{{"10T18", dose}, {"12T18", clear}, {"12T19", dose}, {"14T18", clear}}, -1},
		{"nor one after the next dose", []line{{"10T18", dose}, {"11T08", dose}, {"11T18", clear}, {"12T08", clear}}, -1},
		{"half a dose is none", []line{{"10T18", "/log what:dose amount:1ppm"}, {"11T18", clear}, {"11T19", "/log what:dose amount:1ppm"}, {"12T18", clear}}, -1},
		{"both have to be read", []line{{"10T18", dose}, {"11T18", "/reading ammonia:0"}, {"11T19", dose}, {"12T18", clear}}, -1},
		{"the first colour is not clear", []line{{"10T18", dose}, {"11T18", "/reading ammonia:0.25 nitrite:0"}, {"11T19", dose}, {"12T18", clear}}, -1},
		{"closed as done: the first of the clear tests at the end", []line{{"10T09", blue}, {"12T09", clear}, {"15T09", clear}, {"20T09", "/tank close reason:done"}}, 11},
		{"one clear test may be chance: the day of closing", []line{{"10T09", blue}, {"12T09", clear}, {"20T09", "/tank close reason:done"}}, 19},
		{"closed as done after one challenge", []line{{"10T09", dose}, {"11T09", clear}, {"20T09", "/tank close reason:done"}}, 9},
		{"given up", []line{{"10T09", clear}, {"12T09", clear}, {"20T09", "/tank close reason:given-up"}}, -1},
		{"closed without a word", []line{{"10T09", clear}, {"12T09", clear}, {"20T09", "/tank close"}}, -1},
		{"closed as done, and opened again", []line{{"10T09", clear}, {"12T09", clear}, {"20T09", "/tank close reason:done"}, {"20T10", "/undo"}}, -1},
	} {
		st := newStore(t)
		b := New(st, WithAdviser(fakeAdviser{}))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L")
		for _, l := range tt.lines {
			must(t, b, "2026-03-"+l.at+":00:00Z", l.typed)
		}
		tanks, err := st.Tanks(t.Context(), "club", "wren")
		if err != nil {
			t.Fatal(err)
		}
		entries, err := st.Entries(t.Context(), tanks[0].ID)
		if err != nil {
			t.Fatal(err)
		}
		cs, err := caseOf(tanks[0], entries)
		if err != nil {
			t.Fatal(err)
		}
		if got := finishOf(tanks[0], entries, cs); got.known != (tt.want >= 0) || got.known && got.day != tt.want {
			t.Errorf("%s: %+v, want %g", tt.reason, got, tt.want)
		}
	}
}

// Each outlook that was asked for is kept as it was shown, and nothing else.
func TestOutlooksAreKept(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}), WithVersion("test"))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L")
	shown := must(t, b, "2026-03-04T09:00:00Z", "/outlook").Data.(Outlook)
	must(t, b, "2026-03-04T09:00:00Z", "/outlook") // again at once
	must(t, b, "2026-03-05T09:00:00Z", "/chart")
	must(t, b, "2026-03-05T09:00:00Z", "/share")
	moderate(t, b, "2026-03-06T09:00:00Z", "/club case member:wren")
	must(t, b, "2026-03-06T09:00:00Z", "/why")
	moderate(t, b, "2026-03-07T09:00:00Z", "/outlook member:wren")
	all, err := st.ClubOutlooks(t.Context(), "club", time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	type asked struct {
		what string
		own  bool
		day  float64
	}
	var got []asked
	for _, o := range all {
		got = append(got, asked{o.Asked, o.Own, o.Day})
		if o.Engine != "test" || o.Prior != generalPrior || o.Stage != "ammonia" {
			t.Errorf("kept %+v", o)
		}
	}
	want := []asked{{"outlook", true, 3}, {"why", true, 5}, {"outlook", false, 6}}
	if len(got) != 3 || got[0] != want[0] || got[1] != want[1] || got[2] != want[2] {
		t.Fatalf("kept %v, want %v", got, want)
	}
	for i, d := range all[0].Done {
		if i > 0 && d < all[0].Done[i-1] {
			t.Errorf("quantiles fall: %v", all[0].Done)
		}
	}
	for _, v := range []*float64{shown.DoneDay.P10, shown.DoneDay.P50, shown.DoneDay.P90} {
		found := false
		for _, d := range all[0].Done {
			found = found || d == *v
		}
		if !found {
			t.Errorf("%g was shown and is not kept: %v of %v", *v, all[0].Done, store.Quantiles)
		}
	}
}
