package diagnose

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestLittleSurface: media are too few for a load, not for a volume.
func TestLittleSurface(t *testing.T) {
	dosed := func(mgl float64) model.Setup { return model.Setup{Target: unit.MgIon(mgl).N(unit.Ammonia)} }
	fish := func(grams unit.Grams) model.Setup {
		return model.Setup{Method: model.FishIn, Stock: grams, Given: model.Given{Stock: true}}
	}
	food := model.Setup{Method: model.Food, Feed: 6, Given: model.Given{Feed: true}} // 5.1 mg N/L a day
	for _, tt := range []struct {
		reason string
		setup  model.Setup
		media  unit.Litres
		few    bool
		ample  float64 // L
	}{
		{"plenty for 1 mg/L", dosed(1), 0.12, false, 1},
		{"too little for 2", dosed(2), 0.12, true, 1},
		{"enough for 2", dosed(2), 0.2, false, 1},
		{"too little for 4", dosed(4), 0.2, true, 2},
		{"none carries nothing", dosed(0.5), 0, true, 1},
		{"a few grams of fish", fish(5), 0.02, false, 1},
		{"a crowd", fish(300), 0.15, true, 2.5},
		{"food for three doses a day", food, 0.3, true, 3.3},
	} {
		set := tt.setup
		set.Volume, set.Media, set.MediaVolume = 60, model.Sponge, tt.media
		set.Given.Media, set.Given.MediaVolume = true, true
		s := studied(model.Case{Setup: set, Readings: []model.Reading{read(2, 1, 0)}}, 3)
		if got := float64(s.ampleSurface()); s.littleSurface() != tt.few || math.Abs(got-tt.ample) > 0.06 {
			t.Errorf("%s: too little %v, ample %.2f L at %.2f mg N/L a day; want %v, %.2f", tt.reason, s.littleSurface(), got, s.load(), tt.few, tt.ample)
		}
	}
}
