package outlook_test

import (
	"slices"
	"strings"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// stocked is a tank with fish that read nothing for a month, and then these values of
// nitrite, a day apart, the last on day 39.
func stocked(nitrite ...float64) model.Case {
	see := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 200, PH: 7.7, Temp: 21, Method: model.FishIn,
		Given: model.Given{PH: true, Temp: true}})}
	first := 39 - len(nitrite) + 1
	for day := 2; day < first; day += 2 {
		v := 0.0
		if day >= 6 && day <= 16 {
			v = 0.5
		}
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(day), Ammonia: see(v), Nitrite: see(0), Nitrate: see(0)})
	}
	for i, v := range nitrite {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(first + i), Ammonia: see(0), Nitrite: see(v), Nitrate: see(0)})
	}
	return c
}

// TestWhatStands: nitrite that tests in a row show stands though nothing in the log
// explains it, so no such tank is called done; one such test may be a slip, and a
// water change after them makes them old.
func TestWhatStands(t *testing.T) {
	const now = 40
	of := func(c model.Case) outlook.Outlook { return outlook.Of(fit.Fit(c, now, fit.Hypothesis{}, 1024)) }
	said := func(o outlook.Outlook) bool {
		return slices.ContainsFunc(o.Assumed, func(s string) bool { return strings.Contains(s, "stands as the last") })
	}
	calm := of(stocked())
	if said(calm) {
		t.Error("a tank that reads nothing has something that stands")
	}
	if one := of(stocked(4)); said(one) {
		t.Error("a single test stands against the whole log")
	}
	rise := of(stocked(2, 4, 4))
	if !said(rise) || rise.Stands == "" || rise.Stage != "nitrite" || rise.Fit == "good" {
		t.Errorf("three tests of nitrite: stage %s, fit %s, assumed %q", rise.Stage, rise.Fit, rise.Assumed)
	}
	if got := rise.ChanceDoneOn(now); got > 0.05 {
		t.Errorf("with 4 mg/L nitrite the tank is done with a chance of %.2f", got)
	}
	var mids []float64 // of several fits, since one may come out low by chance
	for n := range 5 {
		if mid := outlook.Of(fit.Fit(stocked(2, 4, 4), now, fit.Hypothesis{}, 1024+n)).Next.Nitrite.P50; mid == nil {
			t.Error("the next test of nitrite is not foretold")
		} else {
			mids = append(mids, *mid)
		}
	}
	if slices.Sort(mids); mids[len(mids)/2] < 1 {
		t.Errorf("the next test of nitrite will show %.2f", mids)
	}
	c := stocked(2, 4, 4)
	c.Events = append(c.Events, model.Event{Day: now - 0.5, Kind: model.WaterChange, Fraction: 0.5, Treated: model.Yes})
	if said(of(c)) {
		t.Error("tests before a water change stand after it")
	}
}
