package stocking

import (
	"encoding/json"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
)

// TestOddTanks: whatever the tank, the advice is made of numbers, and says what goes
// with it.
func TestOddTanks(t *testing.T) {
	if testing.Short() {
		t.Skip("fits twelve tanks")
	}
	for name, change := range map[string]func(*model.Setup){
		"fish":     func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 40, true },
		"too many": func(s *model.Setup) { s.Method, s.Stock, s.Given.Stock = model.FishIn, 5000, true },
		"fasted": func(s *model.Setup) {
			s.Method, s.Stock, s.Feed, s.Given.Stock, s.Given.Feed = model.FishIn, 40, 0, true, true
		},
		"food":      func(s *model.Setup) { s.Method = model.Food },
		"planted":   func(s *model.Setup) { s.Method, s.Plants = model.Planted, model.ManyFast },
		"dark":      func(s *model.Setup) { s.Method = model.DarkStart },
		"sea":       func(s *model.Setup) { s.Salinity, s.PH = 35, 8.2 },
		"acid":      func(s *model.Setup) { s.PH, s.KH = 5, 5 },
		"no media":  func(s *model.Setup) { s.Media, s.MediaVolume = model.NoMedia, 0 },
		"one litre": func(s *model.Setup) { s.Volume, s.MediaVolume = 1, 0.01 },
		"cold":      func(s *model.Setup) { s.Temp = 5 },
		"hot":       func(s *model.Setup) { s.Temp = 40 },
	} {
		p := fit.Fit(read(16, change), 16, fit.Hypothesis{}, 256)
		a := must(t, p, Wish{Animals: 90})
		raw, err := json.Marshal(a)
		if err != nil { // also what is not a number
			t.Errorf("%s: %v", name, err)
		}
		if (a.Now == "wait") != (a.Reason != "") || len(a.Steps) == 0 && (a.Now != "wait" || a.Reason == Soon) {
			t.Errorf("%s: %s", name, raw)
		}
	}
}
