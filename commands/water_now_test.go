package commands

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// waterTank is 60 L of well water with animals, and what was told of it from the fifth
// on, a minute apart; at is a minute after the last.
func waterTank(t *testing.T, setup string, lines ...string) (ask func(line string) Reply) {
	t.Helper()
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:w volume:60L "+setup)
	at := clock("2026-03-05T09:00:00Z")
	for _, line := range lines {
		if day, rest, ok := strings.Cut(line, " | "); ok {
			at, line = clock(day+"T09:00:00Z"), rest
		}
		must(t, b, at.Format("2006-01-02T15:04:05Z"), line)
		at = at.Add(60e9)
	}
	return func(line string) Reply { return must(t, b, at.Format("2006-01-02T15:04:05Z"), line) }
}

const fishIn = "source:well ph:7 kh:4dKH temp:25C method:fish-in stock:20g"

// TestWaterNow: of tests and edits the later counts, and what was logged counts on from there,
// for /safe and for /amount alike.
func TestWaterNow(t *testing.T) {
	for _, x := range []struct {
		why     string
		setup   string
		lines   []string
		ammonia float64 // mg/L as NH4
		ph      float64 // of /amount
		high    float64 // of /safe
		temp    float64
	}{
		{"an edit after a test", fishIn, []string{"/reading ammonia:1 ph:7 temp:20C", "/tank edit ph:8.4 temp:28C"}, 1, 8.4, 8.4, 28},
		{"a test after an edit", fishIn, []string{"/tank edit ph:8.4 temp:28C", "/reading ammonia:1 ph:7 temp:20C"}, 1, 7, 7, 20},
		{"a correction from the start is older than a test", fishIn, []string{"/reading ammonia:1 ph:7 temp:20C", "/tank edit ph:8.4 temp:28C at:start"}, 1, 7, 7, 20},
		{"water changed after a test", fishIn, []string{"/reading ammonia:4", "/log what:water-change amount:75%"}, 1, 7, 7, 25},
		{"water changed before it", fishIn, []string{"/log what:water-change amount:75%", "/reading ammonia:4"}, 4, 7, 7, 25},
		{"dosed, then changed", fishIn, []string{"/reading ammonia:1", "/log what:dose amount:1ppm", "/log what:water-change amount:50%"}, 1, 7, 7, 25},
		{"changed, then dosed", fishIn, []string{"/reading ammonia:1", "/log what:water-change amount:50%", "/log what:dose amount:1ppm"}, 1.5, 7, 7, 25},
		{"a buffer before the pH was told", fishIn, []string{"/reading ammonia:1 kh:4dKH", "/log what:buffer amount:4dKH", "/reading ph:7.3"}, 1, 7.3, 7.3, 25},
		{"a buffer after it", fishIn, []string{"/reading ammonia:1 kh:4dKH ph:7", "/log what:buffer amount:4dKH"}, 1, 7.3, 7.3, 25}, // twice the hardness, log10(2)
		{"new water of a higher pH", fishIn, []string{"/reading ammonia:2 ph:6.4 kh:4dKH", "/log what:water-change amount:50%"}, 1, 6.4, 7, 25},
		{"new water with chloramine", strings.Replace(fishIn, "well", "chloramine conditioner:yes", 1), []string{"/reading ammonia:2", "/log what:water-change amount:50%"}, 1 + 0.5*0.204, 7, 7, 25},
	} {
		ask := waterTank(t, x.setup, x.lines...)
		s := ask("/safe").Data.(Safe)
		a := ask("/amount what:water-change of:ammonia to:0.25").Data.(ChangeAmount)
		for _, v := range []struct {
			what      string
			got, want float64
		}{
			{"ammonia of /safe", *s.Ammonia * 18.039 / 14.007, x.ammonia}, {"ammonia of /amount", a.From, x.ammonia},
			{"pH of /safe", *s.Water.PH, x.high}, {"pH of /amount", a.PH, x.ph}, {"temp of /safe", *s.Water.TempC, x.temp}, {"temp of /amount", a.Temp.Value, x.temp},
		} {
			if math.Abs(v.got-v.want) > 0.03 {
				t.Errorf("%s: %s %g, want %g", x.why, v.what, v.got, v.want)
			}
		}
	}
}

