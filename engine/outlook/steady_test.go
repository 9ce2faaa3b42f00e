package outlook

import (
	"math"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestSteady: less is left open for who reads nearly daily, and only while it lasts; tests of other
// things, or many on one day, are not what counts.
func TestSteady(t *testing.T) {
	log := func(from, to, gap float64, of func(*model.Reading)) (out []model.Reading) {
		for d := from; d <= to; d += gap {
			r := model.Reading{Day: unit.Days(d)}
			of(&r)
			out = append(out, r)
		}
		return out
	}
	ammonia := func(r *model.Reading) { r.Ammonia = &model.Seen{} }
	ph := func(r *model.Reading) { r.PH = new(7.4) }
	for _, tt := range []struct {
		reason   string
		readings []model.Reading
		now      unit.Days
		want     float64
	}{
		{"none", nil, 20, 0},
		{"daily", log(0.8, 20, 1, ammonia), 20, 1},
		{"every third day", log(0.8, 20, 3, ammonia), 20, 0},
		{"two days of three", append(log(0.8, 20, 3, ammonia), log(1.8, 20, 3, ammonia)...), 20, 0.6},
		{"daily until two weeks ago", log(0.8, 20, 1, ammonia), 35, 0},
		{"the first day", log(0.8, 1, 1, ammonia), 1, 0},
		{"pH alone", log(0.8, 20, 1, ph), 20, 0},
		{"often on two days", log(18.1, 20, 0.1, ammonia), 20, 0},
	} {
		p := model.NewPlan(model.Case{Setup: model.Typical(model.Setup{Volume: 60}), Readings: tt.readings}, tt.now)
		if got := steady(p); math.Abs(got-tt.want) > 0.1 {
			t.Errorf("%s: %.2f, want %.2f", tt.reason, got, tt.want)
		}
	}
	if wide, narrow := straysOf(model.NewPlan(model.Case{Setup: model.Typical(model.Setup{Volume: 60})}, 20)), straysOf(model.NewPlan(model.Case{Setup: model.Typical(model.Setup{Volume: 60}), Readings: log(0.8, 20, 1, ammonia)}, 20)); wide != (strays{drift, beyond}) || narrow.drift >= wide.drift || narrow.beyond >= wide.beyond {
		t.Errorf("none read: %v; read daily: %v", wide, narrow)
	}
}
