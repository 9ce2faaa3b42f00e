package diagnose

import (
	"strings"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// TestArtefactAgrees: where a kit most likely sees bound ammonia, the note does not take
// its readings at their word, and the tank is not called stalled.
func TestArtefactAgrees(t *testing.T) {
	set := model.Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 25, Conditioner: true,
		Given: model.Given{PH: true, KH: true, Temp: true, Source: true, Conditioner: true}}
	c := model.Case{Setup: set, Events: []model.Event{{Kind: model.Dose, N: unit.MgIon(2).N(unit.Ammonia)}, {Day: 3, Kind: model.Conditioned}},
		Readings: []model.Reading{read(4, 3, 0.25), read(8, 1.5, 2), read(12, 0.5, 2), read(16, 0.5, 0), read(20, 0.5, 0), read(24, 0.5, 0)}}
	s := studied(c, 24)
	d := Of(s.post, s.out)
	i := d.index("test-artefact")
	if i < 0 || d.Causes[i].Chance < 0.5 {
		t.Fatalf("no artefact: %+v", d.Causes)
	}
	if notes := strings.Join(d.Notes, " "); d.Verdict == Stalled || strings.Contains(notes, "stands as") || !strings.Contains(notes, "settle that first") {
		t.Errorf("%s, %s", d.Verdict, notes)
	}
}