// TestAnimalsFirstByEdit: a test of ammonia alone is judged at the pH of a later edit.
func TestAnimalsFirstByEdit(t *testing.T) {
	ask := waterTank(t, fishIn, "/reading ammonia:0.5 ph:7 temp:20C", "/tank edit ph:8.4 temp:28C")
	if r := ask("/reading ammonia:1"); r.Data.(ReadingNoted).Safe == nil || !strings.Contains(r.Text, "Animals first. Danger") {
		t.Error(r.Text)
	}
}

// TestUntestedSince: while something was done to the water that no test has told, /safe
// never says to do nothing.
func TestUntestedSince(t *testing.T) {
	const clear = "/reading ammonia:0 nitrite:0 ph:7 kh:4dKH"
	for _, x := range []struct {
		lines []string
		since []string
		says  string // "" for nothing now
	}{
		{[]string{clear}, nil, ""},
		{[]string{clear, "/log what:feed amount:0.5g"}, []string{"feed"}, "Since that test food was given, which is not counted here: test ammonia and nitrite again."},
		{[]string{clear, "/log what:feed amount:0.5g", "/reading ammonia:0 nitrite:0"}, nil, ""},
		{[]string{clear, "/log what:stock amount:3g"}, []string{"stock"}, "animals were put in"},
		{[]string{clear, "/log what:buffer amount:1dKH"}, []string{"buffer"}, "Since pH was told a buffer was added, which is counted here, with a pH up to 7.1: test pH again."},
		{[]string{clear, "/log what:buffer amount:1dKH", "/reading ammonia:0 nitrite:0"}, []string{"buffer"}, "test pH now"},
		{[]string{clear, "/log what:buffer amount:1dKH", "/reading ph:7.1"}, nil, ""},
		{[]string{clear, "/log what:buffer amount:1dKH", "/tank edit ph:7.1"}, nil, ""},
		{[]string{clear, "/reading chlorine:0.5", "/log what:conditioner amount:5ml"}, []string{"conditioner"}, "test chlorine now"},
		{[]string{clear, "/log what:conditioner amount:5ml"}, nil, ""},
		{[]string{clear, "/log what:outage"}, []string{"outage"}, "the filter stood still"},
		{[]string{clear, "/log what:outage hours:1"}, nil, ""},
		{[]string{clear, "/log what:note detail:tapped"}, nil, ""},
		{[]string{clear, "/tank edit source:chlorine", "/log what:water-change amount:30% conditioned:no"}, []string{"untreated", "water-change"}, "- untreated tap water brings chlorine: add a conditioner now, for the whole tank, as its label says\n- test ammonia, nitrite and chlorine now"},
		{[]string{clear, "/tank edit source:chlorine", "/log what:water-change amount:30% conditioned:yes"}, []string{"water-change"}, "- test ammonia and nitrite now"},
		{[]string{clear, "2026-03-07 | /log what:dose amount:0.25ppm", "2026-03-12 | /log what:feed amount:0.5g"}, []string{"dose", "feed"}, "ammonia was dosed more than a day ago and food was given, which is not counted here"},
	} {
		r := waterTank(t, fishIn, x.lines...)("/safe")
		s := r.Data.(Safe)
		verdict := "safe"
		if slices.Contains(x.since, "untreated") {
			verdict = "caution"
		}
		if !slices.Equal(s.Since, append([]string{}, x.since...)) || s.Verdict != verdict {
			t.Errorf("%v: %v and %s, want %v", x.lines, s.Since, s.Verdict, x.since)
		}
		if nothing := strings.Contains(r.Text, "nothing now"); nothing != (x.says == "") || !strings.Contains(r.Text, x.says) {
			t.Errorf("%v: want %q:\n%s", x.lines, x.says, r.Text)
		}
	}
}

