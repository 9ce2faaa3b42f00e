package commands

import (
	"context"
	"encoding/json"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/nexttest"
	"ripen/engine/outlook"
	"ripen/engine/stocking"
	"ripen/engine/unit"
	"ripen/store"
	"ripen/store/sqlite"
)

// newStore returns an empty store that the test closes.
func newStore(t testing.TB) store.Store {
	t.Helper()
	db, err := sqlite.OpenTemp(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// clock reads a time of a test.
func clock(s string) time.Time {
	t, err := time.Parse(time.RFC3339, s)
	if err != nil {
		panic(err)
	}
	return t
}

// said makes a request of what a member typed.
func said(at time.Time, member, line string) (Request, *Error) {
	r := Request{At: at, Club: "club", Member: member}
	if post, ok := strings.CutPrefix(line, "!add"); ok {
		r.Command, r.Post = "add", strings.ReplaceAll(strings.TrimSpace(post), `\n`, "\n")
		return r, nil
	}
	var err *Error
	r.Command, r.Sub, r.Options, err = ParseLine(line)
	return r, err
}

// tell sends a typed line and returns the reply.
func tell(t testing.TB, b *Book, at, line string) Reply {
	t.Helper()
	r, err := said(clock(at), "wren", line)
	if err != nil {
		return refusal(err)
	}
	return b.Do(context.Background(), r)
}

// must is tell for what has to succeed.
func must(t testing.TB, b *Book, at, line string) Reply {
	t.Helper()
	reply := tell(t, b, at, line)
	if !reply.OK {
		t.Fatalf("%s: %s (%s)", line, reply.Text, reply.Err.Code)
	}
	return reply
}

// dump is all that a store holds of a member, to see whether it changed.
func dump(t testing.TB, st store.Store, member string) string {
	t.Helper()
	ctx := context.Background()
	m, err := st.Member(ctx, "club", member)
	if err != nil {
		t.Fatal(err)
	}
	tanks, err := st.Tanks(ctx, "club", member)
	if err != nil {
		t.Fatal(err)
	}
	all := []any{m, tanks}
	for _, x := range tanks {
		entries, err := st.Entries(ctx, x.ID)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, entries)
	}
	s, err := json.Marshal(all)
	if err != nil {
		t.Fatal(err)
	}
	return string(s)
}

// printed finds the numbers of a text. A digit behind a letter, as in NH3, is
// part of a name.
var printed = regexp.MustCompile(`(?:^|[^0-9A-Za-z.])([0-9]+(?:\.[0-9]+)?)`)

// unfounded returns the numbers of a text that its data does not hold at the
// precision that they are printed with.
func unfounded(text string, data any) []string {
	raw, err := json.Marshal(data)
	if err != nil {
		return []string{err.Error()}
	}
	var held []float64
	for _, m := range regexp.MustCompile(`[0-9]+(?:\.[0-9]+)?(?:[eE][+-]?[0-9]+)?`).FindAllString(string(raw), -1) {
		v, err := strconv.ParseFloat(m, 64)
		if err == nil {
			held = append(held, v)
		}
	}
	var missing []string
	for rest := text; ; {
		m := printed.FindStringSubmatchIndex(rest)
		if m == nil {
			return missing
		}
		s := rest[m[2]:m[3]]
		rest = rest[m[3]:]
		v, _ := strconv.ParseFloat(s, 64)
		_, fraction, _ := strings.Cut(s, ".")
		slack := 0.5*math.Pow10(-len(fraction)) + 1e-9
		found := false
		for _, h := range held {
			found = found || math.Abs(h-v) <= slack
		}
		if !found {
			missing = append(missing, s)
		}
	}
}

func TestUnfounded(t *testing.T) {
	data := map[string]any{"a": 5.37, "when": "2026-03-14T09:00:00Z", "p": 12}
	for _, tt := range []struct {
		text string
		want int
	}{
		{"5.4 mg/L of NH3 on 14 March 2026, 12 %", 0},
		{"5.3 mg/L", 1},
		{"day 13 of 15", 2},
		{"5.37-12", 0},
	} {
		if got := unfounded(tt.text, data); len(got) != tt.want {
			t.Errorf("%q: %v, want %d missing", tt.text, got, tt.want)
		}
	}
}

// fakeAdviser answers from the case alone, so that tests of words need no
// engine: the more readings, the surer it is.
type fakeAdviser struct{}

func fakeSpread(mid, width float64) outlook.Quantiles {
	return outlook.Quantiles{P10: new(mid - width), P50: new(mid), P90: new(mid + 2*width)}
}

func (fakeAdviser) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	n := float64(len(c.Readings))
	o := outlook.Outlook{
		Day: float64(now), Horizon: 180, Stage: "ammonia", Done: fakeSpread(24.3, 14/(1+n)), ChanceNotWithin: 0.004,
		ChanceBy:     map[int]float64{7: 0.05, 14: 0.31, 30: 0.9, 60: 0.997},
		ChanceDoneOn: func(d float64) float64 { return 1 - math.Exp(-d/24) },
		Milestones:   []outlook.Milestone{{Name: "ammonia-clear", Day: fakeSpread(11, 2)}, {Name: "nitrite-peak", Day: fakeSpread(14, 2)}, {Name: "nitrite-clear", Day: fakeSpread(23.6, 4)}},
		Next:         outlook.NextReading{Day: math.Floor(float64(now)) + 2, Ammonia: fakeSpread(0.62, 0.3), Nitrite: fakeSpread(2.4, 1), Nitrate: fakeSpread(12, 4)},
		Readings:     len(c.Readings), Fit: "good", KeepUp: "you dose 2 mg/L of ammonia whenever it is clear",
	}
	if n == 0 {
		o.Fit = "none"
	}
	for d := range 31 {
		x := float64(d)
		o.Course = append(o.Course, outlook.Point{Day: x, Ammonia: fakeSpread(2*math.Exp(-x*x/90), 0), Nitrite: fakeSpread(4*math.Exp(-(x-14)*(x-14)/30), 0), Nitrate: fakeSpread(x, 0)})
	}
	last := model.Reading{}
	if len(c.Readings) > 0 {
		last = c.Readings[len(c.Readings)-1]
	}
	switch {
	case c.Setup.PH < 6.5:
		o.Done, o.Fit, o.Odd = outlook.Quantiles{P10: new(151.0)}, "poor", []string{"ammonia 8 on day 6 is higher than the rest of the log explains"}
		o.ChanceNotWithin = 0.83
	case last.Nitrite != nil && last.Nitrite.Low >= 2:
		o.Stage = "nitrite"
	case last.Nitrate != nil && last.Nitrate.Low >= 40:
		o.Stage, o.Done, o.Assumed = "ready", fakeSpread(float64(now)-3, 1), []string{"a dose of 2 mg/L on day 10"}
	}
	return o, nil
}

