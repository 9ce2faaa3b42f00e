package post

import (
	"strings"
	"testing"
)

// TestScale: a nitrogen scale counts that is written behind the amount as well.
func TestScale(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"nitrite 3.3 mg/L NO2-N today", "nitrite 3.3 as-n"},
		{"Nitrite 3.3 as NO2-N", "nitrite 3.3 as-n"},
		{"nitrite 5+ NO2-N", "nitrite 5+ as-n"},
		{"Ammonia: 4.0 mg/l NH3-N; nitrite 3.3 measured as NO2-N", "ammonia 4 as-n, nitrite 3.3 as-n"},
		{"Ammonia 0.5 NH4-N, nitrite 0.3, nitrate 20-40 ppm NO3-N, pH 7.4", "ammonia 0.5 as-n, nitrite 0.3, nitrate 20-40 as-n, ph 7.4"},
		{"Nitrite 3.3 (NO2-N)\nNitrate 10 (as NO3-N)", "nitrite 3.3 as-n, nitrate 10 as-n"},
		{"| Nitrite | 3.3 mg/L NO2-N |\n| Nitrate | 10 mg/L |", "nitrite 3.3 as-n, nitrate 10"},
		{"nitrate is 10 as nitrate-nitrogen", "nitrate 10 as-n"},
		{"nitrate 10 N", "nitrate 10 as-n"},
		{"Nitrate 10 N and nitrite 2", "nitrite 2, nitrate 10 as-n"},
		{"nitrate 10 mg/L nitrogen.", "nitrate 10 as-n"},
		{"ammonia 1 reported as nitrogen, nitrite 2, nitrate 20", "ammonia 1 as-n, nitrite 2, nitrate 20"},
		{"nitrite 2, ammonia 1 (expressed as N) and nitrate 20", "ammonia 1 as-n, nitrite 2, nitrate 20"},
		{"Ammonia: 1 mg/L given as N\nNitrite: 2 mg/L", "ammonia 1 as-n, nitrite 2"},
		{"ammonia 1, nitrite 2, nitrate 20, reported as nitrogen", "ammonia 1 as-n, nitrite 2 as-n, nitrate 20 as-n"},
		{"ammonia 1 nitrite 2 nitrate 20 reported as nitrogen", "ammonia 1 as-n, nitrite 2 as-n, nitrate 20 as-n"},
		{"reported as nitrogen: ammonia 1, nitrite 2, nitrate 20", "ammonia 1 as-n, nitrite 2 as-n, nitrate 20 as-n"},

		{"ammonia 1 reported as NH4, nitrite 2", "ammonia 1, nitrite 2"},
		{"nitrite 3.3 mg/L NO2", "nitrite 3.3"},
		{"nitrite 3.3, NO2-N not tested", "nitrite 3.3"},
		{"nitrite 3.3 as NO2, not NO2-N; nitrate 5", "nitrite 3.3, nitrate 5"},
		{"nitrite 3.3 NO2-N 1", "nitrite 3.3"},
		{"nitrate 44 (10 NO3-N)", "nitrate 44"},
		{"nitrite 1.5 ppm, NO3-N 10 ppm", "nitrite 1.5, nitrate 10 as-n"},
		{"nitrate 10 n nitrite 2", "nitrite 2, nitrate 10"}, // and
		{"ammonia 0.5 N 10", "ammonia 0.5"},
		{"KH 6 N, nitrite 2", "nitrite 2, kh_dkh 6"},
		{"I added 2 ppm nitrogen, nitrate 10", "nitrate 10"},
	} {
		if got := foundIn(c.text); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
	r := Read("nitrate 10 (NO3-N?)", Options{})
	if len(r.Found) != 0 || len(r.Doubtful) != 1 || !strings.Contains(r.Doubtful[0].Reason, "as nitrogen") {
		t.Errorf("a scale that is asked about: %v, %v", r.Found, r.Doubtful)
	}
}