// TestAmountSince: /amount says what it counts beside the last test, and asks to test
// chlorine again once conditioner is in.
func TestAmountSince(t *testing.T) {
	const dosed = "source:well ph:7 kh:4dKH temp:25C"
	for _, x := range []struct {
		lines     []string
		ask, says string
	}{
		{[]string{"/reading ammonia:4", "/log what:water-change amount:75%"}, "ammonia to:2ppm product:10%", "from 1 to 2 mg/L"},
		{[]string{"/reading ammonia:4", "/log what:water-change amount:75%"}, "ammonia to:2ppm product:10%", "ammonia as it was left by the water change since"},
		{[]string{"/reading ammonia:1 kh:2dKH", "2026-03-09 | /log what:buffer amount:2dKH"}, "buffer to:6dKH", "raises KH from 4 dKH to 6 dKH"},
		{[]string{"/reading ammonia:1 kh:2dKH", "2026-03-09 | /log what:buffer amount:2dKH"}, "buffer to:6dKH", "the 2 dKH added since KH was told is still there"},
		{[]string{"/reading ammonia:1", "2026-03-09 | /log what:dose amount:2ppm", "2026-03-12 | /reading nitrite:1"}, "ammonia to:2ppm product:10%", "from 1 to 2 mg/L"}, // bacteria have used it up
	} {
		if r := waterTank(t, dosed, x.lines...)("/amount what:" + x.ask); !strings.Contains(r.Text, x.says) {
			t.Errorf("%v: want %q:\n%s", x.lines, x.says, r.Text)
		}
	}
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:w volume:60L source:chlorine")
	must(t, b, "2026-03-01T09:01:00Z", "/reading chlorine:0.5 ammonia:4")
	must(t, b, "2026-03-01T09:02:00Z", "/log what:conditioner amount:5ml")
	must(t, b, "2026-03-01T09:03:00Z", "/log what:water-change amount:75%")
	for line, says := range map[string]string{
		"/amount what:conditioner":                     "test that again first",
		"/amount what:water-change of:ammonia to:1ppm": "nothing to change",
	} {
		if r := tell(t, b, "2026-03-01T09:04:00Z", line); r.OK || !strings.Contains(r.Text, says) {
			t.Errorf("%s: want %q:\n%s", line, says, r.Text)
		}
	}
	must(t, b, "2026-03-01T09:05:00Z", "/amount what:conditioner volume:20L new-chlorine:1")
}

// TestDosesStand: a dose counts for the day after it, for /safe and /amount alike, and for
// longer only where the last tests show that doses stand; those not counted are named.
func TestDosesStand(t *testing.T) {
	const dosed = "source:well ph:7 kh:8dKH temp:25C"
	daily := []string{"2026-03-08 | /log what:dose amount:2ppm", "2026-03-09 | /log what:dose amount:2ppm", "2026-03-10 | /log what:dose amount:2ppm"}
	for _, x := range []struct {
		why     string
		setup   string
		lines   []string
		ammonia float64 // mg/L as NH4
		not     []string
	}{
		{"clear before", dosed, append([]string{"/reading ammonia:0 nitrite:0"}, daily...), 2, []string{"dose"}},
		{"cleared between two tests", dosed, append([]string{"/reading ammonia:2", "/log what:dose amount:2ppm", "2026-03-07 | /reading ammonia:1"}, daily...), 3, []string{"dose"}},
		{"stood between two tests", dosed, append([]string{"/reading ammonia:2", "/log what:dose amount:2ppm", "2026-03-07 | /reading ammonia:4"}, daily...), 10, nil},
		{"shown by what was dosed an hour before", dosed, append([]string{"/reading ammonia:2", "2026-03-07 | /log what:dose amount:2ppm", "/reading ammonia:2"}, daily...), 4, []string{"dose"}},
		{"stood, then changed", dosed, append([]string{"/reading ammonia:2", "/log what:water-change amount:50%", "2026-03-07 | /reading ammonia:1"}, daily...), 7, nil},
		{"animals in water that shows ammonia", fishIn, append([]string{"/reading ammonia:1"}, daily...), 7, nil},
		{"animals in clear water", fishIn, append([]string{"/reading ammonia:0"}, daily...), 2, []string{"dose"}},
	} {
		ask := waterTank(t, x.setup, x.lines...)
		r := ask("/safe")
		s := r.Data.(Safe)
		a := ask("/amount what:water-change of:ammonia to:0.25").Data.(ChangeAmount)
		if got := *s.Ammonia * 18.039 / 14.007; math.Abs(got-x.ammonia) > 0.03 || math.Abs(a.From-x.ammonia) > 0.03 {
			t.Errorf("%s: ammonia %g of /safe, %g of /amount, want %g", x.why, got, a.From, x.ammonia)
		}
		if !slices.Equal(s.Not, append([]string{}, x.not...)) || !slices.Equal(s.Counted, []string{"dose"}) || !strings.Contains(r.Text, "test ammonia and nitrite again") {
			t.Errorf("%s: %v are counted, %v are not:\n%s", x.why, s.Counted, s.Not, r.Text)
		}
	}
}

