package commands

import (
	"math"
	"testing"
)

func TestSafeLimits(t *testing.T) {
	const epa = "US EPA 2013, EPA-822-R-13-001: 17 mg TAN/L acute (Oncorhynchus present or absent) and 1.9 chronic at pH 7 and 20 C"
	b := New(newStore(t))
	tests := []struct {
		line, what string
		want, tol  float64
		source     string
	}{
		{"ammonia:1 ph:7 temp:20C", "acute", 17, 0.5, epa},
		{"ammonia:1 ph:7 temp:20C", "chronic", 1.9, 0.05, epa},
		{"ammonia:1 ph:8 temp:25C", "fraction", 0.0537, 0.0001, "Emerson et al. 1975: pKa 9.246 at 25 C, so 5.37 % at pH 8"},
		{"ammonia:1 ph:8 temp:25C", "nh3", 0.0537 / 1.0592, 0.0002, "of 1 mg/L as NH4 (18.039 g/mol), as NH3 (17.031 g/mol)"},
		{"ammonia:1 ph:8 temp:25C", "nh3n", 0.0537 / 1.2879, 0.0002, "of 1 mg/L as NH4 (18.039 g/mol), as N (14.007 g/mol)"},
		{"nitrite:1", "nitrite", 0.06 * 3.2844, 0.001, "British Columbia 2006, Table 16: 0.06 mg N/L below 2 mg Cl/L"},
		{"nitrite:1 chloride:5", "nitrite", 0.18 * 3.2844, 0.001, "British Columbia 2006, Table 16: 0.18 mg N/L at 4 to 6 mg Cl/L"},
		{"chlorine:1", "chlorine", 0.019, 0, "US EPA 1985: 19 ug/L, one hour"},
	}
	for _, tt := range tests {
		s := must(t, b, "2026-03-01T09:00:00Z", "/safe "+tt.line).Data.(Safe)
		got := map[string]*float64{
			"acute": s.AcuteTAN, "chronic": s.ChronicTAN, "fraction": s.Fraction, "nh3": s.FreeAmmonia, "nh3n": s.FreeAmmoniaN,
			"nitrite": &s.NitriteLimit, "chlorine": &s.ChlorineLimit,
		}[tt.what]
		if math.Abs(*got-tt.want) > tt.tol {
			t.Errorf("/safe %s: %s %v, want %v within %v: %s", tt.line, tt.what, *got, tt.want, tt.tol, tt.source)
		}
	}
}

func TestSafeVerdict(t *testing.T) {
	b := New(newStore(t))
	tests := []struct{ line, verdict, strictest, reason string }{
		{"ammonia:0 nitrite:0 chlorine:0 ph:7.5", "safe", "", "nothing in it"},
		{"ammonia:0.25 nitrite:0 ph:7", "safe", "", "little of it is NH3 in neutral water"},
		{"ammonia:2 nitrite:0 ph:7.6 temp:25C", "caution", "total ammonia", "1.55 mg N/L is between the chronic and the acute limit"},
		{"ammonia:2 nitrite:0 ph:8.5 temp:25C", "danger", "total ammonia", "much of it is NH3"},
		{"ammonia:0 nitrite:1 ph:7", "danger", "nitrite", "no chloride protects"},
		{"ammonia:0 nitrite:1 ph:7 chloride:50", "caution", "nitrite", "chloride protects"},
		{"ammonia:0 nitrite:1 ph:7 salinity:35", "caution", "nitrite", "sea salt is mostly chloride"},
		{"ammonia:0 nitrite:0 ph:7 chlorine:0.1", "danger", "chlorine", "five times the limit"},
		{"ammonia:3 nitrite:0.1 ph:8.2 chlorine:2", "danger", "chlorine", "the strictest of three"},
	}
	for _, tt := range tests {
		s := must(t, b, "2026-03-01T09:00:00Z", "/safe "+tt.line).Data.(Safe)
		if s.Verdict != tt.verdict || tt.strictest != "" && s.Strictest != tt.strictest {
			t.Errorf("/safe %s: %s by %s, want %s by %s: %s", tt.line, s.Verdict, s.Strictest, tt.verdict, tt.strictest, tt.reason)
		}
	}
}

// TestSafeWaterChange replaces the share of water that is advised and asks
// again: that ends the danger, or makes it safe.
func TestSafeWaterChange(t *testing.T) {
	b := New(newStore(t))
	for _, nitrite := range []float64{0.25, 1, 2, 5} {
		s := must(t, b, "2026-03-01T09:00:00Z", "/safe nitrite:"+number(nitrite, 2)).Data.(Safe)
		for verdict, percent := range map[string]*float64{"caution": s.OutOfDanger, "safe": s.ToSafe} {
			if percent == nil {
				t.Fatalf("nitrite %v is %s without advice", nitrite, s.Verdict)
			}
			left := nitrite * (1 - *percent/100)
			if got := must(t, b, "2026-03-01T09:00:00Z", "/safe nitrite:"+number(left, 6)).Data.(Safe).Verdict; got != verdict && got != "safe" {
				t.Errorf("nitrite %v after %v %%: %s, want %s", nitrite, *percent, got, verdict)
			}
		}
	}
}

func TestSafeOfTank(t *testing.T) {
	tests := []struct {
		lines   []string
		animals string
		verdict string
		reason  string
	}{
		{[]string{"/reading ammonia:0 nitrite:1"}, "no", "danger", "nobody is in"},
		{[]string{"/log what:stock amount:4g", "/reading ammonia:0 nitrite:1"}, "yes", "danger", "animals went in"},
		{[]string{"/reading ammonia:0 nitrite:1", "/reading ammonia:0 nitrite:0"}, "no", "safe", "the last reading counts"},
		{[]string{"/reading ammonia:2 nitrite:0 ph:7", "/reading ph:8.8"}, "no", "danger", "the last of each value counts"},
		{[]string{"/reading ammonia:2 nitrite:0", "/tank edit ph:8.8"}, "no", "danger", "a change of the set-up counts"},
	}
	for _, tt := range tests {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L ph:7 temp:25C")
		for _, line := range tt.lines {
			must(t, b, "2026-03-05T09:00:00Z", line)
		}
		s := must(t, b, "2026-03-05T10:00:00Z", "/safe").Data.(Safe)
		if s.Animals != tt.animals || s.Verdict != tt.verdict {
			t.Errorf("%v: %s with animals %s, want %s and %s: %s", tt.lines, s.Verdict, s.Animals, tt.verdict, tt.animals, tt.reason)
		}
	}
}
