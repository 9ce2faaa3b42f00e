package commands

import (
	"slices"
	"strings"
	"testing"
	"time"

	"ripen/engine/advise"
)

// The engine itself behind the command: a tank in its nitrite stage.
func TestNextTest(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(advise.New(4)))
	lines := []struct{ at, line string }{
		{"2026-03-01T09:00:00Z", "/tank new name:first volume:60L ph:7.6 kh:6dKH temp:25C plants:none media:sponge source:chlorine conditioner:yes"},
		{"2026-03-01T09:05:00Z", "/log what:dose amount:2ppm"},
		{"2026-03-04T18:00:00Z", "/reading ammonia:2 nitrite:0.25 nitrate:5"},
		{"2026-03-07T18:00:00Z", "/reading ammonia:1 nitrite:2 nitrate:5"},
		{"2026-03-10T18:00:00Z", "/reading ammonia:0 nitrite:5 nitrate:5"},
		{"2026-03-10T18:05:00Z", "/log what:dose amount:2ppm"},
		{"2026-03-12T18:00:00Z", "/reading ammonia:0 nitrite:5+ nitrate:5-10"},
	}
	for _, x := range lines {
		must(t, b, x.at, x.line)
	}
	before := dump(t, st, "wren")
	reply := must(t, b, "2026-03-12T18:05:00Z", "/next-test")
	checkReply(t, "/next-test", reply)
	r := reply.Data.(NextTest)
	if r.Stage != "nitrite" || r.Best == nil || r.Best.What != "nitrite" || r.Best.Day <= r.Now || r.Best.Day > r.Now+float64(r.Days) {
		t.Fatalf("in stage %s the best test is %+v", r.Stage, r.Best)
	}
	if !strings.HasPrefix(reply.Text, "Test nitrite on day ") || !strings.Contains(reply.Text, " March); it will likely show ") {
		t.Errorf("the answer does not come first: %s", reply.Text)
	}
	if !slices.Contains(r.Skip, "nitrate") || !strings.Contains(reply.Text, "You may skip ") {
		t.Errorf("nitrate was read minutes ago, may be skipped: %v", r.Skip)
	}
	o := must(t, b, "2026-03-12T18:05:00Z", "/outlook").Data.(Outlook)
	if *o.DoneDay.P50 != *r.Done.P50 {
		t.Errorf("done around day %g here, %g in /outlook", *r.Done.P50, *o.DoneDay.P50)
	}
	for _, line := range []string{"/next-test tank:frist", "/next-test days:9", "/next-test member:siskin", "/next-test tank:first tank:first"} {
		if reply := tell(t, b, "2026-03-12T18:06:00Z", line); reply.OK || !reply.Private {
			t.Errorf("%s was taken: %s", line, reply.Text)
		}
	}
	if dump(t, st, "wren") != before {
		t.Error("asking changed the store")
	}

	// The same tank with animals in it: safety comes first.
	must(t, b, "2026-03-12T19:00:00Z", "/log what:stock amount:5g")
	reply = must(t, b, "2026-03-12T19:05:00Z", "/next-test")
	checkReply(t, "/next-test", reply)
	r = reply.Data.(NextTest)
	if slices.Contains(r.Skip, "ammonia") || slices.Contains(r.Skip, "nitrite") || !strings.HasPrefix(reply.Text, "Animals are in: test ammonia and nitrite every day") {
		t.Errorf("with animals in: %s", reply.Text)
	}
}

// No engine, no answer.
func TestNextTest_Unavailable(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:first volume:60L")
	if reply := tell(t, b, "2026-03-02T09:00:00Z", "/next-test"); reply.OK || reply.Err.Code != CodeUnavailable {
		t.Errorf("without an engine: %+v", reply)
	}
}

// A hardness that is used up already does not run out within days, and a tank that was
// never tested skips no test that /outlook asks for.
func TestNextTestSays(t *testing.T) {
	for _, x := range []struct {
		setup, line string
		says, never string
	}{
		{"kh:3dKH", "/reading ammonia:1 nitrite:0 kh:0 ph:6", "KH is used up (0 dKH)", "KH may run out"},
		{"kh:3dKH", "/reading ammonia:1 nitrite:0 kh:0 ph:6", "/amount what:buffer", "skip KH"},
		{"kh:6dKH", "/reading ammonia:1 nitrite:0 kh:6 ph:7.5", "", "KH is used up"},
		{"ph:6.2 kh:10dKH temp:22C method:seeded source:well stock:20g", "", "", "You may skip all tests"},
		{"ph:6.2 kh:10dKH temp:22C method:seeded source:well stock:20g", "", "", "skip ammonia"},
	} {
		b := New(newStore(t), WithAdviser(advise.New(4)))
		must(t, b, "2026-04-20T12:36:00Z", "/tank new name:first volume:60L "+x.setup)
		if x.line != "" {
			must(t, b, "2026-04-20T12:40:00Z", x.line)
		}
		text := must(t, b, "2026-04-20T18:00:00Z", "/next-test").Text
		if !strings.Contains(text, x.says) || strings.Contains(text, x.never) {
			t.Errorf("%s, %s: want %q and never %q:\n%s", x.setup, x.line, x.says, x.never, text)
		}
	}
}

// A last test against all before is made again tomorrow, whatever else would tell little; one
// that goes with them is not.
func TestNextTestAgainst(t *testing.T) {
	for last, again := range map[string]bool{"ammonia:0.5 nitrite:0.25": true, "ammonia:0 nitrite:0": false} {
		b := New(newStore(t), WithAdviser(advise.New(4)))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:bb volume:60L ph:7.4 kh:4dKH temp:25C plants:none media:sponge media-volume:2L flow:normal source:well")
		day := func(n int) string {
			return clock("2026-03-01T09:00:00Z").AddDate(0, 0, n).Format(time.RFC3339)
		}
		for n, line := range map[int]string{10: "ammonia:1 nitrite:1", 16: "ammonia:0 nitrite:5", 22: "ammonia:0 nitrite:5", 28: "ammonia:0 nitrite:1", 55: last} {
			must(t, b, day(n), "/reading "+line)
		}
		for n := 35; n < 55; n++ {
			if n%7 == 0 {
				must(t, b, day(n), "/reading ammonia:0 nitrite:0")
			}
		}
		for n := 0; n < 56; n++ {
			if n%4 == 0 || n >= 28 {
				must(t, b, clock(day(n)).Add(5*time.Minute).Format(time.RFC3339), "/log what:dose amount:2ppm")
			}
			if n%7 == 0 && n > 0 {
				must(t, b, day(n), "/log what:buffer amount:4dKH")
			}
		}
		o := must(t, b, day(56), "/outlook").Data.(Outlook)
		reply := must(t, b, day(56), "/next-test")
		checkReply(t, "/next-test", reply)
		r := reply.Data.(NextTest)
		if r.Against != o.Against || (r.Against != "") != again || again && slices.Contains(r.Skip, "ammonia") || strings.HasPrefix(reply.Text, "Test ammonia and nitrite again tomorrow: the last test shows ammonia 0.5 mg/L on day 55") != again {
			t.Errorf("%s: %q against, %q of /outlook\n%s", last, r.Against, o.Against, reply.Text)
		}
	}
}
