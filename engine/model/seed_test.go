package model

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ripen/engine/unit"
	"ripen/testdata"
)

// seeded is a 60 L tank of 25 C and this pH, without bacteria of its own.
func seeded(ph float64, change func(*Setup), events ...Event) *Run {
	s := Setup{Volume: 60, PH: ph, KH: unit.DKH(6).CaCO3(), Temp: 25, Media: Sponge, MediaVolume: 0.6}
	s.Given = Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true}
	if change != nil {
		change(&s)
	}
	p := NewPlan(Case{Setup: Typical(s), Events: events}, 1)
	par := Central()
	r := p.Start(&par)
	r.To(0, nil)
	return r
}

func asTold(*Setup) {}

// What a gap or time takes is held to the papers that the laws rest on.
func TestSurvival_Published(t *testing.T) {
	for _, x := range []struct {
		name      string
		share     float64
		low, high float64
		source    string
	}{
		{"10 C colder", seeded(7.6, asTold).Survival(&Event{Kind: Seed, DonorTemp: 35}).Temp, 0.79, 0.81, "a fifth less than expected: Hwang & Oleszkiewicz 2007"},
		{"fresh water to the sea", seeded(7.6, func(s *Setup) { s.Salinity = 35 }).Survival(&Event{Kind: Seed, DonorSalinity: new(0.)}).Salinity, 0, 0.1, "hardly recovered: Gonzalez-Silva et al. 2021"},
		{"the sea to fresh water", seeded(7.6, asTold).Survival(&Event{Kind: Seed, DonorSalinity: new(35.)}).Salinity, 0.3, 0.8, "stood it well: Gonzalez-Silva et al. 2021"},
		{"a day in air at 20 C", math.Pow(MoistWarm.left(1, 1), math.Pow(starvingTheta, 20-warmBag)), 0.81, 0.83, "0.2 a day: Siegrist et al. 1999"},
		{"dried for a month", Dried.left(30, 1) / MoistWarm.left(30, 1), 0, 0.1, "a tenth or less: Vogelsang et al."},
		{"nothing told", seeded(7.6, asTold).Survival(&Event{Kind: Seed}).All(), 1, 1, "nothing to go by"},
	} {
		if !(x.share >= x.low && x.share <= x.high) {
			t.Errorf("%s leaves %.3f, want %g to %g (%s)", x.name, x.share, x.low, x.high, x.source)
		}
	}
}

// Losses without food in air, and what Nitrobacter-like bacteria need, are those of the
// table of kinetics.
func TestSeedConstants_Published(t *testing.T) {
	low, high, found := math.Inf(1), 0.0, false
	for _, r := range testdata.Table(t, "kinetics.csv") {
		switch guild, of := r.Text("guild"), r.Text("parameter"); {
		case of == "decay_rate" && (strings.HasPrefix(guild, "AOB") || strings.HasPrefix(guild, "NOB")):
			low, high = min(low, r.Number("value")), max(high, r.Number("value"))
		case of == "half_sat_nitrite" && guild == "NOB (Nitrobacter enrichment)" && r.Number("value") == kNitrobacter:
			found = true
		}
	}
	if !found {
		t.Errorf("no row has a half-saturation of %g mg N/L for Nitrobacter", kNitrobacter)
	}
	if starving < low || starving > high {
		t.Errorf("%g a day is outside the decay rates of the table, %g to %g", starving, low, high)
	}
}