func (f fakeAdviser) Why(c model.Case, now unit.Days) (diagnose.Diagnosis, outlook.Outlook, error) {
	o, err := f.Outlook(c, now)
	if c.Setup.PH >= 6.5 {
		return diagnose.Diagnosis{Verdict: "on-track", Delay: fakeSpread(0.2, 0.1)}, o, err
	}
	return diagnose.Diagnosis{Verdict: "stalled", Delay: fakeSpread(31, 12), Causes: []diagnose.Cause{
		{Name: "low-alkalinity", Chance: 0.82, DaysCost: 26, Evidence: []string{"KH 0.5 dKH on day 5"}, Fix: diagnose.Fix{
			Do: "add 4.5 g of baking soda, which brings 2.5 dKH", DoNot: "do not add it all at once", Settle: "test KH again on day 8", Cautions: []string{"label"}}},
		{Name: "acidic-water", Chance: 0.44, DaysCost: 12.2, Evidence: []string{"pH 6.2"}, Fix: diagnose.Fix{Do: "bring the pH above 6.8", Cautions: []string{"label", "mix"}}},
		{Name: "cold-water", Chance: 0.02, DaysCost: 0.1},
	}, Notes: []string{"bacteria in soft water are slow starters"}}, o, err
}

// Stock lets a fifth of a tank's litres in grams of animals in, in two steps once
// a reading was told, and nothing before.
func (fakeAdviser) Stock(c model.Case, now unit.Days, w stocking.Wish) (stocking.Advice, error) {
	if w.Animals < 0 || w.Animals > stocking.MostAnimals*unit.Grams(c.Setup.Volume) {
		return stocking.Advice{}, stocking.ErrWish
	}
	a := stocking.Advice{Day: float64(now), Capacity: fakeSpread(41.4, 12), Feed: fakeSpread(0.41, 0.12), Now: "wait", Reason: stocking.TooSmall,
		Limits: stocking.Limits{Ammonia: 1.3, Free: 0.05, Nitrite: 0.197}, Change: 0.25, Every: 7}
	a.Wanted = stocking.Load{Animals: max(w.Animals, w.Feed/model.Ration), Feed: max(w.Feed, model.Ration*w.Animals)}
	if a.Planned = a.Wanted.Feed > 0; !a.Planned {
		a.Wanted = stocking.Load{Animals: 18, Feed: 0.27}
	}
	peaks := func(x float64) *stocking.Peaks {
		return &stocking.Peaks{Ammonia: fakeSpread(x, 0), Free: fakeSpread(x/50, 0), Nitrite: fakeSpread(2*x, 0), Chance: 1 / (1 + x)}
	}
	a.AtOnce = peaks(1.37)
	if a.Rest = a.Wanted; len(c.Readings) == 0 {
		return a, nil
	}
	half := stocking.Load{Animals: a.Wanted.Animals / 2, Feed: a.Wanted.Feed / 2}
	a.Now, a.Reason, a.Rest, a.Staged = "part", "", stocking.Load{}, peaks(0.07)
	a.Steps = []stocking.Step{{Day: a.Day, Add: half, Total: half, Chance: 0.97}, {Day: a.Day + 7, Add: half, Total: a.Wanted, Chance: 0.93}}
	return a, nil
}

