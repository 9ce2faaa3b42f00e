package advise

import (
	"math"
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// foodOn is the food a day that a case tells of, from its last change up to a day.
func foodOn(c model.Case, day unit.Days) float64 {
	feed := c.Setup.Feed
	for _, x := range c.Changes {
		if x.Feed != nil && x.Day <= day {
			feed = *x.Feed
		}
	}
	return float64(feed)
}

// TestRationed: animals that went in eat the usual ration from that day, where nobody
// told of any food, and what was told stands.
func TestRationed(t *testing.T) {
	stocked := func(day unit.Days, grams unit.Grams) model.Event {
		return model.Event{Day: day, Kind: model.Stocked, Mass: grams}
	}
	plan := model.Setup{Volume: 60, Stock: 80, Feed: 1.6, Given: model.Given{Stock: true, Feed: true}}
	told, hundred := unit.Grams(0.7), unit.Grams(100)
	for _, tt := range []struct {
		reason  string
		setup   model.Setup
		changes []model.Change
		events  []model.Event
		want    float64 // g/d on day 30
		says    bool
	}{
		{"nothing is in", model.Setup{Volume: 60}, nil, nil, 0, false},
		{"1.5 % of 10 g", model.Setup{Volume: 60}, nil, []model.Event{stocked(20, 10)}, 0.15, true},
		{"of 10 and 20 g", model.Setup{Volume: 60}, nil, []model.Event{stocked(20, 10), stocked(25, 20)}, 0.45, true},
		{"a third died", model.Setup{Volume: 60}, nil, []model.Event{stocked(20, 30), {Day: 25, Kind: model.Losses, Mass: 10}}, 0.30, true},
		{"all died", model.Setup{Volume: 60}, nil, []model.Event{stocked(20, 30), {Day: 25, Kind: model.Losses, Mass: 40}}, 0, false},
		{"not yet in", model.Setup{Volume: 60}, nil, []model.Event{stocked(40, 10)}, 0, false},
		{"meals are logged", model.Setup{Volume: 60}, nil, []model.Event{stocked(20, 10), {Day: 22, Kind: model.FeedOnce, Mass: 0.1}}, 0, false},
		{"food was told since", model.Setup{Volume: 60}, []model.Change{{Day: 21, Feed: &told}}, []model.Event{stocked(20, 10)}, 0.7, false},
		{"food that was told before was for the cycle", model.Setup{Volume: 60}, []model.Change{{Day: 2, Feed: &told}}, []model.Event{stocked(20, 10)}, 0.15, true},
		{"their share of the plan", plan, nil, []model.Event{stocked(20, 20)}, 0.4, true},
		{"with those from the start", model.Setup{Volume: 60, Method: model.FishIn, Stock: 10, Given: model.Given{Stock: true}}, nil, []model.Event{stocked(20, 10)}, 0.30, true},
		{"weighed from the start, and all died", model.Setup{Volume: 60, Method: model.FishIn, Stock: 10, Given: model.Given{Stock: true}}, nil, []model.Event{{Day: 7, Kind: model.Losses, Mass: 10}}, 0, false},
		{"weighed again", model.Setup{Volume: 60, Method: model.FishIn, Stock: 10, Given: model.Given{Stock: true}}, []model.Change{{Day: 7, Stock: &hundred}}, nil, 1.5, true},
		{"weighed again after losses", model.Setup{Volume: 60, Method: model.FishIn, Stock: 200, Given: model.Given{Stock: true}}, []model.Change{{Day: 9, Stock: &hundred}}, []model.Event{{Day: 7, Kind: model.Losses, Mass: 50}}, 1.5, true},
		{"fewer than those whose food was told", model.Setup{Volume: 60, Method: model.FishIn, Stock: 40, Given: model.Given{Stock: true}}, []model.Change{{Day: 3, Feed: &told}}, []model.Event{{Day: 7, Kind: model.Losses, Mass: 20}}, 0.35, true},
		{"told from the start", model.Setup{Volume: 60, Method: model.FishIn, Stock: 10, Feed: 0.2, Given: model.Given{Stock: true, Feed: true}}, nil, []model.Event{stocked(20, 10)}, 0.2, false},
	} {
		c := model.Case{Setup: model.Typical(tt.setup), Changes: tt.changes, Events: tt.events}
		got, says := rationed(c, 30)
		if math.Abs(foodOn(got, 30)-tt.want) > 1e-9 || (says != "") != tt.says {
			t.Errorf("%s: %g g a day and %q, want %g", tt.reason, foodOn(got, 30), says, tt.want)
		}
		if len(c.Changes) != len(tt.changes) {
			t.Errorf("%s: the case itself was changed", tt.reason)
		}
	}
	for grams, want := range map[unit.Grams]string{9000: "140 g of food a day for 9000 g of animals, 1.5 %", 6024: "90 g of food a day for 6020 g", 10: "0.15 g of food a day for 10 g"} {
		c := model.Case{Setup: model.Typical(model.Setup{Volume: 900}), Events: []model.Event{stocked(20, grams)}}
		if _, says := rationed(c, 30); !strings.HasPrefix(says, want) {
			t.Errorf("%g g: %q, want %q", float64(grams), says, want)
		}
	}
}

// TestStockedEat: a tank whose animals are fed their ration makes more nitrogen than
// one whose animals fast, and /stock counts the same food.
func TestStockedEat(t *testing.T) {
	if testing.Short() {
		t.Skip("fits a tank")
	}
	c := monthOfReadings(20, func(*model.Setup) {})
	c.Events = append(c.Events, model.Event{Day: 19, Kind: model.Stocked, Mass: 40})
	fed, _ := new(Engine).ready(c, 20)
	par := model.Central()
	nitrogen := func(p *model.Plan) float64 {
		r := p.Start(&par)
		r.To(20, nil)
		q := r.State.Pools()
		return q[0] + q[1] + q[2] + r.State.Org
	}
	full, _ := model.Complete(c, 20)
	if more, fasting := nitrogen(fed), nitrogen(model.NewPlan(full, 20)); more <= fasting {
		t.Errorf("nitrogen with food %g, without %g", more, fasting)
	}
}
