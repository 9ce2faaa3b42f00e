package post

import (
	"fmt"
	"strings"
	"testing"
)

func ExampleRead() {
	r := Read("Day 12: NH3 .5, NO2 2.0ppm nitrates 20-40, ph 7.6 temp 78", Options{})
	fmt.Println("day", *r.Day)
	for _, f := range r.Found {
		fmt.Println(f.Kind, f.Low, f.High, f.Over)
	}
	for _, d := range r.Doubtful {
		fmt.Printf("%s: %s\n", d.Text, d.Reason)
	}
	// Output:
	// day 12
	// ammonia 0.5 0.5 false
	// nitrite 2 2 false
	// nitrate 20 40 false
	// ph 7.6 7.6 false
	// temp 78: without a unit it means °C for you, and tanks lie between 10 and 40 °C; write temp 78F if that is meant
}

// TestReasons holds that a doubt names what is wrong and what to write.
func TestReasons(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string // parts of the only doubt's reason
	}{
		{"ammonia 5000 ppm", []string{"0 and 20 mg/L"}},
		{"pH 15", []string{"4 and 10"}},
		{"pH 0", []string{"4 and 10"}},
		{"temp 300F", []string{"5 and 40 °C"}},
		{"nitrite: -1", []string{"0 and 20 mg/L", "nitrite 0.5"}},
		{"-1 ppm ammonia", []string{"minus"}},
		{"nitrate 1,250", []string{"1.250", "1250", "point"}},
		{"0/0/20", []string{"no names", "ammonia 0"}},
		{"nitrte 2", []string{"nitrite or nitrate"}},
		{"everything is zero", []string{"which tests"}},
		{"alkalinity 80", []string{"0 and 25 dKH", "KH 80ppm"}},
		{"temp 78", []string{"10 and 40 °C", "temp 78F"}},
		{"is 0.5 ammonia bad?", []string{"question", "statement"}},
		{"nitrite 2?", []string{"question mark"}},
		{"ammonia O.5", []string{"letter", "digit"}},
		{"ammonia 025", []string{"point", "0.5"}},
		{"yesterday ammonia was 2", []string{"at:"}},
		{"a trace of nitrite", []string{"step of the chart"}},
		{"ammonia 1, nitrite 2. ammonia 3", []string{"also gives 3"}},
		{"nitrate 40-20", []string{"low to high"}},
		{"No nitrate today. Ammonia 1", []string{"none was found", "nitrate 0"}},
		{"Tank 1: ammonia 0\nTank 2: ammonia 1", []string{"more than one tank", "Tank 1", "Tank 2"}},
		{"NH3 NO2\n2 0\n1 1", []string{"newest"}},
		{"ammonia 0 .25", []string{"another number", "range"}},
		{"KH 5 drops", []string{"drop", "dKH"}},
		{"[quote]ammonia 4", []string{"[/quote]"}},
		{"2 ppm tonight", []string{"which test", "name"}},
	} {
		r := Read(c.text, Options{})
		if len(r.Doubtful) != 1 {
			t.Errorf("%q: %d doubts, want 1: %q", c.text, len(r.Doubtful), r.Doubtful)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(r.Doubtful[0].Reason, w) {
				t.Errorf("%q: the reason %q lacks %q", c.text, r.Doubtful[0].Reason, w)
			}
		}
	}
}

// TestLeft holds that a number of a test that is no reading is told, with the
// reason, and neither found nor asked about.
func TestLeft(t *testing.T) {
	for _, c := range []struct{ text, snippet, reason string }{
		{"my tap has 0.5 ammonia", "0.5 ammonia", leftTap},
		{"I want ammonia at 2", "ammonia at 2", leftWant},
		{"dosed to 4 ppm ammonia", "4 ppm ammonia", leftDose},
		{"it clears 2 ppm ammonia in 24 hours", "2 ppm ammonia", leftProc},
		{"your nitrite of 5 is high", "nitrite of 5", leftPerson},
		{"heater set to 26C", "26C", leftSet},
		{"last week nitrite was 5, today 1", "nitrite was 5", leftOld},
		{"ammonia rose by 0.5", "ammonia rose by 0.5", leftDelta},
	} {
		r := Read(c.text, Options{})
		if len(r.Left) != 1 || r.Left[0] != (Doubt{c.snippet, c.reason}) {
			t.Errorf("%q: left %q, want %q: %s", c.text, r.Left, c.snippet, c.reason)
		}
		if len(r.Doubtful) > 0 {
			t.Errorf("%q: needless doubt %q", c.text, r.Doubtful)
		}
	}
}

