package diagnose

import (
	"math"
	"strings"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// studied fits a case with few draws.
func studied(c model.Case, now unit.Days) *study {
	full, _ := model.Complete(c, now)
	p := fit.Fit(full, now, fit.Hypothesis{}, 512)
	return newStudy(p, outlook.Of(p))
}

func read(day unit.Days, ammonia, nitrite float64) model.Reading {
	see := func(x float64) *model.Seen { return &model.Seen{Low: x, High: x} }
	return model.Reading{Day: day, Ammonia: see(ammonia), Nitrite: see(nitrite)}
}

// TestWords: evidence and advice go with the tank.
func TestWords(t *testing.T) {
	all := model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true}
	dosed := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Conditioner: true, Given: all}
	with := func(f func(*model.Setup)) model.Setup { s := dosed; f(&s); return s }
	cold := func(s *model.Setup) { s.Temp = 14 }
	warm := func(r model.Reading) model.Reading { r.Temp = new(unit.Celsius(26)); return r }
	open := func(r model.Reading) model.Reading { r.Ammonia.Over = true; return r }
	soft := func(r model.Reading) model.Reading { r.KH = new(unit.DKH(0.5).CaCO3()); return r }
	salt := 0.0
	for _, tt := range []struct {
		cause, reason string
		setup         model.Setup
		events        []model.Event
		readings      []model.Reading
		now           unit.Days
		days          float64
		says, never   []string
	}{
		{"cold-water", "an empty tank is warmed", with(cold), nil, []model.Reading{read(5, 2, 0)}, 6, 30, []string{"warm it to 27 °C (81 °F)"}, []string{"/safe"}},
		{"cold-water", "a pond with fish is not heated to 27 C", with(func(s *model.Setup) { cold(s); s.Method = model.FishIn; s.Stock = 90; s.Given.Stock = true }), nil, []model.Reading{read(5, 1, 0)}, 6, 30, []string{"as its animals like", "/safe"}, []string{"27 °C"}},
		{"cold-water", "what is warm by now is left so", with(cold), nil, []model.Reading{warm(read(5, 2, 0))}, 6, 30, []string{"began at 14 °C", "is at 26 °C", "nothing more now"}, []string{"warm it"}},
		{"low-alkalinity", "with animals in steps of pH", with(func(s *model.Setup) {
			s.KH = unit.DKH(1).CaCO3()
			s.Method, s.Stock, s.Given.Stock = model.FishIn, 20, true
		}), nil, []model.Reading{read(5, 1, 0)}, 6, 30, []string{"/amount what:buffer"}, []string{"half today"}},
		{"low-alkalinity", "animals are not starved", with(func(s *model.Setup) {
			s.KH, s.Method, s.Stock, s.Given.Stock = unit.DKH(1).CaCO3(), model.FishIn, 20, true
		}),
			nil, []model.Reading{read(5, 1, 0)}, 6, 30, []string{"feed little"}, []string{"do not go on feeding"}},
		{"low-alkalinity", "a buffer after the test counts", dosed, []model.Event{{Day: 5.5, Kind: model.Buffer, Alk: unit.DKH(3).CaCO3()}}, []model.Reading{soft(read(5, 1, 5))}, 6, 30, []string{"KH 0.5 dKH on day 5", "5 dKH: 3."}, nil},
		{"low-alkalinity", "one before the test does not", dosed, []model.Event{{Day: 4.5, Kind: model.Buffer, Alk: unit.DKH(3).CaCO3()}}, []model.Reading{soft(read(5, 1, 5))}, 6, 30, []string{"8.1 g of sodium"}, nil},
		{"ammonia-overdose", "water of the tap is treated", with(func(s *model.Setup) { s.Source = model.Chloraminated }), nil, []model.Reading{read(5, 8, 0)}, 6, 3, []string{"treated against chlorine"}, nil},
		{"ammonia-overdose", "that of a well is not", with(func(s *model.Setup) { s.Source = model.Well }), nil, []model.Reading{read(5, 8, 0)}, 6, 3, []string{"no more than half at once, to bring"}, []string{"chlorine"}},
		{"nitrite-backlog", "nor is it for nitrite", with(func(s *model.Setup) { s.Source = model.Well }), nil, []model.Reading{read(5, 0, 5)}, 6, 6, []string{"no more than half at once, to bring"}, []string{"chlorine"}},
		{"ammonia-overdose", "animals that are many get less food", with(func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 200, true }), nil, []model.Reading{read(5, 4, 0)}, 6, 20, []string{"3 g of food a day", "feed half as much", "/safe"}, nil},
		{"ammonia-overdose", "those that are few do not", with(func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 20, true }), nil, []model.Reading{read(5, 4, 0)}, 6, 20, []string{"/safe"}, []string{"food a day", "feed half"}},
		{"test-artefact", "animals are not left in what may be ammonia", with(func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 20, true }), nil, []model.Reading{read(5, 2, 0)}, 6, 3, []string{"change water as /safe says"}, []string{"do not dose or change"}},
		{"test-artefact", "without animals water is left alone", dosed, nil, []model.Reading{read(5, 2, 0)}, 6, 3, []string{"do not dose or change water"}, []string{"/safe"}},
		{"ammonia-overdose", "a dose after the last test counts", dosed, []model.Event{{Day: 0, Kind: model.Dose, N: unit.MgIon(8).N(unit.Ammonia)}, {Day: 5.1, Kind: model.Dose, N: unit.MgIon(4).N(unit.Ammonia)}},
			[]model.Reading{read(5, 8, 0)}, 6, 3, []string{"from 12 to 2.0 mg/L", "no more than half at once"}, nil},
		{"ammonia-overdose", "a chart's end is not a value", dosed, []model.Event{{Day: 0, Kind: model.Dose, N: unit.MgIon(8).N(unit.Ammonia)}},
			[]model.Reading{open(read(5, 8, 0))}, 6, 3, []string{"read 8.0 mg/L or more", "from 8 or more to 2.0 mg/L"}, nil},
		{"mismatched-seed", "dried and from fresh water", with(func(s *model.Setup) { s.Salinity = 12 }), []model.Event{{Kind: model.Seed, Volume: 1, DonorPH: 7.6, DonorSalinity: &salt, Hours: 72, Kept: model.Dried}},
			[]model.Reading{read(5, 2, 0)}, 6, 3, []string{"into 12 g/kg salt", "out of water for 72 h"}, []string{"came from pH", "7.4"}},
		{"low-phosphate", "the tap seldom lacks it", dosed, nil, []model.Reading{read(5, 2, 0)}, 6, 30, []string{"seldom lacks phosphate"}, []string{"brings little"}},
		{"low-phosphate", "no plant fertiliser into the sea", with(func(s *model.Setup) { s.Salinity, s.Source = 35, model.RO }), nil, []model.Reading{read(5, 2, 0)}, 6, 30, []string{"brings little phosphate", "pinch of food"}, []string{"or a plant fertiliser"}},
		{"nitrite-backlog", "a change that saves nothing is not urged", dosed, nil, []model.Reading{read(5, 0, 5)}, 6, 0.3, []string{"hardly shortens the wait"}, nil},
		{"nitrite-backlog", "one that saves days is", dosed, nil, []model.Reading{read(5, 0, 5)}, 6, 6, []string{"change about 60%"}, []string{"hardly"}},
		{"chlorine", "the habit is evidence", with(func(s *model.Setup) { s.Conditioner = false }), nil, []model.Reading{read(5, 2, 0)}, 6, 6, []string{"is not conditioned"}, nil},
		{"low-alkalinity", "hardness that is up again is not raised", dosed, nil, []model.Reading{read(5, 1, 5)}, 6, 6, []string{"up again"}, []string{"sodium bicarbonate"}},
		{"acidic-water", "soda does not drive out carbon dioxide", with(func(s *model.Setup) { s.PH = 6.3 }), nil, []model.Reading{read(5, 2, 0)}, 6, 6, []string{"carbon dioxide"}, []string{"sodium bicarbonate"}},
		{"acidic-water", "soft water is told how much soda", with(func(s *model.Setup) { s.PH, s.KH = 6.3, unit.DKH(1).CaCO3() }), nil, []model.Reading{read(5, 2, 0)}, 6, 6, []string{"sodium bicarbonate"}, nil},
		{"media-washed", "what was logged is not asked for", dosed, []model.Event{{Day: 3, Kind: model.Cleaned, Harsh: true}}, []model.Reading{read(5, 2, 0)}, 6, 6, []string{"kills bacteria", "mature media"}, nil},
		{"media-washed", "a gentle rinse is no crime", dosed, []model.Event{{Day: 3, Kind: model.Cleaned}}, []model.Reading{read(5, 2, 0)}, 6, 6, []string{"filter cleaned on day 3\n"}, []string{"kills"}},
		{"mismatched-seed", "next to nothing is not 0%", dosed, []model.Event{{Kind: model.Seed, Volume: 1, DonorPH: 5}}, []model.Reading{read(5, 2, 0)}, 6, 3, []string{"hardly any of its bacteria"}, []string{"about 0%"}},
		{"nitrite-backlog", "soil cannot be dosed less", with(func(s *model.Setup) { s.Method = model.DarkStart }), nil, []model.Reading{read(5, 2, 5)}, 6, 0.3, []string{"wait; if you want"}, []string{"dos"}},
		{"nitrite-backlog", "food can be", with(func(s *model.Setup) { s.Method = model.Food }), nil, []model.Reading{read(5, 2, 5)}, 6, 0.3, []string{"feed half as much"}, []string{"dos"}},
		{"no-ammonia-source", "a tank that food starts is told of food first", with(func(s *model.Setup) { s.Method = model.Food }), nil, []model.Reading{read(5, 0, 0)}, 6, 3, []string{"0.9 g of food a day", "or, with no animals in, dose"}, nil},
		{"little-surface", "nothing is not 0 L", with(func(s *model.Setup) { s.Media, s.Given.Media = model.NoMedia, true }), nil, []model.Reading{read(5, 2, 0)}, 6, 3, []string{"no media for 60 L"}, []string{"0 L of media"}},
		{"filter-interrupted", "animals come first after an outage", with(func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 20, true }), []model.Event{{Day: 3, Kind: model.Outage, Hours: 30}}, []model.Reading{read(5, 1, 0)}, 6, 6, []string{"/safe", "for 30 h"}, nil},
	} {
		s := studied(model.Case{Setup: tt.setup, Events: tt.events, Readings: tt.readings}, tt.now)
		evidence, fix := s.words(tt.cause, tt.days, found{})
		text := strings.Join(append(evidence, fix.Do, fix.DoNot), "\n")
		for _, want := range tt.says {
			if !strings.Contains(text, want) {
				t.Errorf("%s, %s: no %q in\n%s", tt.cause, tt.reason, want, text)
			}
		}
		for _, no := range tt.never {
			if strings.Contains(text, no) {
				t.Errorf("%s, %s: %q in\n%s", tt.cause, tt.reason, no, text)
			}
		}
	}
}

