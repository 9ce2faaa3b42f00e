package model

import (
	"testing"

	"ripen/engine/unit"
)

// TestMeals: a tank that food starts gets what was logged of it, and the usual besides
// only while too little was logged to be all.
func TestMeals(t *testing.T) {
	set := Setup{Method: Food, Volume: 30, PH: 7.5, Temp: 25}
	for _, x := range []struct {
		meals []unit.Grams
		usual bool
	}{
		{nil, true},
		{[]unit.Grams{0.2}, true},
		{[]unit.Grams{0.2, 0.2, 0.2}, false},
		{[]unit.Grams{10}, false},
	} {
		c := Case{Setup: set}
		logged := 0.0
		for i, g := range x.meals {
			c.Events = append(c.Events, Event{Day: unit.Days(i), Kind: FeedOnce, Mass: g})
			logged += float64(g)
		}
		full, _ := Complete(c, 6)
		par := Central()
		r := NewPlan(full, 6).Start(&par)
		r.To(6, nil)
		want := logged * FoodN / float64(set.Volume)
		if x.usual {
			want += 6 * 0.02 * FoodN
		}
		if got := r.Ledger.In - float64(Typical(set).Start.N(unit.Nitrate)) - par.TapNO3; got < 0.95*want || got > 1.05*want {
			t.Errorf("meals %v bring %.2f mg N/L in six days, want %.2f", x.meals, got, want)
		}
	}
}
