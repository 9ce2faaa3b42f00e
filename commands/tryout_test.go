package commands

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Tryout of the fake saves a day for each degree, and two with everything.
func (fakeAdviser) Tryout(c model.Case, _ unit.Days, changes ...tryout.Change) (tryout.Result, error) {
	before := tryout.Water{PH: c.Setup.PH, KH: c.Setup.KH, Temp: c.Setup.Temp, Ammonia: 1.5, FreeAmmonia: 0.024, Oxygen: 8.9}
	r := tryout.Result{Before: before, Animals: c.Setup.Method == model.FishIn, Horizon: 180, NotWithin: 0.31}
	for _, x := range changes {
		t := tryout.Trial{Saved: outlook.Quantiles{P10: new(-0.2), P50: new(0.1), P90: new(0.3)}, After: before, NotWithin: 0.31}
		switch x := x.(type) {
		case tryout.Temp:
			d := float64(unit.Celsius(x) - c.Setup.Temp)
			t.Already = d == 0
			t.Saved = outlook.Quantiles{P10: new(d / 2), P50: new(d), P90: new(3 * d)}
			t.Helps, t.NotWithin = 0.93, 0.08
			t.After.Temp, t.After.Oxygen = unit.Celsius(x), 7.9
			t.Effects = []tryout.Effect{tryout.LessOxygen}
		case tryout.PH:
			t.After.PH, t.After.FreeAmmonia = float64(x), 0.31
			t.Effects = []tryout.Effect{tryout.FallsBack, tryout.FreesAmmonia}
			if r.Animals {
				t.Effects = append(t.Effects, tryout.PHJump, tryout.Poison)
			}
		case tryout.KH:
			if float64(x) < float64(before.KH) {
				return r, &tryout.LowerKH{Asked: unit.MgCaCO3(x), Now: before.KH}
			}
		case tryout.WaterChange:
			t.Saved = outlook.Quantiles{P10: new(-9.0), P50: new(-4.0), P90: new(0.1)}
			t.Harms, t.After.Ammonia = 0.71, 0.9
			t.Effects = []tryout.Effect{tryout.Chlorine}
			if x.Treated == model.Yes {
				t.Effects = []tryout.Effect{tryout.Diluted}
			}
		case tryout.Seed:
			t.Lives = fakeLives(c, x.Event())
		case tryout.Dose:
			r.Fit = "poor" // for the words
			t.After.Ammonia += x.N
			t.Effects = []tryout.Effect{tryout.LargeDose}
		}
		r.Each = append(r.Each, t)
	}
	if len(changes) > 1 {
		all := r.Each[0]
		all.Saved = outlook.Quantiles{P10: new(-1.0), P50: new(5.0), P90: new(9.0)}
		r.Together = &all
	}
	return r, nil
}

// tried is a book with a tank of 20 C at pH 7.5 and 6 dKH, with animals or without.
func triedBook(t *testing.T, method string) *Book {
	t.Helper()
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L ph:7.5 kh:6dKH temp:20C media:sponge media-volume:0.6L method:"+method)
	return b
}

const triedAt = "2026-03-09T09:00:00Z"