// TestPlantsStall: whether plants carry a tank is said one way only. Where they keep
// soft water clear it is on track; where ammonia stands it is stalled, and not called
// otherwise in a note.
func TestPlantsStall(t *testing.T) {
	all := model.Given{PH: true, KH: true, Temp: true, Source: true}
	note := func(d Diagnosis) bool {
		for _, n := range d.Notes {
			if strings.Contains(n, "not a stall") {
				return true
			}
		}
		return false
	}
	soft := model.Setup{Volume: 60, PH: 6.6, KH: unit.DKH(3).CaCO3(), Temp: 24, Method: model.Planted, Plants: model.ManyFast, Source: model.Chloraminated, Given: all}
	s := studied(model.Case{Setup: soft, Readings: []model.Reading{read(3, 0.5, 0), read(7, 0.25, 0), read(14, 0, 0), read(21, 0, 0)}}, 21)
	if d := Of(s.post, s.out); d.Verdict != OnTrack || !note(d) {
		t.Errorf("plants that keep soft water clear: %s, %q", d.Verdict, d.Notes)
	}
	nano := model.Setup{Volume: 20, PH: 6.2, KH: unit.DKH(1).CaCO3(), Temp: 22, Plants: model.FewSlow, Source: model.RO, Given: all}
	s = studied(model.Case{Setup: nano, Events: []model.Event{{Kind: model.Dose, N: unit.MgIon(1).N(unit.Ammonia)}},
		Readings: []model.Reading{read(7, 1, 0), read(14, 1, 0), read(24, 1, 0)}}, 24)
	if d := Of(s.post, s.out); d.Verdict == OnTrack || note(d) {
		t.Errorf("ammonia that stands beside a few plants: %s, %q", d.Verdict, d.Notes)
	}
}

// TestDelayIsTheOutlooks: the delay is the outlook's own days less those of the middle
// tank without a fault, so /why never says more days late than the outlook has.
func TestDelayIsTheOutlooks(t *testing.T) {
	set := model.Setup{Volume: 100, PH: 8, KH: unit.DKH(12).CaCO3(), Temp: 26, Salinity: 10, Given: model.Given{PH: true, KH: true, Temp: true}}
	s := studied(model.Case{Setup: set, Events: []model.Event{{Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}}, Readings: []model.Reading{read(6, 2, 0), read(12, 1, 0.25)}}, 12)
	d := Of(s.post, s.out)
	if d.Delay.P10 == nil || s.out.Done.P10 == nil {
		t.Fatal("no tenth")
	}
	mid := *s.out.Done.P10 - *d.Delay.P10
	if d.Delay.P50 != nil && math.Abs(*s.out.Done.P50-*d.Delay.P50-mid) > 0.11 || mid <= 0 {
		t.Errorf("done %v, late %v", *s.out.Done.P50, *d.Delay.P50)
	}
}