func (f fakeAdviser) NextTest(c model.Case, now unit.Days) (nexttest.Advice, outlook.Outlook, error) {
	o, err := f.Outlook(c, now)
	day := math.Floor(float64(now)) + 3
	a := nexttest.Advice{
		Now: float64(now), Horizon: o.Horizon, Entropy: 3, Before: nexttest.Window{P10: day + 2, P50: day + 10, P90: day + 25},
		Skip: []string{nexttest.Nitrate}, Today: []nexttest.Candidate{{What: nexttest.Nitrate, Day: float64(now), Low: 5, High: 40}, {What: nexttest.KH, Day: float64(now), Bits: 0.2, Low: 2, High: 6}},
		Coming: []nexttest.Candidate{{What: nexttest.Nitrite, Day: day, Bits: 0.41, Low: 2, High: 5, Over: true,
			After: nexttest.Window{P10: day + 4, P50: day + 10, P90: day + 18},
			If: []nexttest.Branch{{Step: 2, Chance: 0.4, Done: nexttest.Window{P10: day + 1, P50: day + 6, P90: day + 12}},
				{Step: 5, Open: true, Chance: 0.6, Done: nexttest.Window{P10: day + 8, P50: day + 14, P90: o.Horizon}}}}},
	}
	if !c.Setup.Given.KH {
		a.Unread = []string{nexttest.KH}
	}
	if c.Setup.Method == model.FishIn {
		a.Keep = []string{nexttest.Ammonia, nexttest.Nitrite}
	}
	if o.Stage == "ready" {
		a.Skip = []string{nexttest.Ammonia, nexttest.Nitrite, nexttest.Nitrate}
	} else if c.Setup.PH >= 6.5 {
		a.Best = &a.Coming[0]
	}
	return a, o, err
}
