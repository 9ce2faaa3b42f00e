package commands

import (
	"context"
	"math"
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// theOnlyCase replays the record of wren's only tank.
func theOnlyCase(t *testing.T, b *Book) model.Case {
	t.Helper()
	tanks, err := b.store.Tanks(context.Background(), "club", "wren")
	if err != nil || len(tanks) != 1 {
		t.Fatalf("%d tanks, %v", len(tanks), err)
	}
	entries, err := b.store.Entries(context.Background(), tanks[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	c, err := caseOf(tanks[0], entries)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func near(a, b float64) bool { return math.Abs(a-b) < 1e-3*max(1, math.Abs(b)) }

func TestCaseSetup(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/units volume:gal temp:F kh:ppm scale:n")
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:20 ph:7.2 kh:107 temp:77 method:fish-in plants:few-fast media:floss media-volume:0.5 flow:strong source:chloramine conditioner:no salinity:2 altitude:5200ft target:1 stock:5g feed:0.1g")
	must(t, b, "2026-03-01T09:30:00Z", "/units volume:L temp:C kh:dKH scale:ion") // what was typed keeps its units
	s := theOnlyCase(t, b).Setup
	want := model.Setup{
		Volume: 75.708, PH: 7.2, KH: 107, Temp: 25, Salinity: 2, Altitude: 1584.96, Method: model.FishIn, Plants: model.FewFast, Media: model.Floss, MediaVolume: 1.8927,
		Flow: model.Strong, Source: model.Chloraminated, Target: 1, Stock: 5, Feed: 0.1,
		Given: model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true, Stock: true, Feed: true, Target: true},
	}
	for _, x := range [][2]float64{
		{float64(s.Volume), float64(want.Volume)}, {float64(s.KH), float64(want.KH)}, {float64(s.Temp), float64(want.Temp)},
		{float64(s.MediaVolume), float64(want.MediaVolume)}, {float64(s.Target), float64(want.Target)},
		{s.Altitude, want.Altitude},
	} {
		if !near(x[0], x[1]) {
			t.Errorf("%v, want %v", x[0], x[1])
		}
	}
	s.Volume, s.KH, s.Temp, s.MediaVolume, s.Target, s.Altitude = want.Volume, want.KH, want.Temp, want.MediaVolume, want.Target, want.Altitude
	if s != want {
		t.Errorf("%+v, want %+v", s, want)
	}
}

func TestCaseTypical(t *testing.T) {
	tests := []struct {
		line   string
		check  func(model.Setup) bool
		reason string
	}{
		{"", func(s model.Setup) bool { return s.Given == model.Given{} && s.Temp == 25 && s.Conditioner }, "nothing was given"},
		{"", func(s model.Setup) bool { return near(float64(s.Target.Ion(unit.Ammonia)), 2) }, "the command book's target is 2 mg/L of the ion"},
		{"source:ro", func(s model.Setup) bool { return s.KH.DKH() < 3 && s.PH < 7 && !s.Conditioner && s.Given.Source }, "water made from pure water is soft and acidic, and needs no conditioner"},
		{"kh:1dKH", func(s model.Setup) bool { return s.PH < 7 }, "soft water has a low pH"},
		{"ph:6", func(s model.Setup) bool { return s.KH.DKH() < 2 }, "acidic water is soft"},
		{"ph:8.4", func(s model.Setup) bool { return s.KH.DKH() > 6 && s.KH.DKH() < 15 }, "alkaline water is hard"},
		{"method:fish-in", func(s model.Setup) bool { return s.Stock > 0 && s.Feed > 0 && !s.Given.Stock }, "fish are in, and are fed"},
		{"method:food", func(s model.Setup) bool { return s.Feed > 0 && s.Stock == 0 }, "food rots"},
		{"media:none", func(s model.Setup) bool { return s.MediaVolume == 0 && s.Given.Media }, "no media have no volume"},
	}
	for _, tt := range tests {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+tt.line)
		if s := theOnlyCase(t, b).Setup; !tt.check(s) {
			t.Errorf("%q: %+v: %s", tt.line, s, tt.reason)
		}
	}
}

func TestCaseChanges(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7.2 started:\"2026-03-01 09:00\"")
	must(t, b, "2026-03-11T09:00:00Z", "/tank edit temp:28C")
	must(t, b, "2026-03-11T10:00:00Z", "/tank edit ph:7.8 flow:weak at:\"2026-03-06 09:00\"")
	must(t, b, "2026-03-11T11:00:00Z", "/tank edit kh:4dKH at:start")
	must(t, b, "2026-03-11T12:00:00Z", "/tank edit volume:50L target:1ppm method:seeded altitude:1200m")
	must(t, b, "2026-03-11T13:00:00Z", "/tank edit started:\"2026-02-27 09:00\"")
	c := theOnlyCase(t, b)
	if len(c.Changes) != 2 {
		t.Fatalf("%d changes, want 2: %+v", len(c.Changes), c.Changes)
	}
	if x := c.Changes[0]; x.Day != 7 || x.PH == nil || *x.PH != 7.8 || x.Flow == nil || *x.Flow != model.Weak || x.Temp != nil {
		t.Errorf("first change %+v, want pH and flow on day 7 of the corrected start", x)
	}
	if x := c.Changes[1]; x.Day != 12 || x.Temp == nil || *x.Temp != 28 {
		t.Errorf("second change %+v, want temperature on day 12", x)
	}
	if s := c.Setup; s.Volume != 50 || s.Method != model.Seeded || s.Altitude != 1200 || s.PH != 7.2 || s.Temp != 25 || s.Given.Temp || !s.Given.KH || !near(float64(s.KH.DKH()), 4) {
		t.Errorf("set-up %+v: volume, method, altitude and KH are of the start, temperature is not", s)
	}
}

func TestCaseReadings(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	must(t, b, "2026-03-09T09:00:00Z", "/reading ammonia:0.5 nitrite:5+ nitrate:20-40 ph:7.6 kh:5 temp:77F chlorine:0.1 oxygen:8 kit:strip at:\"day 4\"")
	must(t, b, "2026-03-09T09:00:00Z", "/reading ammonia:0.4 scale:n at:\"day 2\"")
	c := theOnlyCase(t, b)
	if len(c.Readings) != 2 || c.Readings[0].Day != 2 || c.Readings[1].Day != 4 {
		t.Fatalf("readings are not by day: %+v", c.Readings)
	}
	if r := c.Readings[0]; *r.Ammonia != (model.Seen{Low: 0.4, High: 0.4, AsN: true}) || r.Nitrite != nil || r.Kit != model.Liquid {
		t.Errorf("%+v", r)
	}
	r := c.Readings[1]
	if *r.Ammonia != (model.Seen{Low: 0.5, High: 0.5}) || *r.Nitrite != (model.Seen{Low: 5, High: 5, Over: true}) || *r.Nitrate != (model.Seen{Low: 20, High: 40}) {
		t.Errorf("%v %v %v", r.Ammonia, r.Nitrite, r.Nitrate)
	}
	if *r.PH != 7.6 || !near(float64(*r.KH), 89.24) || !near(float64(*r.Temp), 25) || *r.Chlorine != 0.1 || *r.Oxygen != 8 || r.Kit != model.Strip {
		t.Errorf("%+v", r)
	}
}

func TestCaseEvents(t *testing.T) {
	const mass = "atomic masses of IUPAC 2021"
	tests := []struct {
		line   string
		want   model.Event
		source string
	}{
		{"what:dose amount:2ppm", model.Event{Kind: model.Dose, N: 1.5530}, "2 x 14.007/18.039: " + mass},
		{"what:dose amount:2 detail:\"ammonium chloride\"", model.Event{Kind: model.Dose, N: 1.5530, Salt: true}, "a salt by its name"},
		{"what:feed amount:0.5g", model.Event{Kind: model.FeedOnce, Mass: 0.5}, "as typed"},
		{"what:water-change amount:40% conditioned:no", model.Event{Kind: model.WaterChange, Fraction: 0.4, Treated: model.No}, "as typed"},
		{"what:water-change amount:15L", model.Event{Kind: model.WaterChange, Fraction: 0.25}, "15 of 60 L"},
		{"what:conditioner", model.Event{Kind: model.Conditioned}, "an amount is not needed"},
		{"what:buffer amount:6g", model.Event{Kind: model.Buffer, Alk: 59.57}, "1 g NaHCO3 is 595.7 mg CaCO3: 1000 x 100.086/(2 x 84.006), " + mass},
		{"what:buffer amount:6g detail:\"potassium bicarbonate\"", model.Event{Kind: model.Buffer, Alk: 49.99}, "1 g KHCO3 is 499.9 mg CaCO3: " + mass},
		{"what:buffer amount:6g detail:\"sodium carbonate\"", model.Event{Kind: model.Buffer, Alk: 94.43}, "1 g Na2CO3 is 944.3 mg CaCO3: " + mass},
		{"what:buffer amount:2dKH", model.Event{Kind: model.Buffer, Alk: 35.695}, "2 x 17.848"},
		{"what:seed amount:0.5L donor-ph:7.4", model.Event{Kind: model.Seed, Volume: 0.5, DonorPH: 7.4}, "as typed"},
		{"what:culture amount:10ml", model.Event{Kind: model.Culture}, "strength unknown"},
		{"what:plants detail:many-fast", model.Event{Kind: model.PlantsAdded, Plants: model.ManyFast}, "as typed"},
		{"what:media amount:2L", model.Event{Kind: model.MediaAdded, Volume: 2}, "as typed"},
		{"what:clean amount:50% detail:\"under the tap\"", model.Event{Kind: model.Cleaned, Fraction: 0.5, Harsh: true}, "tap water kills"},
		{"what:clean detail:\"hot water\"", model.Event{Kind: model.Cleaned, Harsh: true}, "heat kills"},
		{"what:clean detail:\"replaced the floss\"", model.Event{Kind: model.Cleaned, Harsh: true}, "what is gone is gone"},
		{"what:clean detail:\"in tank water, not tap\"", model.Event{Kind: model.Cleaned}, "it says not"},
		{"what:clean detail:\"tap water\" conditioned:yes", model.Event{Kind: model.Cleaned, Treated: model.Yes}, "conditioned tap water spares"},
		{"what:medicine hours:2d", model.Event{Kind: model.Medicine, Hours: 48}, "as typed"},
		{"what:outage hours:12", model.Event{Kind: model.Outage, Hours: 12}, "as typed"},
		{"what:stock amount:4g", model.Event{Kind: model.Stocked, Mass: 4}, "as typed"},
		{"what:losses", model.Event{Kind: model.Losses}, "the weight may be unknown"},
	}
	for _, tt := range tests {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
		must(t, b, "2026-03-04T09:00:00Z", "/log "+tt.line)
		must(t, b, "2026-03-04T09:00:00Z", "/log what:note detail:words")
		c := theOnlyCase(t, b)
		if len(c.Events) != 1 {
			t.Fatalf("%s: %d events, want 1", tt.line, len(c.Events))
		}
		got := c.Events[0]
		if got.Day != 3 || !near(float64(got.N), float64(tt.want.N)) || !near(float64(got.Alk), float64(tt.want.Alk)) {
			t.Errorf("%s: %+v, want %+v: %s", tt.line, got, tt.want, tt.source)
		}
		got.Day, got.Seq, got.N, got.Alk = 0, 0, tt.want.N, tt.want.Alk
		if got != tt.want {
			t.Errorf("%s: %+v, want %+v: %s", tt.line, got, tt.want, tt.source)
		}
	}
}

// TestCaseOrder: a reading and a dose of the same moment keep the order in which
// they were told, since a test before the dose does not see it.
func TestCaseOrder(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	must(t, b, "2026-03-04T09:00:00Z", "/reading ammonia:0")
	must(t, b, "2026-03-04T09:00:00Z", "/log what:dose amount:2ppm")
	must(t, b, "2026-03-04T09:00:00Z", "/reading ammonia:2")
	c := theOnlyCase(t, b)
	if len(c.Readings) != 2 || len(c.Events) != 1 {
		t.Fatalf("%d readings and %d events, want 2 and 1", len(c.Readings), len(c.Events))
	}
	if before, dose, after := c.Readings[0].Seq, c.Events[0].Seq, c.Readings[1].Seq; before >= dose || dose >= after {
		t.Errorf("reading, dose, reading have the order %d, %d, %d", before, dose, after)
	}
}

// TestOutlookUntold: an old tank of which nothing was told that bacteria live on is asked
// for that before anything is foretold.
func TestOutlookUntold(t *testing.T) {
	r := Outlook{Untold: true, HorizonDays: 426}
	r.Advice = r.advice()
	if text := r.Text(); !strings.HasPrefix(text, "No ammonia, food or animals were told of so far") || !strings.Contains(text, "/log what:dose") {
		t.Error(text)
	}
	r = Outlook{HorizonDays: 426}
	if text := r.Text(); strings.Contains(text, "were told of so far") {
		t.Error(text)
	}
}
