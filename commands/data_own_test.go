package commands

import (
	"encoding/json"
	"strings"
	"testing"
)

// The export holds what was typed, of the asker alone.
func TestExportHoldsWhatWasTyped(t *testing.T) {
	b := New(newStore(t), WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/units volume:gal")
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:15")
	must(t, b, "2026-03-02T09:00:00Z", "/reading nitrite:5+")
	must(t, b, "2026-03-02T09:01:00Z", "/reading nitrite:0.25")
	must(t, b, "2026-03-02T09:02:00Z", "/undo")
	must(t, b, "2026-03-03T09:00:00Z", `/log what:note detail:"behind the sofa"`)
	r, _ := said(clock("2026-03-01T09:00:00Z"), "ruff", "/tank new name:other volume:99L")
	b.Do(t.Context(), r)

	reply := must(t, b, "2026-03-04T09:00:00Z", "/data export")
	if len(reply.Files) != 1 || reply.Files[0].Name != "ripen-export-2026-03-04.json" || !reply.Private {
		t.Fatalf("files are %+v", reply.Files)
	}
	var x Exported
	if err := json.Unmarshal(reply.Files[0].Data, &x); err != nil {
		t.Fatal(err)
	}
	if x.Units.Volume != "gal" || len(x.Tanks) != 1 || len(x.Tanks[0].Entries) != 3 {
		t.Fatalf("the export is %+v", x)
	}
	text := string(reply.Files[0].Data)
	for _, want := range []string{`"15"`, `"gal"`, `"5+"`, "behind the sofa", exportFormat} {
		if !strings.Contains(text, want) {
			t.Errorf("the export lacks %s", want)
		}
	}
	for _, other := range []string{"ruff", "99L", "0.25"} {
		if strings.Contains(text, other) {
			t.Errorf("the export has %s", other)
		}
	}
}

// Erasing takes what is the asker's in this club, and nothing else.
func TestEraseOwnOnly(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:15L share:yes")
	r, _ := said(clock("2026-03-01T09:00:00Z"), "ruff", "/tank new name:other volume:99L")
	b.Do(t.Context(), r)
	none, others := dump(t, newStore(t), "wren"), dump(t, st, "ruff")
	before := dump(t, st, "wren")
	if reply := tell(t, b, "2026-03-02T09:00:00Z", "/data erase"); reply.OK || dump(t, st, "wren") != before {
		t.Error("erased without confirm")
	}
	must(t, b, "2026-03-02T09:00:00Z", "/data erase confirm:yes")
	if got := dump(t, st, "wren"); got != none {
		t.Errorf("left is %s", got)
	}
	if got := dump(t, st, "ruff"); got != others {
		t.Errorf("another's data became %s", got)
	}
	must(t, b, "2026-03-02T09:01:00Z", "/data erase confirm:yes")
}