// TestBuffersUsedUp: the doses since use up what buffers brought, and where KH was told long
// ago their mere sum warns of nothing and refuses nothing: a test is asked for.
func TestBuffersUsedUp(t *testing.T) {
	const clear = "2026-03-02T09:00:00Z /reading ammonia:0 nitrite:0"
	weekly := []string{clear}
	for _, day := range []string{"05", "12", "19", "26"} {
		weekly = append(weekly, "2026-03-"+day+"T09:00:00Z /log what:buffer amount:6dKH")
	}
	var doses []string // each uses up 2 x 14.007/18.039 x 3.57 mg/L, 0.31 dKH
	for range 10 {
		doses = append(doses, "2026-03-27T09:00:00Z /log what:dose amount:2ppm")
	}
	gone := []string{clear, "2026-03-27T09:00:00Z /reading kh:4dKH", "2026-03-27T10:00:00Z /log what:buffer amount:3dKH"}
	for range 10 {
		gone = append(gone, "2026-03-28T09:00:00Z /log what:dose amount:2ppm")
	}
	lately := []string{clear, "2026-03-29T09:00:00Z /reading kh:4dKH", "2026-03-30T08:00:00Z /log what:buffer amount:4dKH"}
	for _, x := range []struct {
		why       string
		lines     []string
		ask, says string
	}{
		{"a sum refuses nothing", weekly, "/amount what:buffer to:6dKH", "KH was told 29 days ago, and of the buffers since about 24 dKH may be left"},
		{"what was told does", weekly, "/amount what:buffer to:3dKH", "is not above what the water has"},
		{"a buffer upon a test does", lately, "/amount what:buffer to:6dKH", "is not above what the water has, 8 dKH"},
		{"a sum is raised from, and said", weekly, "/amount what:buffer to:30dKH", "raises KH from 28 dKH to 30 dKH"},
		{"a sum is raised from, and said", weekly, "/amount what:buffer to:30dKH", "though KH was told 29 days ago, so test it first"},
		{"of a buffer upon a test that is not said", lately, "/amount what:buffer to:30dKH", "added since KH was told is still there."},
		{"doses use it up", append(slices.Clone(weekly), doses...), "/amount what:buffer to:30dKH", "raises KH from 24.9 dKH to 30 dKH"},
		{"doses of today do not yet", append(slices.Clone(weekly), "2026-03-30T08:00:00Z /log what:dose amount:8ppm"), "/amount what:buffer to:30dKH", "raises KH from 28 dKH to 30 dKH"},
		{"doses use up no more than the buffers", append([]string{clear}, doses...), "/amount what:buffer to:30dKH", "raises KH from 4 dKH to 30 dKH"},
		{"a sum asks for a test", weekly, "/log what:buffer amount:6dKH", "Careful: KH was told 29 days ago, and with all buffers since it might be up to 34 dKH"},
		{"a test and a buffer warn", lately, "/log what:buffer amount:20dKH", "Careful: that takes the KH from 8 dKH to about 28 dKH"},
		{"so does what is too much alone", weekly, "/log what:buffer amount:22dKH", "Careful: that takes the KH from 4 dKH to about 26 dKH"},
		{"a sum raises no pH", weekly, "/safe", "a buffer was added days ago, which is not counted here: test pH again"},
		{"a buffer of today does", lately, "/safe", "a buffer was added, which is counted here, with a pH up to 7.7: test pH again"},
		{"until doses used it up", gone, "/safe", "which is counted here, with a pH up to 7.4; ammonia was dosed more than a day ago"},
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:w volume:60L source:well ph:7.4 kh:4dKH temp:25C")
		for _, l := range x.lines {
			at, line, _ := strings.Cut(l, " ")
			must(t, b, at, line)
		}
		if r := tell(t, b, "2026-03-30T09:00:00Z", x.ask); !strings.Contains(r.Text, x.says) {
			t.Errorf("%s: want %q:\n%s", x.why, x.says, r.Text)
		}
	}
}

