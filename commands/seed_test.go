package commands

import (
	"math"
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/tryout"
	"ripen/engine/unit"
)

// Gain of the fake is five days for what is of alike water and fresh, and less by what
// a hundred hours and a unit of pH take.
func (fakeAdviser) Gain(c model.Case, _ unit.Days, of model.Event) (tryout.Gain, error) {
	found := false
	for _, e := range c.Events {
		found = found || e == of
	}
	if !found {
		return tryout.Gain{}, tryout.ErrNotLogged
	}
	if of.Kind == model.Culture {
		d := []float64{2, 4, 1, 0}[of.Content]
		return tryout.Gain{Saved: outlook.Quantiles{P10: new(0.), P50: new(d), P90: new(3 * d)}, Helps: d / 5}, nil
	}
	l := fakeLives(c, of)
	d := 5 * l.All()
	return tryout.Gain{Saved: outlook.Quantiles{P10: new(0.), P50: new(d), P90: new(3 * d)}, Helps: 0.7, Lives: l}, nil
}

func fakeLives(c model.Case, e model.Event) *tryout.Lives {
	l := &tryout.Lives{Survival: model.Survival{PH: 1, Acid: 1, Temp: 1, Salinity: 1, Air: math.Exp(-e.Hours / 100)}, TankPH: c.Setup.PH, TankTemp: c.Setup.Temp, TankSalinity: c.Setup.Salinity}
	if e.DonorPH > 0 {
		l.PH = math.Exp(-math.Abs(e.DonorPH - c.Setup.PH))
	}
	if e.DonorTemp > 0 {
		l.Temp = math.Exp(-math.Abs(float64(e.DonorTemp-c.Setup.Temp)) / 20)
	}
	if e.DonorSalinity != nil {
		l.Salinity = math.Exp(-math.Abs(*e.DonorSalinity-c.Setup.Salinity) / 20)
	}
	return l
}

// The reply to a seed and a culture says what it should save, how much of a seed lives
// on, what costs it, and what to do; every number of it is in the data.
func TestLoggedGain(t *testing.T) {
	for _, x := range []struct {
		line  string
		want  []string
		lacks []string
	}{
		{"what:seed amount:0.5L", []string{"seed 0.5 L.", "Against not adding it: about 5 days sooner (0 to 15); helps with a chance of 70 %.", "with donor-ph: and hours: I can say it"}, []string{"should live on"}},
		{"what:seed amount:0.5L donor-ph:7.5 donor-temp:68F donor-salinity:0", []string{"from a tank at pH 7.5, 20 °C, 0 g/kg salt.", "About 100 % of its bacteria should live on."}, []string{"Better:", "I can say it"}},
		{"what:seed amount:0.5L donor-ph:6", []string{"About 22 % of its bacteria should live on: the step from pH 6 to 7.5 leaves 22 %. Better: several smaller seeds", "best between 7.0 and 7.4"}, []string{"wet and cool"}},
		{"what:seed hours:2d kept:dry", []string{"48 h out of water (dry)", "48 h out of water (dry) leave 62 %. Next time carry seed over wet and cool"}, []string{"Better:", ", 48 h."}},
		{"what:seed donor-temp:30C donor-salinity:35", []string{"the step from 30 °C to 20 °C leaves 61 %, the step from 35 to 0 g/kg salt leaves 17 %. Better: several smaller seeds some days apart, from a tank with about your temperature, and about your salt."}, []string{"7.4"}},
		{"what:culture amount:10ml content:nitrospira", []string{"culture 10 ml, content: nitrospira.", "about 4 days sooner"}, []string{"label"}},
		{"what:culture", []string{"about 2 days sooner", "content:nitrospira, nitrobacter or heterotrophs"}, []string{"content: unknown"}},
		{"what:culture content:unknown", []string{"content: unknown.", "if its label names the bacteria"}, nil},
		{"what:culture content:Nitrobacter", []string{"mostly fade"}, nil},
		{"what:culture content:heterotrophs", []string{"makes no difference that counts", "neither ammonia nor nitrite"}, nil},
	} {
		b := triedBook(t, "dosed")
		line := "/log " + x.line
		reply := must(t, b, triedAt, line)
		checkReply(t, line, reply)
		for _, want := range x.want {
			if !strings.Contains(reply.Text, want) {
				t.Errorf("%s lacks %q:\n%s", line, want, reply.Text)
			}
		}
		for _, not := range x.lacks {
			if strings.Contains(reply.Text, not) {
				t.Errorf("%s says %q:\n%s", line, not, reply.Text)
			}
		}
	}
}

