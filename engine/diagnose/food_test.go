package diagnose

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestOverfed: food that piles ammonia up is named as a dose that does is, and the fix
// is to feed less; a pinch a day is no fault, nor is the food of animals.
func TestOverfed(t *testing.T) {
	set := model.Setup{Volume: 50, PH: 7.4, KH: unit.DKH(5).CaCO3(), Temp: 26, Method: model.Food, Feed: 1, Conditioner: true,
		Given: model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true, Feed: true}}
	c := model.Case{Setup: set, Readings: []model.Reading{read(3, 1, 0), read(7, 4, 0), read(12, 8, 0.5)}}
	s := studied(c, 12)
	d := Of(s.post, s.out)
	i := d.index("ammonia-overdose")
	if i < 0 || d.Causes[i].Chance < 0.8 {
		t.Fatalf("overfed: %+v", d.Causes)
	}
	if text := strings.Join(append(d.Causes[i].Evidence, d.Causes[i].Fix.Do), "\n"); !strings.Contains(text, "1 g of food a day") || !strings.Contains(text, "stop feeding") {
		t.Errorf("overfed: %s", text)
	}
	c.Setup.Feed = 0.1
	c.Readings = []model.Reading{read(3, 0.25, 0), read(7, 1, 0), read(12, 1, 0.5)}
	if s := studied(c, 12); s.fedTooMuch() {
		t.Error("a pinch a day is called too much")
	}
	many := model.Case{Setup: set, Readings: []model.Reading{read(3, 2, 0), read(7, 8, 0.25), read(12, 8, 0.5)}}
	many.Setup.Method, many.Setup.Stock, many.Setup.Feed, many.Setup.Given.Stock, many.Setup.Given.Feed = model.FishIn, 200, 0, true, false
	s = studied(many, 12)
	if d = Of(s.post, s.out); d.index("ammonia-overdose") < 0 {
		t.Error("animals far too many for a young filter are no cause")
	}
	many.Setup.Stock = 20
	many.Readings = []model.Reading{read(3, 0.5, 0), read(7, 1, 0.25), read(12, 0.5, 0.5)}
	s = studied(many, 12)
	if d = Of(s.post, s.out); d.index("ammonia-overdose") >= 0 {
		t.Error("a few animals are called too many")
	}
	c.Setup.Method, c.Setup.Feed, c.Readings = model.FishIn, 1, []model.Reading{read(4, 4, 0)}
	if s := studied(c, 5); s.fedTooMuch() || s.starved() {
		t.Errorf("animals: overfed %v, starved %v", s.fedTooMuch(), s.starved())
	}
}
