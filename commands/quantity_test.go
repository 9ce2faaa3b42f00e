package commands

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
	"ripen/engine/dosing"
	"ripen/engine/tryout"
	"ripen/testdata"
)

// published is a number of stoichiometry.csv.
func published(t *testing.T, id string) float64 {
	t.Helper()
	for _, r := range testdata.Table(t, "stoichiometry.csv") {
		if r.Text("id") == id {
			return r.Number("value")
		}
	}
	t.Fatalf("stoichiometry.csv has no row %s", id)
	return 0
}

// amountTank is 100 L of fresh tap water at pH 7.5 and 25 C.
func amountTank(t *testing.T) *Book {
	t.Helper()
	b := New(newStore(t))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:100L ph:7.5 kh:4dKH temp:25C source:chlorine")
	return b
}

const amountAt = "2026-03-02T09:00:00Z"

// What a member is told is what the published masses come to, within the three figures
// that are printed.
func TestAmountWorkedExamples(t *testing.T) {
	b := amountTank(t)
	for _, x := range []struct {
		line string
		got  func(any) float64
		want float64
	}{
		// 2 mg/L on the kit's scale in 100 L is 0.2 g of NH4.
		{"/amount what:ammonia to:2ppm product:ammonium-chloride", func(d any) float64 { return *d.(AmmoniaAmount).Dose.Grams }, 0.2 * published(t, "nh4cl_per_mgNH4")},
		{"/amount what:ammonia to:2ppm product:ammonium-chloride scale:n", func(d any) float64 { return *d.(AmmoniaAmount).Dose.Grams }, 0.2 * published(t, "nh4cl_per_mgN")},
		// 0.2 g of NH4 is 0.2/1.0592 g of NH3; a solution of 5 g in 100 ml.
		{"/amount what:ammonia to:2ppm product:\"5% w/v\"", func(d any) float64 { return *d.(AmmoniaAmount).Dose.ML }, 20 * 0.2 / published(t, "nh3_to_nh4")},
		// 25 % by weight of 0.91 g/ml (British Pharmacopoeia).
		{"/amount what:ammonia to:2ppm product:25% density:0.91", func(d any) float64 { return *d.(AmmoniaAmount).Dose.ML }, 0.2 / published(t, "nh3_to_nh4") / (0.25 * 0.91)},
		{"/amount what:buffer to:7dKH", func(d any) float64 { return d.(BufferAmount).Grams }, 3 * published(t, "nahco3_per_dkh_100l")},
		{"/amount what:buffer to:3meq from:1meq", func(d any) float64 { return d.(BufferAmount).Grams }, 2 * published(t, "nahco3_per_meq_100l")},
		{"/amount what:conditioner new-chlorine:2", func(d any) float64 { return d.(ConditionerAmount).Crystals }, 0.2 * published(t, "thio_tetra_penta")},
		{"/amount what:conditioner new-chlorine:2 product:anhydrous", func(d any) float64 { return d.(ConditionerAmount).Anhydrous }, 0.2 * published(t, "thio_tetra_anh")},
		{"/amount what:conditioner new-chlorine:2 source:chloramine scale:n", func(d any) float64 { return d.(ConditionerAmount).LeavesMgL }, 2 * published(t, "chloramine_n_per_cl2")},
		// From 5 to 2 with 1 in the new water: (5-2)/(5-1) of it.
		{"/amount what:water-change of:nitrite from:5 to:2 new-nitrite:1", func(d any) float64 { return d.(ChangeAmount).InAll }, 75},
		{"/amount what:water-change of:nitrate from:40 to:30 new-nitrate:10", func(d any) float64 { return d.(ChangeAmount).EachL }, 100. / 3},
	} {
		r := must(t, b, amountAt, x.line)
		checkReply(t, x.line, r)
		if got := x.got(r.Data); math.Abs(got/x.want-1) > 0.01 {
			t.Errorf("%s: %g, worked by hand %.5g", x.line, got, x.want)
		}
	}
}