// What was asked goes to the engine in the engine's units, and comes back in the
// member's words.
func TestTryoutWords(t *testing.T) {
	b := triedBook(t, "dosed")
	for _, x := range []struct {
		line string
		want []string
	}{
		{"/tryout temp:27C", []string{"27 °C instead of 20 °C: about 7 days sooner (4 to 21); helps with a chance of 93 %.", "31 % as now, 8 % with this", "less oxygen: 7.9 mg/L at 27 °C instead of 8.9 at 20 °C", "nothing was noted", "Days past day 180 are not counted", "Unplug heater"}},
		{"/tryout temp:80.6F", []string{"27 °C instead of 20 °C"}},
		{"/tryout temp:20", []string{"it is so already"}},
		{"/tryout water-change:40% conditioned:no", []string{"40 % of the water changed, not conditioned: about 4 days later (0 to 9); sets it back with a chance of 71 %.", "chlorine"}},
		{"/tryout water-change:40% conditioned:yes", []string{"conditioned: about", "ammonia goes from about 1.9 to 1.2 mg/L"}},
		{"/tryout water-change:40%", []string{"conditioned as you usually do"}},
		{"/tryout dose:5ppm", []string{"A dose of 5 mg/L ammonia now", "above 4 mg/L is large", "Ammonia stings"}},
		{"/tryout ph:8.5", []string{"pH 8.5 instead of about 7.5: makes no difference that counts.", "rises to 0.31 mg/L NH3 from 0.024"}},
		{"/tryout media:ceramic media-volume:2L", []string{"Media ceramic 2 L instead of sponge 0.6 L"}},
		{"/tryout media-volume:2L", []string{"Media sponge 2 L instead of sponge 0.6 L"}},
		{"/tryout seed:0.5L donor-ph:7", []string{"0.5 L of seed media, from a tank at pH 7: ", "About 61 % of its bacteria should live on: the step from pH 7 to 7.5 leaves 61 %. Better: several"}},
		{"/tryout seed:0.5L donor-temp:20C hours:4d kept:moist-cool", []string{"from a tank at 20 °C, 96 h out of water (moist-cool)", "96 h out of water (moist-cool) leave 38 %"}},
		{"/tryout seed:0.5L culture:nitrospira", []string{"- 0.5 L of seed media: ", "- A bottled culture, content nitrospira: "}},
		{"/tryout plants:many-fast flow:strong conditioned:no", []string{"All together: about 5 days sooner (1 later to 9 sooner)", "- Plants many-fast instead of none", "- Flow strong instead of normal", "- New water not conditioned from now on"}},
	} {
		reply := must(t, b, triedAt, x.line)
		checkReply(t, x.line, reply)
		for _, want := range x.want {
			if !strings.Contains(reply.Text, want) {
				t.Errorf("%s lacks %q:\n%s", x.line, want, reply.Text)
			}
		}
		if together := reply.Data.(Tryout).Together; (together != nil) != (len(reply.Data.(Tryout).Changes) > 1) {
			t.Errorf("%s: together %v with %d changes", x.line, together, len(reply.Data.(Tryout).Changes))
		}
	}
}

// With animals in, what endangers them is told with care, also of all together.
func TestTryoutAnimals(t *testing.T) {
	text := must(t, triedBook(t, "fish-in"), triedAt, "/tryout ph:8.5 flow:strong").Text
	for _, want := range []string{"Careful: the pH moves from 7.5 to 8.5 with animals in", "Careful: free ammonia comes to 0.31 mg/L NH3, above the 0.05", "no more than about 0.3 of pH a day", "welfare comes first"} {
		if !strings.Contains(text, want) {
			t.Errorf("lacks %q:\n%s", want, text)
		}
	}
	if text := must(t, triedBook(t, "dosed"), triedAt, "/tryout ph:8.5").Text; strings.Contains(text, "areful") || strings.Contains(text, "welfare") {
		t.Errorf("without animals:\n%s", text)
	}
}

// What cannot be tried is refused with the value, the range and a way out.
func TestTryoutRefused(t *testing.T) {
	b := triedBook(t, "dosed")
	for _, x := range []struct {
		line, code, option string
		says               []string
	}{
		{"/tryout", CodeNothing, "", []string{"up to 5", "/tryout temp:27C"}},
		{"/tryout tank:nano", CodeNothing, "", []string{"say what to change"}},
		{"/tryout temp:27C kh:8dKH ph:8 dose:1 plants:few-fast flow:strong", CodeRange, "", []string{"6 changes", "1 to 5"}},
		{"/tryout temp:27C kh:8dKH ph:8 dose:1 water-change:20% conditioned:yes", CodeRange, "", []string{"6 changes"}},
		{"/tryout temp:60C", CodeRange, "temp", []string{`"60C"`, "4 to 40"}},
		{"/tryout kh:2dKH", CodeRange, "kh", []string{`"2dKH"`, "6 dKH", "changing water"}},
		{"/tryout water-change:400%", CodeRange, "water-change", []string{`"400%"`, "1 to 100"}},
		{"/tryout water-change:0%", CodeRange, "water-change", []string{"1 to 100"}},
		{"/tryout ph:15", CodeRange, "ph", []string{"3.5 to 10.5"}},
		{"/tryout dose:-1", CodeRange, "dose", []string{"0.01 to 50"}},
		{"/tryout dose:5g", CodeUnit, "dose", []string{"5g"}},
		{"/tryout plants:lots", CodeChoice, "plants", []string{"many-fast"}},
		{"/tryout seed:100L", CodeRange, "seed", []string{"60 L"}},
		{"/tryout media-volume:100L", CodeRange, "media-volume", []string{"60 L"}},
		{"/tryout media:none media-volume:1L", CodeMissing, "media", []string{"media:sponge"}},
		{"/tryout donor-ph:7", CodeMissing, "seed", []string{"seed:0.5L"}},
		{"/tryout member:wren temp:27C", CodeRights, "member", []string{"moderators"}},
		{"/tryout temp:27C tank:other", CodeUnknownTank, "tank", []string{"nano"}},
	} {
		r := tell(t, b, triedAt, x.line)
		if r.OK || r.Err.Code != x.code || r.Err.Option != x.option {
			t.Errorf("%s: %+v, want %s %s", x.line, r, x.code, x.option)
			continue
		}
		for _, want := range x.says {
			if !strings.Contains(r.Text, want) {
				t.Errorf("%s: %q lacks %q", x.line, r.Text, want)
			}
		}
	}
}

