package outlook

import (
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
