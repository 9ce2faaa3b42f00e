package outlook

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestPassedOnce: a whole dose that was noted and is clear a day later is a challenge passed; anything
// less is not.
func TestPassedOnce(t *testing.T) {
	for _, tt := range []struct {
		reason           string
		dose, at         float64 // mg/L, days before the test
		ammonia, nitrite float64
		want             bool
	}{
		{"a whole dose, a day", 2, 1, 0, 0, true},
		{"half a dose", 1, 1, 0, 0, false},
		{"two days", 2, 2, 0, 0, false},
		{"some hours", 2, 0.2, 0, 0, false},
		{"ammonia is left", 2, 1, 0.25, 0, false},
		{"nitrite is", 2, 1, 0, 0.5, false},
	} {
		c := model.Case{Setup: model.Typical(model.Setup{Volume: 60})}
		c.Events = []model.Event{{Day: unit.Days(20 - tt.at), Kind: model.Dose, N: unit.MgIon(tt.dose).N(unit.Ammonia)}}
		c.Readings = []model.Reading{{Day: 20, Ammonia: &model.Seen{Low: tt.ammonia, High: tt.ammonia}, Nitrite: &model.Seen{Low: tt.nitrite, High: tt.nitrite}}}
		if got := passedOnce(model.NewPlan(c, 20)); got != tt.want {
			t.Errorf("%s: passed is %v", tt.reason, got)
		}
	}
}
