package outlook_test

import (
	"strings"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// cycled is a tank that cleared doses by day 16, and what came then.
func cycled(events []model.Event, readings ...[3]float64) model.Case {
	see := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(8).CaCO3(), Temp: 25,
		Given: model.Given{PH: true, KH: true, Temp: true}})}
	for _, day := range []unit.Days{0, 14.1, 15.2} {
		c.Events = append(c.Events, model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)})
	}
	c.Events = append(c.Events, events...)
	for _, x := range append([][3]float64{{5, 1, 1}, {10, 0, 2}, {14, 0, 0}, {15.1, 0, 0}, {16.2, 0, 0}}, readings...) {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(x[0]), Ammonia: see(x[1]), Nitrite: see(x[2])})
	}
	return c
}

// TestStageAgain: a tank that was done is back where its tests show it; one such test, which
// may be a slip, is told and takes the word "ready" back.
func TestStageAgain(t *testing.T) {
	dose := func(day unit.Days) model.Event {
		return model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}
	}
	washed := []model.Event{{Day: 20, Kind: model.Cleaned, Harsh: true}, dose(21)}
	for _, tt := range []struct {
		reason  string
		c       model.Case
		now     unit.Days
		stage   string
		again   bool
		against string
	}{
		{"it clears its doses", cycled(nil), 16.3, "", false, ""},
		{"a fresh dose is no step back", cycled([]model.Event{dose(17)}), 17.1, "", false, ""},
		{"its media were replaced", cycled(washed, [3]float64{23, 2, 0}, [3]float64{26, 2, 0.25}), 26, "ammonia", true, ""},
		{"it stood idle for weeks, and one test shows ammonia", cycled([]model.Event{dose(46)}, [3]float64{48, 2, 0}), 48, "proving", false, "ammonia 2 mg/L on day 48"},
		{"and a second one as much", cycled([]model.Event{dose(46)}, [3]float64{48, 2, 0}, [3]float64{51, 2, 0.25}), 51, "ammonia", true, ""},
	} {
		o := outlook.Of(fit.Fit(tt.c, tt.now, fit.Hypothesis{}, 1024))
		right := o.Stage == tt.stage || tt.stage == "" && (o.Stage == "ready" || o.Stage == "proving")
		if !right || o.Again != tt.again || o.Against != tt.against {
			t.Errorf("%s: %s, again %v, against %q; want %q, %v, %q", tt.reason, o.Stage, o.Again, o.Against, tt.stage, tt.again, tt.against)
		}
		if stands := strings.Contains(o.Stands, "last 2 tests"); tt.reason[0] == 'a' && tt.again && !stands {
			t.Errorf("%s: nothing stands", tt.reason)
		}
	}
}
