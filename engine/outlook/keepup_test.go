package outlook

import (
	"math"
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestKeepUp: what a keeper is assumed to go on with is what the outlook counts on, in
// words that fit the tank.
func TestKeepUp(t *testing.T) {
	dose := []model.Event{{Day: 1, Kind: model.Dose, N: unit.MgIon(1).N(unit.Ammonia)}}
	meals := []model.Event{{Day: 1, Kind: model.FeedOnce, Mass: 0.5}, {Day: 2, Kind: model.FeedOnce, Mass: 0.5}}
	fed := model.Given{Feed: true}
	for _, tt := range []struct {
		reason string
		setup  model.Setup
		events []model.Event
		says   string
		never  string
	}{
		{"food that was told", model.Setup{Method: model.Food, Feed: 0.6, Given: fed}, nil, "feeding about 0.6 g a day,", "usual"},
		{"food that nobody told is counted on too", model.Setup{Method: model.Food}, nil, "feeding about 1.2 g a day as is usual", ""},
		{"meals stand in for it", model.Setup{Method: model.Food}, meals, "feeding about 0.5 g a day", "usual"},
		{"animals of known weight", model.Setup{Method: model.FishIn, Stock: 20, Given: model.Given{Stock: true}}, nil, "feeding about 0.3 g a day", "ammonia"},
		{"animals that nobody weighed", model.Setup{Method: model.FishIn}, nil, "you go on as now", "feeding"},
		{"food that is only planned", model.Setup{Feed: 2, Given: fed}, nil, "dosing 2 mg/L", "feeding"},
		{"plants that were never dosed", model.Setup{Method: model.Planted, Plants: model.ManyFast}, nil, "trying 2 mg/L", "dosing"},
		{"plants that were", model.Setup{Method: model.Planted, Plants: model.ManyFast}, dose, "dosing 1 mg/L", ""},
		{"a tank still to be dosed", model.Setup{}, nil, "dosing 2 mg/L", ""},
	} {
		tt.setup.Volume = 60
		full, _ := model.Complete(model.Case{Setup: tt.setup, Events: tt.events}, 3)
		got := keepUp(model.NewPlan(full, 3))
		if !strings.Contains(got, tt.says) || tt.never != "" && strings.Contains(got, tt.never) {
			t.Errorf("%s: %q, want %q and not %q", tt.reason, got, tt.says, tt.never)
		}
	}
}

// TestDoseNow: a dose is due when the last test was clear, nothing was dosed since, and nothing
// speaks against it.
func TestDoseNow(t *testing.T) {
	see := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	dose := func(day unit.Days) model.Event {
		return model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(1).N(unit.Ammonia)}
	}
	for _, tt := range []struct {
		reason  string
		ammonia float64
		nitrite float64
		change  func(*model.Case)
		now     unit.Days
		want    float64 // mg/L
	}{
		{"ammonia is clear, nitrite is not", 0, 1, nil, 10.1, 1},
		{"both are", 0, 0, nil, 10.1, 2},
		{"ammonia stands", 0.5, 0, nil, 10.1, 0},
		{"nitrite is off the chart", 0, 5, nil, 10.1, 0},
		{"dosed since", 0, 1, func(c *model.Case) { c.Events = append(c.Events, dose(10.05)) }, 10.1, 0},
		{"the test is old", 0, 1, nil, 14, 0},
		{"soft by the last test", 0, 1, func(c *model.Case) { kh := unit.DKH(1.5).CaCO3(); c.Readings[0].KH = &kh }, 10.1, 0},
		{"animals are in", 0, 0, func(c *model.Case) {
			c.Events = append(c.Events, model.Event{Day: 10.05, Kind: model.Stocked, Mass: 5})
		}, 10.1, 0},
		{"plants start it", 0, 0, func(c *model.Case) { c.Setup.Method = model.Planted }, 10.1, 0},
	} {
		c := model.Case{Setup: model.Setup{Volume: 60}, Events: []model.Event{dose(0)}, Readings: []model.Reading{{Day: 10, Ammonia: see(tt.ammonia), Nitrite: see(tt.nitrite)}}}
		if tt.change != nil {
			tt.change(&c)
		}
		full, _ := model.Complete(c, tt.now)
		if got := float64(doseNow(model.NewPlan(full, tt.now)).Ion(unit.Ammonia)); math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%s: %g mg/L, want %g", tt.reason, got, tt.want)
		}
	}
}
