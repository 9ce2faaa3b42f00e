package outlook_test

import (
	"strings"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// soft is a tank of little hardness whose ammonia went down twice and then stood, with more
// told on the way.
func soft(told func(*model.Case)) model.Case {
	see := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(3).CaCO3(), Temp: 25,
		Given: model.Given{PH: true, KH: true, Temp: true}})}
	for _, day := range []unit.Days{0, 9.1, 12.1} {
		c.Events = append(c.Events, model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(3).N(unit.Ammonia)})
	}
	for _, x := range []struct{ day, ammonia, nitrite float64 }{{5, 2, 0.5}, {9, 0.5, 5}, {12, 0.25, 5}, {15, 2, 5}, {18, 2, 5}, {22, 2, 5}} {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(x.day), Ammonia: see(x.ammonia), Nitrite: see(x.nitrite)})
	}
	if told != nil {
		told(&c)
	}
	return c
}

// TestCrash: ammonia that stands is odd, unless hardness that was used up explains it; then
// it is told so, until something raised it again.
func TestCrash(t *testing.T) {
	ph, kh, low, up := 6.0, unit.MgCaCO3(0), unit.DKH(0.5).CaCO3(), unit.DKH(5).CaCO3()
	of := func(told func(*model.Case)) outlook.Outlook {
		return outlook.Of(fit.Fit(soft(told), 22, fit.Hypothesis{}, 512))
	}
	gone := func(c *model.Case, dosed unit.Days, clear int) {
		c.Events = append(c.Events, model.Event{Day: dosed, Kind: model.Dose, N: c.Setup.Target})
		c.Readings[clear].Ammonia, c.Readings[clear].Nitrite = &model.Seen{}, &model.Seen{}
	}
	odd := func(o outlook.Outlook) bool { return strings.Contains(strings.Join(o.Odd, " "), "ammonia 2 on day 1") }
	if o := of(nil); o.Crash != "" || o.Fit == "good" {
		t.Errorf("nobody read a crash: %q, fit %s, odd %q", o.Crash, o.Fit, o.Odd)
	}
	for _, tt := range []struct {
		reason string
		told   func(*model.Case)
		shows  string
	}{
		{"the hardness read", func(c *model.Case) { c.Readings[4].KH = &kh }, "KH 0.0 dKH on day 18"},
		{"the pH read", func(c *model.Case) { c.Readings[4].PH = &ph }, "pH 6.0 on day 18 after 7.4"},
		{"read again, though water was changed", func(c *model.Case) {
			c.Readings[3].KH, c.Readings[4].KH = &kh, &kh
			c.Events = append(c.Events, model.Event{Day: 16, Kind: model.WaterChange, Fraction: 0.25, Treated: model.Yes})
		}, "KH 0.0 dKH on day 18"},
		{"read twice, the last counts", func(c *model.Case) { c.Readings[3].KH, c.Readings[4].KH = &low, &kh }, "KH 0.0 dKH on day 18"},
		{"changed since, by too little", func(c *model.Case) {
			c.Readings[4].KH = &kh
			c.Events = append(c.Events, model.Event{Day: 20, Kind: model.WaterChange, Fraction: 0.25, Treated: model.Yes})
		}, "KH 0.0 dKH on day 18"},
		{"a dose was gone before it", func(c *model.Case) { c.Readings[4].KH = &kh; gone(c, 14, 4) }, "KH 0.0 dKH on day 18"},
		{"told as an edit", func(c *model.Case) { c.Changes = []model.Change{{Day: 18, KH: &kh}} }, "KH 0.0 dKH on day 18"},
	} {
		if o := of(tt.told); o.Crash != tt.shows || odd(o) || o.Fit == "poor" {
			t.Errorf("%s: %q, fit %s, odd %q", tt.reason, o.Crash, o.Fit, o.Odd)
		}
	}
	for _, tt := range []struct {
		reason string
		told   func(*model.Case)
	}{
		{"buffered since", func(c *model.Case) {
			c.Readings[4].KH = &kh
			c.Events = append(c.Events, model.Event{Day: 20, Kind: model.Buffer, Alk: up})
		}},
		{"changed since, by half", func(c *model.Case) {
			c.Readings[4].KH = &kh
			c.Events = append(c.Events, model.Event{Day: 20, Kind: model.WaterChange, Fraction: 0.5, Treated: model.Yes})
		}},
		{"a dose was gone after it", func(c *model.Case) { c.Readings[4].KH = &kh; gone(c, 19, 5) }},
		{"read again since", func(c *model.Case) { c.Readings[4].KH, c.Readings[5].KH = &kh, &up }},
		{"a pH beside ample hardness", func(c *model.Case) { c.Readings[4].PH, c.Readings[4].KH = &ph, &up }},
		{"soft as it began", func(c *model.Case) { c.Setup.KH = unit.DKH(0.8).CaCO3(); c.Readings[4].KH = &low }},
		{"acid from the start", func(c *model.Case) { c.Setup.PH, c.Setup.KH = 6.2, up; c.Readings[4].PH = &ph }},
	} {
		if o := of(tt.told); o.Crash != "" {
			t.Errorf("%s: %q", tt.reason, o.Crash)
		}
	}
}

// TestCrashIsNotReady: a tank that clears its doses is not called ready once its hardness is used up.
func TestCrashIsNotReady(t *testing.T) {
	kept := cycled([]model.Event{{Day: 16.3, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}, {Day: 17.3, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}},
		[3]float64{17.2, 0, 0}, [3]float64{18.2, 0, 0}, [3]float64{20, 0, 0})
	of := func(kh unit.DKH) outlook.Outlook {
		c := kept
		c.Readings = append(c.Readings[:len(c.Readings):len(c.Readings)], model.Reading{Day: 20, KH: new(kh.CaCO3())})
		return outlook.Of(fit.Fit(c, 20, fit.Hypothesis{}, 1024))
	}
	if o := of(5); o.Stage != "ready" || o.Crash != "" {
		t.Errorf("KH 5: %s, %q", o.Stage, o.Crash)
	}
	if o := of(0); o.Stage != "proving" && o.Stage != "nitrite" || o.Crash == "" {
		t.Errorf("KH 0: %s, %q", o.Stage, o.Crash)
	}
}
