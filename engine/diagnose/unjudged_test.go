package diagnose

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// TestUnjudged: a tank is not called late for time of which nothing was told; what its set-up
// or its readings show still counts.
func TestUnjudged(t *testing.T) {
	warm := model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 25, Given: model.Given{PH: true, KH: true, Temp: true}}
	cold := warm
	cold.Temp = 14
	dose := []model.Event{{Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}}
	twice := []model.Event{{Day: 0.1, Kind: model.Dose, N: dose[0].N}, {Day: 3.1, Kind: model.Dose, N: dose[0].N}}
	nitrate := func(r model.Reading) model.Reading {
		r.Nitrate = &model.Seen{}
		return r
	}
	standing := func(from unit.Days) (rs []model.Reading) {
		for d := from; d <= 28; d += 3 {
			rs = append(rs, read(d, 2, 0))
		}
		return rs
	}
	for _, tt := range []struct {
		reason   string
		setup    model.Setup
		events   []model.Event
		readings []model.Reading
		now      unit.Days
		verdict  string
		says     string // of Unjudged, "" for judged
		note     string
	}{
		{"nothing told for forty days", warm, nil, nil, 40, OnTrack, "nothing was told of it so far", ""},
		{"nothing told for three days is no silence", warm, nil, nil, 3, OnTrack, "", ""},
		{"silent since day 6", warm, dose, []model.Reading{read(6, 1, 0.5)}, 40, OnTrack, "for 34 days", ""},
		{"a cold tank is late whatever was told", cold, nil, nil, 40, Slow, "", "set-up"},
		{"doses that leave nothing", warm, twice, []model.Reading{read(1, 0, 0), nitrate(read(3, 0, 0)), read(4, 0, 0)}, 5, OnTrack, "see that it arrives", ""},
		{"where nitrate was not read they may have been eaten", warm, twice, []model.Reading{read(1, 0, 0), read(3, 0, 0), read(4, 0, 0)}, 5, OnTrack, "", ""},
		{"nitrite came of them", warm, twice, []model.Reading{read(1, 0, 0), nitrate(read(3, 0, 0)), read(4, 0, 0.5)}, 5, OnTrack, "", ""},
		{"the first test after four weeks", warm, nil, []model.Reading{read(28, 2, 0.25)}, 28, OnTrack, "first 28 days", ""},
		{"the first dose is known", warm, dose, []model.Reading{read(28, 2, 0.25)}, 28, Slow, "", ""},
		{"first dosed after twelve days", warm, []model.Event{{Day: 12, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}}, []model.Reading{read(14, 2, 0), read(18, 1, 0.5)}, 18, OnTrack, "", "on day 12"},
		{"the same from the first day", warm, dose, []model.Reading{read(6, 2, 0), read(12, 2, 0), read(18, 1, 0.5)}, 18, Slow, "", ""},
		{"followed from the second day", warm, nil, standing(1), 28, Slow, "", ""},
	} {
		s := studied(model.Case{Setup: tt.setup, Events: tt.events, Readings: tt.readings}, tt.now)
		d := Of(s.post, s.out)
		if d.Verdict != tt.verdict || (d.Unjudged == "") != (tt.says == "") || !strings.Contains(d.Unjudged, tt.says) || !strings.Contains(strings.Join(d.Notes, " "), tt.note) {
			t.Errorf("%s: %s, %q, %q; want %s, %q, %q", tt.reason, d.Verdict, d.Unjudged, d.Notes, tt.verdict, tt.says, tt.note)
		}
		if tt.says != "" && d.Delay != (outlook.Quantiles{}) {
			t.Errorf("%s: can't be judged, and is %v days late", tt.reason, d.Delay)
		}
		if tt.says != "" && d.index("no-ammonia-source") >= 0 {
			t.Errorf("%s: called starved", tt.reason)
		}
	}
}
