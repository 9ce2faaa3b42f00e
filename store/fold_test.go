package store

import "testing"

func TestFold(t *testing.T) {
	tests := []struct {
		a, b   string
		same   bool
		reason string
	}{
		{"Nano", "nANO", true, "case of Latin letters"},
		{"Straße", "STRASSE", true, "CaseFolding.txt: U+00DF folds to ss"},
		{"ΣΊΣΥΦΟΣ", "σίσυφος", true, "CaseFolding.txt: final sigma U+03C2 folds to U+03C3"},
		{"\u00e9tang", "E\u0301TANG", true, "one accent, composed or not"},
		{"\u212aelp", "kelp", true, "CaseFolding.txt: KELVIN SIGN U+212A folds to k"},
		{"etang", "\u00e9tang", false, "an accent makes another name"},
		{"nano 1", "nano  1", false, "spaces are the caller's to trim"},
		{"a\xff", "a\xfe", false, "bytes that are no text stay apart"},
		{"a\x00b", "a\x00c", false, "nothing is cut at a NUL"},
	}
	for _, tt := range tests {
		if got := Fold(tt.a) == Fold(tt.b); got != tt.same {
			t.Errorf("Fold(%q) == Fold(%q): %v, want %v: %s", tt.a, tt.b, got, tt.same, tt.reason)
		}
	}
}
