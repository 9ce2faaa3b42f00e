package commands

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ripen/engine/advise"
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
		{"ammonia:1 ph:7 temp:10C", "acute", 38, 0.5, "US EPA 2013, Table 5b (Oncorhynchus absent)"},
		{"ammonia:1 ph:7 temp:10C animals:mussels", "acute", 38, 0.5, "US EPA 2013, Table 5b (Oncorhynchus absent)"},
		{"ammonia:1 ph:7 temp:10C animals:trout", "acute", 24, 0.5, "US EPA 2013, Table 5a (Oncorhynchus present)"},
		{"ammonia:1 ph:7 temp:20C animals:warm-water", "acute", 38, 0.5, "US EPA 2013, Appendix N: mussels absent; 9VAC25-260-155"},
		{"ammonia:1 ph:7 temp:20C animals:warm-water", "chronic", 6.5, 0.05, "US EPA 2013, Appendix N: mussels absent; 9VAC25-260-155"},
		{"ammonia:1 ph:7 temp:10C salinity:10", "acute", 131 * 14.007 / 17.031, 5, "British Columbia 2006, Table 21: 131 mg NH3/L at 10 g/kg"},
		{"ammonia:1 ph:8 temp:25C", "fraction", 0.0537, 0.0001, "Emerson et al. 1975: pKa 9.246 at 25 C, so 5.37 % at pH 8"},
		{"ammonia:1 ph:8 temp:25C", "nh3", 0.0537 / 1.0592, 0.0002, "of 1 mg/L as NH4 (18.039 g/mol), as NH3 (17.031 g/mol)"},
		{"ammonia:1 ph:8 temp:25C", "nh3n", 0.0537 / 1.2879, 0.0002, "of 1 mg/L as NH4 (18.039 g/mol), as N (14.007 g/mol)"},
		{"nitrite:1", "nitrite", 0.06 * 3.2844, 0.001, "British Columbia 2006, Table 16: 0.06 mg N/L below 2 mg Cl/L"},
		{"nitrite:1 chloride:5", "nitrite", 0.18 * 3.2844, 0.001, "British Columbia 2006, Table 16: 0.18 mg N/L at 4 to 6 mg Cl/L"},
		{"chlorine:1", "chlorine", 0.019, 0, "US EPA 1985: 19 ug/L, one hour"},
		{"chlorine:1", "chlorine-long", 0.011, 0, "US EPA 1985: 11 ug/L, four days"},
		{"chlorine:1 salinity:35", "chlorine-long", 0.0075, 0, "US EPA 1985: 7.5 ug/L, salt water"},
	}
	for _, tt := range tests {
		s := must(t, b, "2026-03-01T09:00:00Z", "/safe "+tt.line).Data.(Safe)
		got := map[string]*float64{
			"acute": s.AcuteTAN, "chronic": s.ChronicTAN, "fraction": s.Fraction, "nh3": s.FreeAmmonia, "nh3n": s.FreeAmmoniaN,
			"nitrite": &s.NitriteLimit, "chlorine": &s.ChlorineLimit, "chlorine-long": &s.ChlorineLong,
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
		{"ammonia:1.5 nitrite:0 ph:7.6", "caution", "total ammonia", "mussels count where nothing is told"},
		{"ammonia:1.5 nitrite:0 ph:7.6 animals:warm-water", "safe", "free ammonia", "fishes bear more"},
		{"ammonia:4+ nitrite:0 ph:6 animals:warm-water", "caution", "total ammonia", "an open chart is never safe"},
		{"ammonia:0 nitrite:0", "safe", "", "no pH is needed where there is no ammonia"},
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

// TestSafeNewWater counts what the new water brings.
func TestSafeNewWater(t *testing.T) {
	b := New(newStore(t))
	ask := func(line string) Safe { return must(t, b, "2026-03-01T09:00:00Z", "/safe "+line).Data.(Safe) }
	plain, holds := ask("nitrite:0.5"), ask("nitrite:0.5 new-nitrite:0.1")
	if !(*holds.OutOfDanger > *plain.OutOfDanger) {
		t.Errorf("nitrite in the new water: %v %%, without %v %%", *holds.OutOfDanger, *plain.OutOfDanger)
	}
	if never := ask("nitrite:0.5 new-nitrite:0.3"); never.OutOfDanger != nil || never.Change != nil || !strings.Contains(never.Text(), "other water") {
		t.Errorf("new water above the limit: %s", never.Text())
	}
	if n := ask("nitrite:0.5 new-nitrite:0.03 ammonia:0"); n.New.Nitrite != 0.03 {
		t.Errorf("new water of %v mg/L", n.New.Nitrite)
	}
	alkaline := ask("ammonia:3 ph:6.4 temp:25C new-ph:8")
	if c := alkaline.Change; c == nil || !c.LikePH || !(*c.WithOwnPH > *alkaline.FreeAmmonia) || !strings.Contains(alkaline.Text(), "not with water of pH 8") {
		t.Errorf("alkaline new water on acidic: %s", alkaline.Text())
	}
	if c := ask("ammonia:2 ph:8 temp:25C new-ph:7").Change; c.LikePH || *c.PH != 8 || *c.FreeAmmonia >= 0.11 {
		t.Errorf("acidic new water on alkaline: %+v", c)
	}
}

// TestSafeTankWater: a tank's own source, pH, volume and age of its test count.
func TestSafeTankWater(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:50L ph:8 temp:25C method:fish-in stock:5g source:chloramine conditioner:no")
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:b volume:50L method:fish-in stock:5g source:ro")
	must(t, b, "2026-03-05T09:00:00Z", "/reading tank:a ammonia:3 nitrite:2 ph:6.5")
	must(t, b, "2026-03-05T09:00:00Z", "/reading tank:b ammonia:1.75 nitrite:0")
	a := must(t, b, "2026-03-05T10:00:00Z", "/safe tank:a").Data.(Safe)
	if !a.New.Untreated || !a.New.Chloramine || a.New.Ammonia != 0.2 || *a.New.PH != 8 || !strings.Contains(a.Text(), "condition it first") {
		t.Errorf("untreated tap water with chloramine: %+v\n%s", a.New, a.Text())
	}
	// 20 mg Cl/L in 50 L is 1 g of chloride, 1.65 g of salt.
	if a.Salt == nil || a.Salt.Litres != 50 || math.Abs(a.Salt.Grams-1.65) > 0.06 || !strings.Contains(a.Text(), "bear no salt") {
		t.Errorf("salt %+v", a.Salt)
	}
	if own := must(t, b, "2026-03-05T10:00:00Z", "/safe tank:a new-ph:6.5 new-ammonia:0 chloride:60").Data.(Safe); own.New.Ammonia != 0 || own.New.Chloramine || own.Salt != nil || own.Change.LikePH {
		t.Errorf("told new water: %+v, salt %+v", own.New, own.Salt)
	}
	r := must(t, b, "2026-03-05T10:00:00Z", "/safe tank:b").Data.(Safe)
	if r.New.Untreated || r.New.Ammonia != 0 || strings.Contains(r.Text(), "condition") {
		t.Errorf("RO water: %+v\n%s", r.New, r.Text())
	}
	if r.Doubt == nil || r.Doubt.PH <= *r.Water.PH {
		t.Errorf("no pH was told: %+v\n%s", r.Doubt, r.Text())
	}
	if told := must(t, b, "2026-03-05T10:00:00Z", "/safe tank:b ph:6.8").Data.(Safe); told.Doubt != nil {
		t.Errorf("the pH was told: %+v", told.Doubt)
	}
	if late := must(t, b, "2026-03-20T10:00:00Z", "/safe tank:b"); late.Data.(Safe).Age != 15 || !strings.Contains(late.Text, "by a test 15 days old") {
		t.Error(late.Text)
	}
}

// TestSafeSinceTest: what was logged since the last test is said, and chlorine that was
// read days ago is gone.
func TestSafeSinceTest(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:50L ph:7 temp:25C")
	ask := func(at, line string) Safe { return must(t, b, at, "/safe"+line).Data.(Safe) }
	must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:1 nitrite:0 chlorine:0.5")
	if s := ask("2026-03-05T10:00:00Z", ""); len(s.Since) > 0 || s.Chlorine == nil || s.Verdict != "danger" {
		t.Errorf("right after the test: %v, chlorine %v", s.Since, s.Chlorine)
	}
	must(t, b, "2026-03-05T11:00:00Z", "/log what:water-change amount:50%")
	must(t, b, "2026-03-05T11:00:00Z", "/log what:dose amount:1ppm")
	if s := ask("2026-03-06T09:00:00Z", ""); len(s.Since) != 2 || !strings.Contains(s.Text(), "ammonia was dosed and water was changed") {
		t.Errorf("after a change and a dose: %v\n%s", s.Since, s.Text())
	}
	if s := ask("2026-03-06T09:00:00Z", " tank:a ammonia:0 nitrite:0"); len(s.Since) > 0 {
		t.Errorf("a test that is told now counts: %v", s.Since)
	}
	if s := ask("2026-03-12T09:00:00Z", ""); s.Chlorine != nil {
		t.Errorf("chlorine of a week ago: %v", *s.Chlorine)
	}
	must(t, b, "2026-03-12T10:00:00Z", "/reading ammonia:1 nitrite:0")
	if s := ask("2026-03-12T11:00:00Z", ""); len(s.Since) > 0 {
		t.Errorf("tested since: %v", s.Since)
	}
}

// TestSafeAnything: whatever is in the water, the reply is sound, its numbers are in
// its data, and a change that it advises ends the danger.
func TestSafeAnything(t *testing.T) {
	b := New(newStore(t))
	rapid.Check(t, func(rt *rapid.T) {
		line := "/safe"
		for _, o := range []struct {
			name      string
			low, high float64
			decimals  int
		}{{"ammonia", 0, 50, 2}, {"nitrite", 0, 100, 2}, {"ph", 3.5, 10.5, 1}, {"temp", 4, 40, 0}, {"salinity", 0, 45, 0}, {"chloride", 0, 500, 0}, {"chlorine", 0, 10, 2},
			{"new-ammonia", 0, 1, 2}, {"new-nitrite", 0, 1, 2}, {"new-ph", 5, 9, 1}} {
			if o.name == "nitrite" || rapid.Bool().Draw(rt, "give "+o.name) || o.name == "ph" {
				line += " " + o.name + ":" + number(rapid.Float64Range(o.low, o.high).Draw(rt, o.name), o.decimals)
			}
		}
		line += rapid.SampledFrom([]string{"", " animals:trout", " animals:warm-water", " animals:mussels"}).Draw(rt, "animals")
		reply := tell(t, b, "2026-03-01T09:00:00Z", line)
		if !reply.OK {
			rt.Fatalf("%s: %s", line, reply.Text)
		}
		checkReply(t, line, reply)
		s := reply.Data.(Safe)
		if s.Verdict == "danger" && s.OutOfDanger == nil && s.Change == nil && s.Chlorine == nil && s.New.Ammonia == 0 && s.New.Nitrite == 0 {
			if worst := max(*s.Nitrite/s.NitriteLimit, *or(s.Ammonia, new(0.0))/(*s.AcuteTAN), *or(s.FreeAmmonia, new(0.0))/s.HarmFrom); worst < 99 {
				rt.Fatalf("%s: no change is advised: %s", line, reply.Text)
			}
		}
	})
}

// TestSafeSlowing: ammonia that slows the bacteria is not called what they live on.
func TestSafeSlowing(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", `/tank new name:"moss bowl" volume:60L ph:7.6 kh:6dKH temp:25C`)
	for _, tt := range [][2]string{{"8", "slows the bacteria"}, {"2", "the bacteria live on it"}} {
		must(t, b, "2026-03-05T09:00:00Z", "/reading nitrite:1 ammonia:"+tt[0])
		if text := must(t, b, "2026-03-05T10:00:00Z", "/safe").Text; !strings.Contains(text, tt[1]) {
			t.Errorf("%s mg/L: %s", tt[0], text)
		}
	}
}

// TestSafeUsedUp: water without hardness is no reason to do nothing where animals are in.
func TestSafeUsedUp(t *testing.T) {
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", `/tank new name:"moss bowl" volume:80L ph:7.2 kh:3dKH temp:24C method:fish-in stock:20g`)
	must(t, b, "2026-03-30T09:00:00Z", "/reading ammonia:2 nitrite:0 ph:5.8 kh:0dKH")
	const says = "hardness is used up (KH 0 dKH)"
	if r := must(t, b, "2026-03-31T09:00:00Z", "/safe"); !strings.Contains(r.Text, says) || r.Data.(Safe).Verdict != "safe" {
		t.Error(r.Text)
	}
	must(t, b, "2026-03-31T10:00:00Z", "/log what:water-change amount:20% conditioned:yes")
	if text := must(t, b, "2026-03-31T11:00:00Z", "/safe").Text; !strings.Contains(text, "hardness is used up (KH 0.6 dKH)") {
		t.Error(text) // a fifth of 3 dKH
	}
	must(t, b, "2026-04-01T10:00:00Z", "/log what:water-change amount:40% conditioned:yes")
	if text := must(t, b, "2026-04-01T11:00:00Z", "/safe").Text; strings.Contains(text, "hardness is used up") {
		t.Error(text)
	}
}

// TestSafeUsedUpSoft: pure water, or tap water told to be as soft, raises no hardness.
func TestSafeUsedUpSoft(t *testing.T) {
	for setup, soft := range map[string]bool{
		"source:ro": true, "source:rain": true, "source:ro kh:4dKH": true, "source:well kh:1dKH": true,
		"source:well": false, "source:chlorine kh:3dKH": false, "": false,
	} {
		b := New(newStore(t))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:80L ph:7.2 method:fish-in stock:20g "+setup)
		must(t, b, "2026-03-05T09:00:00Z", "/reading ammonia:0 nitrite:0 ph:6 kh:0dKH")
		text := must(t, b, "2026-03-05T10:00:00Z", "/safe").Text
		if strings.Contains(text, "change a fifth of the water") == soft || strings.Contains(text, "/amount what:buffer to:4dKH") != soft {
			t.Errorf("%s: %s", setup, text)
		}
	}
}

// TestUsedUpAgrees: whether the hardness is used up, /safe, /next-test, /outlook and /stock say
// alike: soft water is not, for all that it has little.
func TestUsedUpAgrees(t *testing.T) {
	for _, x := range []struct {
		setup, reading string
		usedUp         bool
		says           string
	}{
		{"ph:6.5 kh:1dKH source:ro", "ph:6.5 kh:1dKH", false, "nothing now"},
		{"ph:6.8 kh:1dKH source:rain", "ph:6.8 kh:0.75dKH", false, "nothing now"},
		{"ph:6.5 kh:1dKH source:ro", "ph:6.4 kh:0.5dKH", true, "the hardness is used up (KH 0.5 dKH)"},
		{"ph:7 kh:4dKH source:well", "ph:7 kh:1dKH", true, "the hardness is used up (KH 1 dKH)"},
		{"ph:7 kh:4dKH source:well", "ph:7 kh:1.5dKH", false, "nothing now"},
		{"ph:7 kh:4dKH source:well", "ph:5.8", true, "the hardness is used up (pH 5.8 on day 19 after 7.0)"},
	} {
		b := New(newStore(t), WithAdviser(advise.New(4)))
		must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:100L temp:26C method:fish-in stock:20g feed:0.3 "+x.setup)
		must(t, b, "2026-03-20T21:00:00Z", "/reading ammonia:0 nitrite:0 nitrate:5 "+x.reading)
		ask := func(line string) Reply { return must(t, b, "2026-03-20T21:05:00Z", line) }
		safe := ask("/safe")
		crash := safe.Data.(Safe).Crash
		next := ask("/next-test")
		stock := ask("/stock grams:5").Data.(Stock).Shows
		if (crash != "") != x.usedUp || crash != ask("/outlook").Data.(Outlook).Crash || crash != next.Data.(NextTest).Crash || x.usedUp && !slices.Contains(stock, crash) || !x.usedUp && len(stock) > 0 {
			t.Errorf("%s, %s: %q of /safe, %q of /next-test, %v of /stock", x.setup, x.reading, crash, next.Data.(NextTest).Crash, stock)
		}
		if !strings.Contains(safe.Text, x.says) || strings.Contains(next.Text, "KH is used up") != x.usedUp {
			t.Errorf("%s, %s: want %q:\n%s\n%s", x.setup, x.reading, x.says, safe.Text, next.Text)
		}
	}
}