// A poor fit is said wherever something rests on it, in the same words.
func TestPoorFitSaid(t *testing.T) {
	b := triedBook(t, "dosed")
	if text := must(t, b, triedAt, "/tryout dose:5ppm").Text; strings.Count(text, poorFit) != 1 {
		t.Errorf("a poor fit is not said, or twice:\n%s", text)
	}
	if text := must(t, b, triedAt, "/tryout temp:27C").Text; strings.Contains(text, poorFit) {
		t.Errorf("a fit that is not poor is said to be:\n%s", text)
	}
	s := must(t, b, triedAt, "/stock grams:10g").Data.(Stock)
	if strings.Contains(s.Text(), poorFit) {
		t.Errorf("a fit that is not poor is said to be:\n%s", s.Text())
	}
	if s.Fit = "poor"; !strings.Contains(s.Text(), poorFit) {
		t.Errorf("a poor fit is not said:\n%s", s.Text())
	}
	if text := (Why{Verdict: "slow", Fit: "poor"}).Text(); !strings.Contains(text, poorFit) {
		t.Errorf("/why says it in other words:\n%s", text)
	}
}

// TestWashedOut: of new water the levels that stand are told, and none of nil.
func TestWashedOut(t *testing.T) {
	for _, tt := range []struct {
		before, after WaterAt
		want          string
	}{
		{WaterAt{Ammonia: 0, Nitrite: 5.2}, WaterAt{Ammonia: 0, Nitrite: 2.6}, "; nitrite goes from about 5.2 to 2.6 mg/L"},
		{WaterAt{Ammonia: 1, Nitrite: 0.4}, WaterAt{Ammonia: 0.5, Nitrite: 0.2}, "; ammonia goes from about 1 to 0.5 mg/L and nitrite goes from about 0.4 to 0.2 mg/L"},
		{WaterAt{Ammonia: 0.01}, WaterAt{}, ""},
	} {
		if got := washedOut(tt.before, tt.after); got != tt.want {
			t.Errorf("%+v to %+v: %q, want %q", tt.before, tt.after, got, tt.want)
		}
	}
}

// TestTryoutRead: what was read stands beside what is likely, where they differ as printed.
func TestTryoutRead(t *testing.T) {
	for _, tt := range [][3]string{{"7.2", "7.0", "7.2 (you read 7.0)"}, {"7.2", "7.2", "7.2"}, {"7.2", "", "7.2"}} {
		if got := beside(tt[0], tt[1]); got != tt[2] {
			t.Errorf("%q beside %q: %q, want %q", tt[1], tt[0], got, tt[2])
		}
	}
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", `/tank new name:"moss bowl" volume:60L ph:7.4 kh:2dKH`)
	must(t, b, "2026-03-10T09:00:00Z", `/reading ph:7.0 kh:1dKH`)
	for line, want := range map[string]string{"2026-03-12T09:00:00Z": "(you read 7)", "2026-03-20T09:00:00Z": ""} {
		text := must(t, b, line, `/tryout ph:8`).Text
		if want == "" && strings.Contains(text, "you read") || !strings.Contains(text, want) {
			t.Errorf("at %s: %s", line, text)
		}
	}
}
