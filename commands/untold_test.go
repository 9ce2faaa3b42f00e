package commands

import (
	"strings"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

// The reply names what stands in for pH and hardness, from the engine's own belief,
// until they are told or read.
func TestUntoldWater(t *testing.T) {
	tests := []struct {
		lines []string
		now   float64
		want  string // what the note begins with, "" for none
	}{
		{[]string{"/tank new name:a volume:60L"}, 3, "pH and hardness (KH) not told, so about pH 7.5 (7 to 8) and KH 5 dKH (2.5 to 10.1), as is usual for tap water; /reading ph: kh: would narrow this"},
		{[]string{"/tank new name:a volume:60L source:well"}, 3, "pH and hardness (KH) not told, so about pH 7.3 (6.7 to 7.9)"},
		{[]string{"/tank new name:a volume:60L source:ro"}, 3, "pH and hardness (KH) not told, so about pH 6.8 (6.3 to 7.3) and KH 2.5 dKH"},
		{[]string{"/tank new name:a volume:60L source:rain"}, 3, "pH and hardness (KH) not told, so about pH 6.6 (6.1 to 7.1) and KH 2 dKH"},
		{[]string{"/tank new name:a volume:60L source:ro salinity:35"}, 3, "pH and hardness (KH) not told, so about pH 8.1 (7.9 to 8.3)"},
		{[]string{"/tank new name:a volume:60L ph:7.2"}, 3, "hardness (KH) not told, so about KH 5 dKH"},
		{[]string{"/tank new name:a volume:60L kh:4dKH"}, 3, "pH not told, so about pH 7."},
		{[]string{"/tank new name:a volume:60L ph:7.2 kh:6dKH"}, 3, ""},
		{[]string{"/tank new name:a volume:60L", "/reading ph:7.3 at:\"day 2\""}, 3, "hardness (KH) not told"},
		{[]string{"/tank new name:a volume:60L", "/reading ph:7.3 kh:5 at:\"day 2\""}, 3, ""},
		{[]string{"/tank new name:a volume:60L", "/reading ph:7.3 kh:5 at:\"day 2\""}, 1, "pH and hardness (KH) not told"}, // not read yet
		{[]string{"/tank new name:a volume:60L", "/tank edit ph:7 kh:5dKH at:\"day 2\""}, 3, ""},
	}
	for _, tt := range tests {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", tt.lines[0])
		for _, line := range tt.lines[1:] {
			must(t, b, "2026-03-05T09:00:00Z", line)
		}
		got := untoldWater(theOnlyCase(t, b), unit.Days(tt.now), store.Metric)
		if !strings.HasPrefix(got, tt.want) || (tt.want == "") != (got == "") {
			t.Errorf("%q on day %g: %q, want %q", tt.lines, tt.now, got, tt.want)
		}
	}
}

// It is in the member's units, and the spread is the one that the fit works with.
func TestUntoldWater_Spread(t *testing.T) {
	c := model.Case{Setup: model.Typical(model.Setup{Volume: 60})}
	got := untoldWater(c, 0, store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"})
	if !strings.Contains(got, "KH 89.2 ppm as CaCO3 (44.1 to 181)") {
		t.Errorf("%q", got)
	}
	if prior, told := fit.PriorFor(&c.Setup), c.Setup.Water(); prior.PHOffset != told.PHSD {
		t.Errorf("the fit takes pH to within %g, the reply tells %g", prior.PHOffset, told.PHSD)
	}
}

// TestUntoldNote: a late tank without pH or KH is asked for them, and no other is.
func TestUntoldNote(t *testing.T) {
	for _, tt := range []struct{ tank, reading, want string }{
		{"", "ammonia:4 nitrite:0", "Neither pH nor KH"},
		{"ph:7.5", "ammonia:4 nitrite:0", "KH was never"},
		{"kh:6dKH", "ammonia:4 nitrite:0", "pH was never"},
		{"", "ammonia:4 nitrite:0 ph:7.4 kh:6dKH", ""},
	} {
		b := New(newStore(t), WithAdviser(chlorinated{})) // every tank is slow
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+tt.tank)
		must(t, b, "2026-03-20T09:00:00Z", "/reading "+tt.reading)
		notes := strings.Join(must(t, b, "2026-03-20T09:01:00Z", "/why").Data.(Why).Notes, " ")
		if tt.want == "" && strings.Contains(notes, "common reason") || !strings.Contains(notes, tt.want) {
			t.Errorf("%s, %s: %q, want %q", tt.tank, tt.reading, notes, tt.want)
		}
	}
}