// TestSafeUntreated: right after untreated tap water no water with animals is safe, until
// conditioner is in or the chlorine is gone by itself.
func TestSafeUntreated(t *testing.T) {
	const tap = "ph:7 kh:4dKH temp:25C source:chlorine conditioner:yes "
	const clear, change = "/reading ammonia:0 nitrite:0 chlorine:0", "/log what:water-change amount:30% conditioned:"
	for _, x := range []struct {
		why     string
		setup   string
		lines   []string
		verdict string
		says    string
	}{
		{"untreated", tap + "method:fish-in stock:20g", []string{clear, change + "no"}, "caution", "Caution for animals in w: untreated tap water went in since the test, and its chlorine harms gills."},
		{"what to do", tap + "method:fish-in stock:20g", []string{clear, change + "no"}, "caution", "Do:\n- untreated tap water brings chlorine: add a conditioner now, for the whole tank, as its label says\n- test ammonia, nitrite and chlorine now, and go by that"},
		{"a limit that is passed comes first", tap + "method:fish-in stock:20g", []string{"/reading ammonia:0 nitrite:5 chlorine:0", change + "no"}, "danger", "nitrite is 3.5 mg/L NO2"},
		{"conditioned", tap + "method:fish-in stock:20g", []string{clear, change + "yes"}, "safe", "Safe for animals in w"},
		{"conditioned after it", tap + "method:fish-in stock:20g", []string{clear, change + "no", "/log what:conditioner amount:5ml"}, "safe", "Safe for animals in w"},
		{"tested after it", tap + "method:fish-in stock:20g", []string{clear, change + "no", "/reading ammonia:0 nitrite:0 chlorine:0"}, "safe", "Safe for animals in w"},
		{"days ago", tap + "method:fish-in stock:20g", []string{clear, change + "no", "2026-03-09 | /log what:note detail:fed"}, "safe", "Safe for animals in w"},
		{"no animals", tap, []string{clear, change + "no"}, "safe", "Safe for animals in w"},
	} {
		r := waterTank(t, x.setup, x.lines...)("/safe")
		if v := r.Data.(Safe).Verdict; v != x.verdict || !strings.Contains(r.Text, x.says) {
			t.Errorf("%s: %s, want %s and %q:\n%s", x.why, v, x.verdict, x.says, r.Text)
		}
	}
}

// TestFedAsUsual: meals of a ration, as told or as is usual for the animals told, are no reason
// to test again; more in a day is.
func TestFedAsUsual(t *testing.T) {
	const clear, noon = "/reading ammonia:0 nitrite:0", "/log what:feed amount:0.1g"
	for _, x := range []struct {
		why   string
		setup string
		lines []string
		named bool
	}{
		{"the ration told", fishIn + " feed:0.1", []string{clear, noon}, false},
		{"day after day", fishIn + " feed:0.1", []string{clear, noon, "2026-03-06 | " + noon, "2026-03-07 | " + noon}, false},
		{"twice a day", fishIn + " feed:0.1", []string{clear, noon, noon}, true},
		{"the ration told later", fishIn + " feed:0.1", []string{"/tank edit feed:0.2", clear, noon, noon}, false},
		{"1.5 % of 20 g", fishIn, []string{clear, noon, noon, noon}, false},
		{"more than that", fishIn, []string{clear, noon, noon, noon, noon}, true},
		{"of animals that went in later", "source:well temp:25C", []string{"/log what:stock amount:10g", clear, noon}, false},
		{"and died", "source:well temp:25C", []string{"/log what:stock amount:10g", "/log what:losses amount:5g", clear, noon}, true},
		{"planned food without animals", "source:well temp:25C stock:20g feed:0.3", []string{clear, noon}, true},
	} {
		r := waterTank(t, x.setup, x.lines...)("/safe")
		if s := r.Data.(Safe).Since; slices.Contains(s, "feed") != x.named || strings.Contains(r.Text, "test ammonia and nitrite now") != x.named {
			t.Errorf("%s: %v since the test:\n%s", x.why, s, r.Text)
		}
	}
}
