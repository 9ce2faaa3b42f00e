package diagnose

import (
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestUnfed: want of food is named though nitrite still shows, where ammonia has read clear for a
// week and nothing went in; not while nitrite is off its chart, which is a reason to pause, nor
// where food went in, or one test alone is clear.
func TestUnfed(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(8).CaCO3(), Temp: 26, Media: model.Sponge, Conditioner: true,
		Given: model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true, Media: true}}
	dose := func(day unit.Days) model.Event {
		return model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}
	}
	first := []model.Reading{read(3, 2, 0.25), read(7, 1, 2), read(10, 0.25, 5)}
	for _, tt := range []struct {
		reason   string
		doses    []model.Event
		readings []model.Reading
		want     bool
	}{
		{"clear for a week", []model.Event{dose(0), dose(0.1)}, []model.Reading{read(12, 0, 5), read(16, 0, 2), read(19, 0, 2)}, true},
		{"dosed in between", []model.Event{dose(0), dose(14)}, []model.Reading{read(12, 0, 5), read(16, 0, 2), read(19, 0, 2)}, false},
		{"nitrite off the chart", []model.Event{dose(0), dose(0.1)}, []model.Reading{read(12, 0, 5), read(16, 0, 5), read(19, 0, 5)}, false},
		{"ammonia still shows", []model.Event{dose(0), dose(0.1)}, []model.Reading{read(12, 1, 2), read(16, 0.5, 2), read(19, 0.5, 2)}, false},
		{"one test", []model.Event{dose(0), dose(0.1)}, []model.Reading{read(12, 1, 5), read(19, 0, 2)}, false},
	} {
		s := studied(model.Case{Setup: set, Events: tt.doses, Readings: append(first[:3:3], tt.readings...)}, 20)
		if got := s.starved(); got != tt.want {
			t.Errorf("%s: starved %v", tt.reason, got)
		}
	}
}