// TestOptions holds what bare numbers mean, and that a unit that is written wins.
func TestOptions(t *testing.T) {
	for _, c := range []struct {
		text string
		opt  Options
		kind Kind
		want string
	}{
		{"temp 25", Options{}, Temp, "25"},
		{"temp 77", Options{Temp: "F"}, Temp, "25"},
		{"temp 25C", Options{Temp: "F"}, Temp, "25"},
		{"temp 77F", Options{Temp: "C"}, Temp, "25"},
		{"77 degrees", Options{Temp: "F"}, Temp, "25"},
		{"Temp (F): 77", Options{}, Temp, "25"},
		{"kh 5", Options{}, KH, "5"},
		{"kh 107", Options{KH: "ppm"}, KH, "6"},   // 107 / 17.848
		{"kh 2.14", Options{KH: "meq"}, KH, "6"},  // 2.14 x 2.804
		{"kh 6 dKH", Options{KH: "ppm"}, KH, "6"}, //
		{"KH (ppm): 107", Options{}, KH, "6"},     //
		{"nitrate 5", Options{}, Nitrate, "5"},    //
		{"nitrate 5", Options{Scale: "n"}, Nitrate, "5 as-n"},
		{"NO3-N 5", Options{Scale: "ion"}, Nitrate, "5 as-n"},
	} {
		r := Read(c.text, c.opt)
		if len(r.Found) != 1 || r.Found[0].Kind != c.kind || told(r.Found[0]) != c.want {
			t.Errorf("%q with %+v: found %v, doubts %q, want %v %s", c.text, c.opt, r.Found, r.Doubtful, c.kind, c.want)
		}
	}
}

// TestQuotes holds that snippets are quoted as written, on one line.
func TestQuotes(t *testing.T) {
	for text, want := range map[string]string{
		"**NH₃**: ５０００ ppm": "NH₃**: ５０００ ppm",
		"nitrite\t=\t-1":    "nitrite = -1",
		"temp\n78":          "78",
	} {
		r := Read(text, Options{})
		if len(r.Doubtful) != 1 || r.Doubtful[0].Text != want {
			t.Errorf("%q: doubts %q, want %q", text, r.Doubtful, want)
		}
	}
}

// TestInvisible holds that characters nobody sees change nothing.
func TestInvisible(t *testing.T) {
	for _, text := range []string{
		"am\u200bmonia 0.5", "ammonia\u00a00.5", "\ufeffammonia 0.5", "ammonia\u200e 0.5", "ammo\u00adnia 0.5", "ammonia 0\u2060.5",
		"ammonia\x00 0.5", "ammonia \xff 0.5", "ammonia 0.5\r\n", "ａｍｍｏｎｉａ ０．５", "аmmоniа 0.5",
	} {
		r := Read(text, Options{})
		if len(r.Found) != 1 || told(r.Found[0]) != "0.5" || len(r.Doubtful) > 0 {
			t.Errorf("%q: found %v, doubts %q", text, r.Found, r.Doubtful)
		}
	}
}

// TestEntries: the number of a list's entry is no reading, and a reading of 1 before a
// full stop is no entry.
func TestEntries(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"1. ammonia zero\n2. nitrite 4 and mine is dark\n3. nitrate 80", "ammonia 0, nitrite 4, nitrate 80"},
		{"pH / nitrite / ammonia 7 / 0 / 1.0. Thanks!", "ammonia 1, nitrite 0, ph 7"},
		{"Nitrite\n1. Thanks", "nitrite 1"},
	} {
		if got := foundIn(c.text); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

// TestKept: what looks like a price, a chart's end, a goal or a test not done, and is a reading.
func TestKept(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"Ammonia 0.25 for the tank, nitrite 2", "ammonia 0.25, nitrite 2"},
		{"nitrite (strip 5), pH (meter 7.2)", "nitrite 5, ph 7.2"},
		{"my meter measures 7.2 pH", "ph 7.2"},
		{"ammonia 1, nitrite is off the chart, last time it was 2", "ammonia 1, nitrite 5+"},
		{"ammonia 1, nitrite 2, nitrate 20, all in ppm. KH 6", "ammonia 1, nitrite 2, nitrate 20, kh_dkh 6"},
		{"No ammonia, nitrite 2, ran out of nitrate drops", "ammonia 0, nitrite 2"},
		{"0 for all is what they say, these are only ideals. Mine: ammonia 1, nitrite 2", "ammonia 1, nitrite 2"},
	} {
		if got := foundIn(c.text); got != c.want {
			t.Errorf("%q: %s, want %s", c.text, got, c.want)
		}
	}
}

// foundIn lists what is read in a post.
func foundIn(text string) string {
	var out []string
	for _, f := range Read(text, Options{}).Found {
		out = append(out, f.Kind.String()+" "+told(f))
	}
	return strings.Join(out, ", ")
}
