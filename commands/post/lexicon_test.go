package post

import (
	"strings"
	"testing"
)

// TestVocabulary holds that no word has two meanings in the lists.
func TestVocabulary(t *testing.T) {
	seen := map[string]string{}
	claim := func(list, s string) {
		for w := range wordSet(s) {
			if other, ok := seen[w]; ok && w != "" {
				t.Errorf("%q stands in %s and in %s", w, other, list)
			}
			seen[w] = list
		}
	}
	for k, s := range labelLists {
		claim("labels of "+Kind(k).String(), s)
	}
	for a, s := range amountLists {
		claim("amount list "+strings.Repeat("i", a), s)
	}
	for c, s := range wordLists {
		claim("word list "+strings.Repeat("i", c), s)
	}
}

// TestMisspelt holds the edit distance and the doubt between nitrite and nitrate.
func TestMisspelt(t *testing.T) {
	for _, c := range []struct {
		word string
		kind Kind
		ok   bool
		tie  bool
	}{
		{"amonia", Ammonia, true, false}, {"ammonnia", Ammonia, true, false}, {"amonnia", Ammonia, true, false}, {"smmonia", Ammonia, true, false},
		{"nitirte", Nitrite, true, false}, {"nitrie", Nitrite, true, false}, {"nirite", Nitrite, true, false}, {"nitirites", Nitrite, true, false},
		{"nitrtae", Nitrate, true, false}, {"nitarte", Nitrate, true, false}, {"nirtates", Nitrate, true, false},
		{"nitrte", Nitrite, true, true}, {"nitrete", Nitrite, true, true}, {"nitrote", Nitrite, true, true},
		{"temprature", Temp, true, false}, {"alkilinity", KH, true, false}, {"clorine", Chlorine, true, false},
		{"nitrogen", other, false, false}, {"titrate", other, false, false}, {"citrate", other, false, false}, {"amount", other, false, false}, {"harmonica", other, false, false},
		{"filtration", other, false, false}, {"nitrification", other, false, false}, {"tonight", other, false, false},
	} {
		kind, ok, tie := misspelt(c.word)
		if ok != c.ok || tie != c.tie || ok && !tie && kind != c.kind {
			t.Errorf("%q: %v %v %v, want %v %v %v", c.word, kind, ok, tie, c.kind, c.ok, c.tie)
		}
	}
}
