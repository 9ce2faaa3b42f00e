package advise

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestDaysAsOnCalendars: days that are told are those of a calendar, for tanks that differ in
// nothing but the time of day at which they began as well.
func TestDaysAsOnCalendars(t *testing.T) {
	see := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Given: model.Given{KH: true, PH: true}}),
		Events:   []model.Event{{Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}},
		Readings: []model.Reading{{Day: 11.3, Ammonia: see(0), Nitrite: see(5), KH: new(unit.MgCaCO3(0))}}}
	e := New(4)
	for began, want := range map[float64]string{0: "KH 0.0 dKH on day 11", 0.6: "KH 0.0 dKH on day 11", 0.8: "KH 0.0 dKH on day 12"} {
		c.Began = began
		if o, err := e.Outlook(c, 11.3); err != nil || o.Crash != want {
			t.Errorf("begun at %g of a day: %q, %v; want %q", began, o.Crash, err, want)
		}
	}
}