// A larger gap, more acid and a longer way never leave more, in any direction; cool
// and wet is never worse than warm and wet, nor that than dry.
func TestSurvival_Monotone(t *testing.T) {
	falls := func(name string, share func(x float64) float64, xs ...float64) {
		last := math.Inf(1)
		for _, x := range xs {
			v := share(x)
			if !(v <= last && v >= 0 && v <= 1) {
				t.Errorf("%s: %g leaves %g after %g", name, x, v, last)
			}
			last = v
		}
	}
	salty := seeded(8.2, func(s *Setup) { s.Salinity = 20 })
	at := seeded(7.4, asTold)
	ph := at.PH()
	for _, sign := range []float64{-1, 1} {
		falls("pH", func(x float64) float64 { return at.Survival(&Event{DonorPH: ph + sign*x}).All() }, 0, 0.2, 0.5, 1, 2, 3)
		falls("temperature", func(x float64) float64 { return at.Survival(&Event{DonorTemp: 25 + unit.Celsius(sign*x)}).All() }, 0, 1, 3, 8, 15)
		falls("salinity", func(x float64) float64 { return salty.Survival(&Event{DonorSalinity: new(20 + sign*x)}).All() }, 0, 1, 5, 10, 20)
	}
	falls("acid", func(x float64) float64 { return seeded(7.4-x, asTold).Survival(&Event{}).All() }, 0, 0.3, 0.6, 1, 2, 3)
	for _, k := range []Kept{MoistWarm, MoistCool, Dried} {
		falls("hours", func(x float64) float64 { return at.Survival(&Event{Hours: x, Kept: k}).All() }, 0, 0.5, 3, 12, 24, 72, 720)
	}
	for _, h := range []float64{0.5, 6, 24, 100, 720} {
		of := func(k Kept) float64 { return at.Survival(&Event{Hours: h, Kept: k}).All() }
		if cool, warm, dry := of(MoistCool), of(MoistWarm), of(Dried); !(cool > warm && warm > dry) {
			t.Errorf("%g h: %.3f cool, %.3f warm, %.3f dry", h, cool, warm, dry)
		}
	}
}

// What a seed brings is what survives of it, and is counted as nitrogen brought in.
func TestSeedBringsWhatSurvives(t *testing.T) {
	none := seeded(7.4, asTold)
	whole := seeded(7.4, asTold, Event{Kind: Seed, Volume: 0.3})
	e := Event{Kind: Seed, Volume: 0.3, DonorPH: 6.9, DonorTemp: 18, DonorSalinity: new(8.), Hours: 30, Kept: MoistCool}
	part := seeded(7.4, asTold, e)
	share := none.Survival(&e).All()
	if share <= 0.05 || share >= 0.9 {
		t.Fatalf("%.3f survives, which tries nothing", share)
	}
	for i := range whole.State.B {
		all, some := whole.State.B[i]-none.State.B[i], part.State.B[i]-none.State.B[i]
		if math.Abs(some-share*all) > 1e-12 {
			t.Errorf("guild %d: %g of %g, want the share %.3f", i, some, all, share)
		}
	}
	if in := part.Ledger.In - none.Ledger.In; math.Abs(in-(part.State.Nitrogen()-none.State.Nitrogen())) > 1e-12 {
		t.Errorf("%g mg N/L brought in, and it is not there", in)
	}
}

// No more seed comes in than the tank has room for, whatever was typed.
func TestSeedFits(t *testing.T) {
	full, slip := seeded(7.4, asTold, Event{Kind: Seed, Volume: 60}), seeded(7.4, asTold, Event{Kind: Seed, Volume: 10000})
	if half := seeded(7.4, asTold, Event{Kind: Seed, Volume: 30}); slip.State.B != full.State.B || half.State.B[NOB] >= full.State.B[NOB] {
		t.Errorf("30, 60 and 10,000 L in 60 L bring %v, %v and %v", half.State.B, full.State.B, slip.State.B)
	}
}