// What is impossible is refused, wherever it is met: the value, the range and what to
// try are named, and nothing is stored.
func TestImpossible(t *testing.T) {
	st := newStore(t)
	b := New(st, WithAdviser(fakeAdviser{}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:100L ph:7.5 kh:4dKH temp:25C source:chlorine")
	must(t, b, "2026-03-01T10:00:00Z", "/reading ammonia:1 nitrite:5 nitrate:20")
	before := dump(t, st, "wren")
	for _, x := range []struct {
		line, option string
		says         []string // the value, the range, what to try
	}{
		{"/amount what:buffer to:2dKH", "to", []string{`"2dKH"`, "4 dKH to 50 dKH", "softer water"}},
		{"/amount what:buffer to:4dKH", "to", []string{`"4dKH"`, "4 dKH to 50 dKH"}},
		{"/amount what:ammonia to:2ppm product:10% volume:0L", "volume", []string{`"0L"`, "0.1 to 100000 L", "check"}},
		{"/amount what:buffer to:6dKH from:2dKH volume:0L", "volume", []string{`"0L"`, "0.1 to 100000 L"}},
		{"/amount what:ammonia to:2ppm product:400%", "product", []string{`"400%"`, "0.1 to 35 %", "product:10%"}},
		{"/amount what:conditioner new-chlorine:1 product:400%", "product", []string{`"400%"`, "0.1 to 40 %", "product:10%"}},
		{"/amount what:ammonia to:0.5ppm product:10%", "to", []string{`"0.5ppm"`, "above 1 (up to 50)", "wait until it is clear"}},
		{"/amount what:water-change of:nitrate to:10 new-nitrate:15", "to", []string{`"10"`, "up to 20", "15 mg/L nitrate", "other water"}},
		{"/amount what:water-change of:nitrate to:10 new-nitrate:9.999", "to", []string{`"10"`, "other water"}},
		{"/amount what:water-change of:nitrite to:-1", "to", []string{`"-1"`, "0 to 100 mg/L"}},
		{"/log what:water-change amount:150%", "amount", []string{`"150%"`, "1 to 100 %", "check"}},
		{"/log what:water-change amount:150L", "amount", []string{`"150L"`, "100 L", "amount:40%"}},
		{"/tryout water-change:150%", "water-change", []string{`"150%"`, "1 to 100 %"}},
		{"/log what:stock amount:-4g", "amount", []string{`"-4g"`, "0.001 to 100000 g", "check"}},
		{"/stock grams:-4g", "grams", []string{`"-4g"`, "0.01 to 100000 g", "check"}},
		{"/tank edit stock:-4g", "stock", []string{`"-4g"`, "0 to 100000 g", "check"}},
		{"/log what:dose amount:-1ppm", "amount", []string{`"-1ppm"`, "0.01 to 50 mg/L", "check"}},
		{"/log what:buffer amount:-5g", "amount", []string{`"-5g"`, "0.01 to 10000 g", "check"}},
		{"/tank new name:b volume:60L method:fish-in stock:9kg", "stock", []string{"9000 g", "0 to 6000 g", "60 L", "Check"}},
		{"/tank new name:b volume:60L method:food feed:700g", "feed", []string{"700 g a day", "0 to 600 g", "Check"}},
		{"/tank edit stock:11kg", "stock", []string{"11000 g", "0 to 10000 g", "Check"}},
		{"/log what:stock amount:11kg", "amount", []string{`"11kg"`, "0 to 10000 g", "Check"}},
		{"/tank new name:b volume:0L", "volume", []string{`"0L"`, "1 to 100000 L"}},
		{"/reading ammonia:-1", "ammonia", []string{`"-1"`, "0 to 50 mg/L"}},
		{"/reading ph:15", "ph", []string{`"15"`, "3.5 to 10.5"}},
	} {
		r := tell(t, b, amountAt, x.line)
		if r.OK || r.Err.Code != CodeRange || r.Err.Option != x.option {
			t.Errorf("%s: %+v, want %s of %s", x.line, r, CodeRange, x.option)
			continue
		}
		for _, want := range x.says {
			if !strings.Contains(r.Text, want) {
				t.Errorf("%s: %q lacks %q", x.line, r.Text, want)
			}
		}
		if dump(t, st, "wren") != before {
			t.Fatalf("%s was refused and changed the store", x.line)
		}
	}
}

// What is doubtful is answered or noted all the same, with the consequence in numbers
// that the data holds.
func TestDoubtful(t *testing.T) {
	for _, x := range []struct {
		lines []string
		says  []string
	}{
		{[]string{"/amount what:ammonia to:6ppm product:10%"}, []string{"Careful: more than 4 mg/L", "would be free NH3 at pH 7.6", "% of their growth"}},
		{[]string{"/log what:dose amount:6ppm"}, []string{"dose 6 mg/L", "Careful: more than 4 mg/L", "would be free NH3 at pH 7.5", "% of their growth"}},
		{[]string{"/reading ammonia:3", "/log what:dose amount:2ppm"}, []string{"of 5 mg/L ammonia"}},
		{[]string{"/log what:dose amount:3ppm", "/log what:dose amount:2ppm"}, []string{"of 5 mg/L ammonia"}},
		{[]string{"/log what:stock amount:4g", "/log what:dose amount:1ppm"}, []string{"animals are in", "gills are harmed"}},
		{[]string{"/log what:stock amount:4g", "/reading ammonia:1", "/tank edit ph:8.2"}, []string{"pH 7.5 to 8.2 is a big step", "Free ammonia, the harmful part, goes from 0.017 to 0.078 mg/L NH3", "gills are harmed from about 0.05"}},
		{[]string{"/log what:stock amount:4g", "/reading ammonia:1", "/reading ph:8.2"}, []string{"pH 7.5 to 8.2 is a big step", "from 0.017 to 0.078"}},
		{[]string{"/log what:stock amount:4g", "/reading ammonia:1", "/log what:buffer amount:60g"}, []string{"is a big step", "Free ammonia"}},
		{[]string{"/log what:buffer amount:500g"}, []string{"Careful: that takes the KH from 4 dKH to about 171 dKH", "if it was a slip, /undo"}},
		{[]string{"/log what:stock amount:4g", "/reading ammonia:1", "/log what:buffer amount:500g"}, []string{"Careful: that takes the KH", "is a big step with animals in", "Free ammonia, the harmful part, goes from 0.017"}},
		{[]string{"/log what:feed amount:100g"}, []string{"Careful: so much food brings about 66 mg/L ammonia", "% of their growth", "Take out what is left"}}, // 51.2 mg N a gram, in 100 L
		{[]string{"/log what:stock amount:4g", "/log what:feed amount:100g"}, []string{"Careful: so much food", "gills are harmed"}},
		{[]string{"/reading ammonia:0 kh:1.8dKH", "/amount what:ammonia to:2ppm product:10%"}, []string{"Careful: oxidising it would take the KH from 1.8 dKH", "raise it first"}},
		{[]string{"/reading ammonia:8+", "/amount what:water-change of:ammonia to:2"}, []string{"Careful: The chart topped out at 8 mg/L", "ammonia goes from 8 to 2 mg/L"}},
		{[]string{"/reading ammonia:1 ph:5.8 kh:0", "/amount what:buffer to:4dKH animals:no"}, []string{"from 5.8 to 8.3 at the most", "KH a kit hardly sees"}},
		{[]string{"/amount what:buffer to:20dKH ammonia:1 animals:yes"}, []string{"Careful: pH 7.5 to 8.2", "portions a day apart", "from 0.017 to 0.07"}},
	} {
		b := amountTank(t)
		var r Reply
		for i, line := range x.lines {
			r = must(t, b, "2026-03-03T0"+string(rune('1'+i))+":00:00Z", line)
		}
		what := strings.Join(x.lines, "; ")
		checkReply(t, what, r)
		for _, want := range x.says {
			if !strings.Contains(r.Text, want) {
				t.Errorf("%s lacks %q:\n%s", what, want, r.Text)
			}
		}
	}
	// Small ones are not.
	for _, lines := range [][]string{
		{"/log what:dose amount:2ppm"}, {"/log what:dose amount:4ppm"}, {"/tank edit ph:8.5"},
		{"/log what:stock amount:4g", "/tank edit ph:8"}, {"/log what:stock amount:4g", "/reading ph:7.2"}, {"/log what:stock amount:4g", "/log what:buffer amount:5g"},
		{"/log what:buffer amount:60g"}, {"/log what:feed amount:5g"}, {"/log what:losses amount:200g"}, {"/tank edit ph:8.5 at:start"}, {"/reading ammonia:3", "/reading ammonia:0", "/log what:dose amount:2ppm"},
		{"/reading ammonia:0 kh:3dKH", "/amount what:ammonia to:2ppm product:10%"},
	} {
		b := amountTank(t)
		var r Reply
		for i, line := range lines {
			r = must(t, b, "2026-03-03T0"+string(rune('1'+i))+":00:00Z", line)
		}
		if strings.Contains(r.Text, "Careful") {
			t.Errorf("%v is warned of:\n%s", lines, r.Text)
		}
	}
	// Of ammonia that is not there the step says nothing.
	b := amountTank(t)
	for _, line := range []string{"/log what:stock amount:4g", "/reading ammonia:0"} {
		must(t, b, "2026-03-03T01:00:00Z", line)
	}
	if r := must(t, b, "2026-03-03T02:00:00Z", "/reading ph:8.2"); !strings.Contains(r.Text, "is a big step") || strings.Contains(r.Text, "Free ammonia, the") {
		t.Error(r.Text)
	}
}

// amountValues are values that fit the options of /amount, and some that do not.
var amountValues = map[string][]string{
	"to": {"0", "0.5", "2ppm", "5dKH", "12dKH", "50"}, "from": {"0", "1", "3dKH", "5", "40"}, "of": levelNames[:], "volume": {"0.1L", "60L", "20gal", "100000L", "0L"},
	"product": {"10%", "0.1%", "35%", "9.5% w/v", "10% ammonium hydroxide", "ammonium-chloride", "ammonium chloride 5%", "baking soda", "potassium-bicarbonate", "coral", "thiosulfate", "anhydrous", "no idea", "400%"},
	"density": {"0.96", "0.8"}, "ph": {"3.5", "6.2", "7.5", "8.8", "10.5"}, "kh": {"0", "1dKH", "50dKH"}, "temp": {"4C", "25C", "104F"}, "ammonia": {"0", "1", "50"}, "animals": {"yes", "no"},
	"new-ammonia": {"0", "0.2"}, "new-nitrite": {"0.1"}, "new-nitrate": {"5", "30"}, "new-kh": {"0", "4dKH", "20dKH"}, "new-chlorine": {"0", "0.5", "10"},
	"source": sourceNames[:], "scale": scaleNames[:], "tank": {"a"},
}

// Any water and any product give a sound answer or a refusal: amounts that are above
// nothing and finite, portions that add up, a pH that a buffer never lowers.
func TestAnyAmount(t *testing.T) {
	b := amountTank(t)
	must(t, b, amountAt, "/reading ammonia:1 nitrite:2 nitrate:20 ph:7.1 kh:3dKH")
	rapid.Check(t, func(rt *rapid.T) {
		kind := rapid.SampledFrom(amountKinds[:]).Draw(rt, "what")
		line := "/amount what:" + kind
		for _, o := range amountSpecs()[0].Options[1:] {
			fits := strings.Contains(" volume tank "+takes[kind]+" ", " "+o.Name+" ")
			needed := o.Name == "to" || o.Name == "of" || o.Name == "product" && kind == "ammonia"
			if fits && (needed || rapid.IntRange(0, 2).Draw(rt, "give "+o.Name) == 0) {
				line += " " + o.Name + ":\"" + rapid.SampledFrom(amountValues[o.Name]).Draw(rt, o.Name) + "\""
			}
		}
		r := tell(t, b, amountAt, line)
		checkReply(t, line, r)
		if !r.OK {
			return
		}
		sound := func(what string, x *float64) {
			if x != nil && !(*x >= 0 && *x < 1e9) {
				rt.Fatalf("%s: %s %g\n%s", line, what, *x, r.Text)
			}
		}
		switch d := r.Data.(type) {
		case AmmoniaAmount:
			if d.Dose != nil {
				sound("g", d.Dose.Grams)
				sound("ml", d.Dose.ML)
			}
		case BufferAmount:
			sum := 0.0
			for _, p := range d.Portions {
				sum += p.Grams
			}
			if math.Abs(sum-d.Grams) > 0.05*d.Grams+1e-9 || d.PHAfter < rounded(d.PH, 1) {
				rt.Fatalf("%s: portions of %g g for %g, pH %g to %g", line, sum, d.Grams, d.PH, d.PHAfter)
			}
		case ConditionerAmount:
			if d.Crystals < d.Anhydrous || d.Least > d.Crystals {
				rt.Fatalf("%s: %+v", line, d)
			}
		case ChangeAmount:
			if d.Percent > d.MostPercent || d.InAll > 100 || d.Times < 1 {
				rt.Fatalf("%s: %+v", line, d)
			}
		}
	})
}

// What two packages call large, gentle or harmful is the same.
func TestAmountLimitsAgree(t *testing.T) {
	if dosing.LargestDose != tryout.LargestDose || harmFrom != tryout.HarmFrom {
		t.Errorf("a large dose is %g and %g, harm begins at %g and %g", float64(dosing.LargestDose), float64(tryout.LargestDose), harmFrom, tryout.HarmFrom)
	}
}