// What was told of a seed and a culture comes back out of the store as it was told, and
// /undo leaves nothing of it.
func TestSeedKept(t *testing.T) {
	b := triedBook(t, "dosed")
	st := b.store
	before := dump(t, st, "wren")
	must(t, b, triedAt, "/log what:seed amount:0.5L donor-ph:7.2 donor-temp:68F donor-salinity:3 hours:30min kept:moist-cool")
	e := theOnlyCase(t, b).Events[0]
	if e.DonorSalinity == nil || *e.DonorSalinity != 3 || e.DonorPH != 7.2 || !near(float64(e.DonorTemp), 20) || !near(e.Hours, 0.5) || e.Kept != model.MoistCool || e.Volume != 0.5 {
		t.Errorf("%+v", e)
	}
	if text := must(t, b, triedAt, "/share").Text; !strings.Contains(text, "from a tank at pH 7.2, 20 °C, 3 g/kg salt, 0.5 h out of water (moist-cool)") {
		t.Errorf("the story lacks where the seed came from:\n%s", text)
	}
	must(t, b, triedAt, "/log what:culture content:nitrobacter")
	if e := theOnlyCase(t, b).Events[1]; e.Content != model.Nitrobacter {
		t.Errorf("%+v", e)
	}
	must(t, b, triedAt, "/undo")
	must(t, b, triedAt, "/undo")
	if after := dump(t, st, "wren"); after != before {
		t.Errorf("before %s\nafter %s", before, after)
	}
}

// Bad values are refused in words that name the value and what fits, and store nothing.
func TestSeedBadInput(t *testing.T) {
	b := triedBook(t, "dosed")
	before := dump(t, b.store, "wren")
	for _, x := range []struct {
		line, code, option string
		says               []string
	}{
		{"/log what:seed amount:100L", CodeRange, "amount", []string{`"100L"`, "60 L", "amount:0.5L"}},
		{"/log what:seed hours:-3", CodeRange, "hours", []string{`"-3"`, "0.05 to 720 h"}},
		{"/log what:seed hours:90d", CodeRange, "hours", []string{`"90d"`, "720 h"}},
		{"/log what:seed donor-temp:90C", CodeRange, "donor-temp", []string{`"90C"`, "4 to 40"}},
		{"/log what:seed donor-temp:5ppm", CodeUnit, "donor-temp", []string{"5ppm"}},
		{"/log what:seed donor-salinity:400", CodeRange, "donor-salinity", []string{`"400"`, "0 to 45"}},
		{"/log what:seed kept:frozen hours:3", CodeChoice, "kept", []string{"frozen", "moist-cool"}},
		{"/log what:seed kept:dry", CodeMissing, "hours", []string{"hours:12"}},
		{"/log what:seed content:nitrospira", CodeUnknownOption, "content", []string{"what:seed"}},
		{"/log what:culture content:yeast", CodeChoice, "content", []string{"yeast", "nitrospira"}},
		{"/log what:culture donor-ph:7", CodeUnknownOption, "donor-ph", []string{"what:culture"}},
		{"/log what:medicine kept:dry hours:3", CodeUnknownOption, "kept", []string{"what:medicine"}},
		{"/tryout donor-temp:20C", CodeMissing, "seed", []string{"donor-temp goes with seed"}},
		{"/tryout hours:3 temp:25C", CodeMissing, "seed", []string{"hours goes with seed"}},
		{"/tryout seed:0.5L kept:dry", CodeMissing, "hours", []string{"hours:12"}},
		{"/tryout seed:0.5L donor-salinity:-2", CodeRange, "donor-salinity", []string{`"-2"`, "0 to 45"}},
		{"/tryout culture:yes", CodeChoice, "culture", []string{"nitrospira"}},
	} {
		r := tell(t, b, triedAt, x.line)
		if r.OK || r.Err.Code != x.code || r.Err.Option != x.option {
			t.Errorf("%s: %v %+v, want %s %s", x.line, r.Text, r.Err, x.code, x.option)
			continue
		}
		for _, want := range x.says {
			if !strings.Contains(r.Text, want) {
				t.Errorf("%s: %q lacks %q", x.line, r.Text, want)
			}
		}
	}
	if after := dump(t, b.store, "wren"); after != before {
		t.Error("a refused line changed the store")
	}
}

// Once readings came after a seed, /outlook says what they make of it.
func TestOutlookSeeded(t *testing.T) {
	b := triedBook(t, "dosed")
	must(t, b, "2026-03-02T09:00:00Z", "/log what:seed donor-ph:7.5")
	if text := must(t, b, triedAt, "/outlook").Text; strings.Contains(text, "The seed of") {
		t.Errorf("nothing was read yet:\n%s", text)
	}
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:1")
	reply := must(t, b, triedAt, "/outlook")
	checkReply(t, "/outlook", reply)
	if want := "The seed of day 1, judged by your readings since, against none: about 5 days sooner"; !strings.Contains(reply.Text, want) {
		t.Errorf("lacks %q:\n%s", want, reply.Text)
	}
	must(t, b, "2026-03-06T09:00:00Z", "/log what:culture content:heterotrophs")
	must(t, b, "2026-03-07T09:00:00Z", "/log what:culture content:nitrospira")
	if text := must(t, b, triedAt, "/outlook").Text; !strings.Contains(text, "The seed of day 1") {
		t.Errorf("the culture was not read after:\n%s", text)
	}
	must(t, b, "2026-03-08T09:00:00Z", "/reading ammonia:1")
	if text := must(t, b, triedAt, "/outlook").Text; !strings.Contains(text, "The culture of day 6") {
		t.Errorf("lacks the culture:\n%s", text)
	}
}
