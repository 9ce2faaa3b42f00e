package advise

import (
	"strings"
	"testing"

	"ripen/engine/diagnose"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// yearOld is a tank of a year that reads 0 and 0 with some nitrate, however it was kept.
func yearOld(change func(*model.Case)) model.Case {
	s := model.Setup{Volume: 100, PH: 7.5, KH: unit.DKH(7).CaCO3(), Temp: 25, Given: model.Given{PH: true, KH: true, Temp: true}}
	c := model.Case{Setup: s}
	seen := func(v float64) *model.Seen { return &model.Seen{Low: v, High: v} }
	for _, x := range []struct{ day, nitrate float64 }{{300, 10}, {365, 20}} {
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(x.day), Ammonia: seen(0), Nitrite: seen(0), Nitrate: seen(x.nitrate)})
	}
	change(&c)
	c.Setup = model.Typical(c.Setup)
	return c
}

// TestYearOldTanks: an established tank with animals, or fed daily, is done; of one of
// which nothing was told, the outlook says that it counts on nothing. What is done is not called late.
func TestYearOldTanks(t *testing.T) {
	if testing.Short() {
		t.Skip("fits three tanks")
	}
	for _, tt := range []struct {
		reason   string
		change   func(*model.Case)
		done     bool
		untold   bool
		rationed bool
	}{
		{"animals put in later", func(c *model.Case) {
			c.Events = append(c.Events, model.Event{Day: 61, Kind: model.Stocked, Mass: 30})
		}, true, false, true},
		{"fed daily", func(c *model.Case) {
			for d := 300; d < 365; d++ {
				c.Events = append(c.Events, model.Event{Day: unit.Days(d), Kind: model.FeedOnce, Mass: 0.4})
			}
		}, true, false, false},
		{"nothing told", func(*model.Case) {}, false, true, false},
	} {
		d, o, err := New(1).Why(yearOld(tt.change), 365)
		if err != nil {
			t.Fatal(err)
		}
		if done := o.Done.P50 != nil && *o.Done.P50 <= 365; done != tt.done || o.Rationed != tt.rationed {
			t.Errorf("%s: done %v by the middle, held to a ration %v (%v of %v within a week)", tt.reason, done, o.Rationed, o.ChanceBy[7], o.Done)
		}
		if late := d.Verdict == diagnose.Slow || d.Verdict == diagnose.Stalled; late && tt.done {
			t.Errorf("%s: done, and yet %s", tt.reason, d.Verdict)
		}
		said := strings.Join(o.Assumed, "; ")
		if strings.Contains(said, "nothing that bacteria live on") != tt.untold || o.Untold != tt.untold {
			t.Errorf("%s: assumed %q", tt.reason, said)
		}
		if strings.Contains(o.KeepUp, "dosing") && tt.rationed {
			t.Errorf("%s: %s", tt.reason, o.KeepUp)
		}
	}
}
