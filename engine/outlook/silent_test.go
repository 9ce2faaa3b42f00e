package outlook

import (
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestSilentKeeper: a tank that was read clear every ten days, with the first dose noted alone,
// is expected sooner than one whose keeper notes doses and gave no other: it may have been dosed
// all the while.
func TestSilentKeeper(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Method: model.Dosed, Media: model.Sponge, Conditioner: true,
		Given: model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true, Media: true}}
	read := func(day unit.Days, ammonia, nitrite float64) model.Reading {
		return model.Reading{Day: day, Ammonia: &model.Seen{Low: ammonia, High: ammonia}, Nitrite: &model.Seen{Low: nitrite, High: nitrite}}
	}
	done := func(doses int) float64 {
		c := model.Case{Setup: set, Readings: []model.Reading{read(1, 2, 0), read(10, 1, 1), read(20, 0, 2), read(30, 0, 0)}}
		for range doses { // together 2 mg/L on the first day
			c.Events = append(c.Events, model.Event{Kind: model.Dose, N: unit.MgIon(2 / float64(doses)).N(unit.Ammonia)})
		}
		full, _ := model.Complete(c, 30.1)
		o := Of(fit.Fit(full, 30.1, fit.Hypothesis{}, 1024))
		if o.Done.P50 == nil {
			t.Fatalf("%d doses: no day", doses)
		}
		return *o.Done.P50
	}
	one, two := done(1), done(2)
	t.Logf("done around day %.0f with one dose noted, %.0f with two", one, two)
	if one > two-5 {
		t.Errorf("done around day %.0f with one dose noted, %.0f with two; want five days sooner at least", one, two)
	}
}
