package post

import "strings"

// spelled are the long names that a typo is measured against.
var spelled = []struct {
	name string
	kind Kind
}{
	{"ammonia", Ammonia}, {"ammonium", Ammonia}, {"nitrite", Nitrite}, {"nitrites", Nitrite}, {"nitrate", Nitrate}, {"nitrates", Nitrate},
	{"temperature", Temp}, {"alkalinity", KH}, {"chlorine", Chlorine},
	{"chloride", other}, {"chloramine", other}, {"phosphate", other}, {"phosphates", other}, {"salinity", other}, {"hardness", other}, {"potassium", other}, {"nitrogen", other},
}

// sound words are near a name of a test, but are none.
var sound = map[string]bool{
	"nitrogen": true, "nitrile": true, "nitride": true, "titrate": true, "titrates": true, "citrate": true, "citrates": true, "filtrate": true, "nitrated": true, "hydrate": true,
	"temperate": true, "chlorinated": true, "chlorinate": true, "chlorite": true, "fluorine": true, "fluoride": true, "harness": true, "darkness": true, "hardiness": true,
	"ammunition": true, "nitrify": true, "nitrifying": true, "illiterate": true, "nitrous": true, "nitric": true, "nitrifiers": true, "infiltrate": true, "nitrospira": true, "interrogate": true, "ammonite": true, "ammonites": true, "choline": true, "amazonia": true,
}

// misspelt finds the name that a word means. ok is false when no name is near;
// rival is true when names of two tests are equally near.
func misspelt(w string) (kind Kind, ok, rival bool) {
	if len(w) < 5 || len(w) > 14 || sound[w] {
		return other, false, false
	}
	if k, same := labels[strings.ReplaceAll(w, "l", "i")]; same && k <= Nitrate { // an l looks like an i
		return k, true, false
	}
	best, second, first := 99, 99, byte(0) // distances of two kinds, first letter of the best
	for _, s := range spelled {
		d := distance(w, s.name)
		switch {
		case d < best:
			if ok && kind != s.kind {
				second = best
			}
			best, kind, ok, first = d, s.kind, true, s.name[0]
		case s.kind != kind && d < second:
			second = d
		}
	}
	reach := 1
	if len(w) >= 7 {
		reach = 2
	}
	if best > reach || best == 2 && w[0] != first {
		return other, false, false
	}
	return kind, true, best == second
}

// distance counts the letters to insert, drop, replace or swap with a
// neighbour to turn a into b (optimal string alignment).
func distance(a, b string) int {
	if abs(len(a)-len(b)) > 2 {
		return 99
	}
	var d [16][16]int
	for i := range len(a) + 1 {
		d[i][0] = i
	}
	for j := range len(b) + 1 {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			d[i][j] = min(d[i-1][j]+1, d[i][j-1]+1, d[i-1][j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

func abs(n int) int { return max(n, -n) }