// Of cultures those of the kind that lives in tanks bring most, eaters of waste
// nothing; acidic water halves and halves again what any of them brings.
func TestCultureContent(t *testing.T) {
	of := func(c Content, ph float64) (b [Guilds]float64) {
		none, r := seeded(ph, asTold), seeded(ph, asTold, Event{Kind: Culture, Content: c})
		for i := range b {
			b[i] = r.State.B[i] - none.State.B[i]
		}
		return b
	}
	order := []Content{Nitrospira, Nitrobacter, Heterotrophs}
	for i, c := range order[1:] {
		if more, less := of(order[i], 7.6), of(c, 7.6); !(more[AOB] > less[AOB] && more[NOB] > less[NOB]) {
			t.Errorf("content %d brings %v, %d brings %v", order[i], more, c, less)
		}
	}
	if of(Heterotrophs, 7.6) != [Guilds]float64{} {
		t.Error("heterotrophs nitrify")
	}
	for _, c := range []Content{Nitrospira, Nitrobacter, UnknownContent} {
		if alkaline, acid := of(c, 7.6), of(c, 6.3); acid[NOB] > alkaline[NOB]/3 {
			t.Errorf("content %d: %v in acidic water, %v in alkaline", c, acid, alkaline)
		}
	}
}

// The wide log-normal that a culture of unknown content is worth says much the same as
// the mixture that it stands for, from where a culture saves days on.
func TestUnknownContentIsMixture(t *testing.T) {
	const sd = 1.1 // of log Gift, package fit
	below := func(v, median, spread float64) float64 {
		return 0.5 * math.Erfc(-math.Log(v/median)/spread/math.Sqrt2)
	}
	for _, v := range []float64{0.06, 0.12, 0.27, 1} {
		wide := below(v, 0.06, 2*sd)
		mixture := 0.25 + 0.30*below(v, bottle*lingers*atLowNitrite(), sd) + 0.45*below(v, bottle, sd)
		if math.Abs(wide-mixture) > 0.08 {
			t.Errorf("worth below %g: %.2f by the log-normal, %.2f by the mixture", v, wide, mixture)
		}
	}
}

// Logs from before seeds and cultures told more keep their keys, and so the random
// numbers and answers that hang on them; what is told anew makes a key of its own.
func TestKeysOfOlderLogs(t *testing.T) {
	events := []Event{
		{Seq: 3, Day: 2.5, Kind: Seed, Volume: 0.5, DonorPH: 7.25},
		{Seq: 4, Day: 3, Kind: Culture},
		{Seq: 5, Day: 3.125, Kind: Dose, N: 1.5529684572315, Salt: true},
		{Seq: 6, Day: 4, Kind: Cleaned, Fraction: 0.5, Harsh: true, Treated: No},
		{Seq: 7, Day: 5, Kind: PlantsAdded, Plants: ManyFast},
		{Seq: 8, Day: 6, Kind: Outage, Hours: 12.5},
		{Seq: 9, Day: 7, Kind: Stocked, Mass: 4e-7},
		{Seq: 10, Day: 8, Kind: Buffer, Alk: 59.57, Assumed: true},
	}
	key := func(change func(e []Event)) uint64 {
		e := slices.Clone(events)
		change(e)
		return NewPlan(Case{Setup: Typical(Setup{Volume: 60}), Events: e}, 20).Keys([]float64{20})[0]
	}
	old := key(func([]Event) {})
	if old != 17881972468131151868 { // printed by the program before these facts could be told
		t.Errorf("the key of an older log is %d", old)
	}
	seen := map[uint64]bool{old: true}
	for i, change := range []func(e []Event){
		func(e []Event) { e[0].DonorTemp = 20 }, func(e []Event) { e[0].DonorSalinity = new(0.) }, func(e []Event) { e[0].DonorSalinity = new(20.) },
		func(e []Event) { e[0].Hours = 20 }, func(e []Event) { e[0].Kept = Dried }, func(e []Event) { e[1].Content = Nitrospira }, func(e []Event) { e[1].Content = Heterotrophs },
	} {
		k := key(change)
		if seen[k] {
			t.Errorf("change %d has the key of another log", i)
		}
		if seen[k] = true; k != key(change) {
			t.Errorf("change %d: the key hangs on more than its values", i)
		}
	}
}
