package diagnose

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestNotes: what the log shows beside the causes is told, and only where it does.
func TestNotes(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 25, Given: model.Given{PH: true, KH: true, Temp: true}}
	dose := func(day unit.Days) model.Event {
		return model.Event{Day: day, Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}
	}
	const died = "Animals died on day 25"
	for _, tt := range []struct {
		reason   string
		events   []model.Event
		readings []model.Reading
		now      unit.Days
		says     string
		never    string
	}{
		{"animals died last week", []model.Event{dose(0.1), {Day: 18, Kind: model.Stocked, Mass: 20}, {Day: 25, Kind: model.Losses, Mass: 20}}, []model.Reading{read(10, 0, 0)}, 30, died, ""},
		{"animals died months ago", []model.Event{dose(0.1), {Day: 18, Kind: model.Stocked, Mass: 20}, {Day: 25, Kind: model.Losses, Mass: 5}}, []model.Reading{read(59, 0, 0)}, 60, "", died},
	} {
		s := studied(model.Case{Setup: set, Events: tt.events, Readings: tt.readings}, tt.now)
		got := strings.Join(s.notes(&Diagnosis{Verdict: Slow}), "\n")
		if !strings.Contains(got, tt.says) || tt.never != "" && strings.Contains(got, tt.never) {
			t.Errorf("%s: %q, want %q and not %q", tt.reason, got, tt.says, tt.never)
		}
	}
	hungry := studied(model.Case{Setup: set, Events: []model.Event{dose(0.1)}, Readings: []model.Reading{read(7, 1, 0.5), read(14, 0, 0.5), read(21, 0, 0)}}, 21)
	const due = "dose 2 mg/L now"
	if got := strings.Join(hungry.notes(&Diagnosis{Verdict: Stalled}), " "); !strings.Contains(got, due) {
		t.Errorf("a stalled tank that is clear: %q", got)
	}
	if got := strings.Join(hungry.notes(&Diagnosis{Verdict: OnTrack}), " "); strings.Contains(got, due) {
		t.Errorf("one on track: %q", got)
	}
}
