package diagnose

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestSilentKeeper: where only the first dose is noted, want of ammonia is one reading of a
// tank that shows none, and doses without a note are the other. Nitrate that piles up speaks
// for these, nitrate that does not against them; with two doses noted only want is left.
func TestSilentKeeper(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Method: model.Dosed, Media: model.Sponge, Conditioner: true,
		Given: model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true, Media: true}}
	want := func(nitrate float64, doses ...unit.Days) (chance float64, evidence string) {
		c := model.Case{Setup: set, Readings: []model.Reading{read(1, 2, 0), read(8, 1, 1), read(16, 0, 0.25), read(26, 0, 0), read(33, 0, 0)}}
		for _, day := range doses {
			c.Events = append(c.Events, model.Event{Kind: model.Dose, Day: day, N: unit.MgIon(2 / float64(len(doses))).N(unit.Ammonia)})
		}
		for i, share := range []float64{0.1, 0.25, 0.5, 0.8, 1} {
			v := share * nitrate
			if nitrate == 0 { // not read
				break
			}
			c.Readings[i].Nitrate = &model.Seen{Low: v, High: v}
		}
		s := studied(c, 33)
		d := Of(s.post, s.out)
		if i := d.index("no-ammonia-source"); i >= 0 {
			return d.Causes[i].Chance, strings.Join(d.Causes[i].Evidence, "; ")
		}
		return 0, ""
	}
	open, said := want(0, 0)
	if open < 0.15 || open > 0.8 || !strings.Contains(said, "no more than the first dose is noted") {
		t.Errorf("one dose noted: %.2f likely, since %q; want it open", open, said)
	}
	if many, _ := want(80, 0); many > 0.6*open {
		t.Errorf("with nitrate piling up %.2f likely, where it is not read %.2f; want clearly less", many, open)
	}
	if few, _ := want(5, 0); few < open+0.1 {
		t.Errorf("with nitrate that stays %.2f likely, where it is not read %.2f; want clearly more", few, open)
	}
	if sure, _ := want(0, 0, 0.1); sure < 0.6 || sure < open+0.1 {
		t.Errorf("two doses noted, none for a month: %.2f likely, want 0.6 or more", sure)
	}
}
