package post

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// styleNames are ways to write the names of the tests.
var styleNames = map[Kind][]string{
	Ammonia: {"ammonia", "Ammonia", "NH3", "NH4", "NH₃", "NH3/NH4", "amm", "ammo", "AMMONIA", "Ammonia (NH3)"},
	Nitrite: {"nitrite", "Nitrites", "NO2", "NO₂", "trites", "nitrItes", "Nitrite (NO2)", "no2-"},
	Nitrate: {"nitrate", "Nitrates", "NO3", "NO₃", "trates", "nitrAtes", "Nitrate (NO3)"},
	PH:      {"pH", "PH", "ph"},
	KH:      {"KH", "kh", "carbonate hardness", "alkalinity"},
}

// amountStyle is an amount as written and as understood.
type amountStyle struct{ written, told string }

var styleAmounts = map[Kind][]amountStyle{
	Ammonia: {{"0", "0"}, {"0.25", "0.25"}, {".5", "0.5"}, {"1.0", "1"}, {"0,25", "0.25"}, {"0.25ppm", "0.25"}, {"2 ppm", "2"}, {"4.0 mg/L", "4"}, {"8+", "8+"}, {"0.25-0.5", "0.25-0.5"}, {"zero", "0"}, {"<0.25", "0"}, {"~1", "1"}, {"½ ppm", "0.5"}},
	Nitrite: {{"0", "0"}, {"0.5", "0.5"}, {".25", "0.25"}, {"2.0", "2"}, {"0,1", "0.1"}, {"5+", "5+"}, {">5", "5+"}, {"5ppm+", "5+"}, {"2-5", "2-5"}, {"undetectable", "0"}, {"0.25 mg/l", "0.25"}, {"0 ppm", "0"}},
	Nitrate: {{"0", "0"}, {"5", "5"}, {"10", "10"}, {"20-40", "20-40"}, {"20 - 40", "20-40"}, {"40 to 80", "40-80"}, {"80ppm", "80"}, {"160+", "160+"}, {"about 30", "30"}, {"10ish", "10"}, {"12,5 mg/l", "12.5"}},
	PH:      {{"7", "7"}, {"7.4", "7.4"}, {"6,8", "6.8"}, {"7.4-7.6", "7.4-7.6"}, {"8.0", "8"}, {"7.6ish", "7.6"}},
	KH:      {{"4", "4"}, {"4 dKH", "4"}, {"4.5dKH", "4.5"}, {"5°", "5"}, {"3-4", "3-4"}, {"8 degrees", "8"}},
}

// noise are sentences that hold no reading of this tank now.
var noise = []string{
	"", "", "",
	"I have a 20 gallon with 6 neons and 2 sponge filters. ",
	"Did a 50% water change 2 days ago. ",
	"Dosed 2 ml of ammonium chloride on Tuesday. ",
	"I dosed ammonia to 2 ppm last night. ",
	"My tap water has 0.5 ammonia and pH 8.2. ",
	"The goal is 0 nitrite and nitrate under 20. ",
	"GH 8, TDS 210, phosphate 0.5. ",
	"> ammonia 8 ppm, nitrite 5\n\n",
	"[quote]nitrite 5 nitrate 80[/quote]",
	"Last week nitrite was 5 and ammonia was 2. ",
	"It clears 2 ppm of ammonia in 24 hours. ",
	"The tank has been running for 3 weeks. ",
	"If nitrite goes over 5 I change water. ",
	"My friend has 40 nitrate in his tank. ",
	"Waiting for nitrite to hit 0. ",
	"Lights are on 8 hours, CO2 at 30 ppm, salinity 1.003. ",
	"Started on 3/1 with 12 snails. ",
	"See https://example.org/nitrite-5 for more. ",
	"I feed twice a day, about 0.2 g. ",
	"Heater is set to 26C. ",
	"I want ammonia at 2 before I stop. ",
	"I'm planning on 10 rasboras and 5 otos. ",
	"Yesterday ammonia was 1.5. ",
}

// TestStyles writes random readings in random styles; each must come back
// whole and without a question.
func TestStyles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kinds := rapid.Permutation([]Kind{Ammonia, Nitrite, Nitrate, PH, KH}).Draw(t, "order")
		kinds = kinds[:rapid.IntRange(1, 5).Draw(t, "count")]
		want := map[Kind]string{}
		names, amounts := make([]string, len(kinds)), make([]string, len(kinds))
		for i, k := range kinds {
			names[i] = rapid.SampledFrom(styleNames[k]).Draw(t, "name")
			a := rapid.SampledFrom(styleAmounts[k]).Draw(t, "amount")
			amounts[i], want[k] = a.written, a.told
		}
		text := rapid.SampledFrom(noise).Draw(t, "noise")
		text += rapid.SampledFrom([]string{"", "Day 12: ", "Tested today: ", "Hi all! ", "My readings are ", "Update:\n"}).Draw(t, "head")
		text += write(t, names, amounts)
		text += rapid.SampledFrom([]string{"", ".", " today", ". Thanks!", ". What next?", "\n\nAny ideas?"}).Draw(t, "tail")
		if more := rapid.SampledFrom(noise).Draw(t, "more"); more != "" {
			text += "\n\n" + more
		}
		r := Read(text, Options{})
		got := map[Kind]string{}
		for _, f := range r.Found {
			got[f.Kind] = told(f)
		}
		if fmt.Sprint(got) != fmt.Sprint(want) || len(r.Doubtful) > 0 {
			t.Fatalf("%q\n got %v, doubts %q\nwant %v", text, got, r.Doubtful, want)
		}
	})
}

// write puts the readings down in a style of its own.
func write(t *rapid.T, names, amounts []string) string {
	pairs := make([]string, len(names))
	switch rapid.SampledFrom([]string{"name first", "amount first", "rows", "list", "table"}).Draw(t, "style") {
	case "name first":
		sep := rapid.SampledFrom([]string{" ", ": ", ":", "=", " = ", " - ", " is ", " at ", " is at ", " reads ", " of ", " came out at ", ":  ", " → ", " level "}).Draw(t, "sep")
		for i := range names {
			if sep == "=" && strings.HasPrefix(amounts[i], ">") { // "=>" is an arrow too
				sep = ": "
			}
			pairs[i] = names[i] + sep + amounts[i]
		}
		return strings.Join(pairs, rapid.SampledFrom([]string{", ", "; ", " / ", " | ", ". ", " and ", ", and ", "\n", " • ", "  "}).Draw(t, "joiner"))
	case "amount first":
		sep := rapid.SampledFrom([]string{" ", " of ", " for "}).Draw(t, "sep")
		for i := range names {
			pairs[i] = amounts[i] + sep + names[i]
		}
		return strings.Join(pairs, rapid.SampledFrom([]string{", ", "; ", ". ", " and ", ", and ", "\n"}).Draw(t, "joiner"))
	case "rows":
		sep := rapid.SampledFrom([]string{": ", " ", " - ", "\t", " | "}).Draw(t, "sep")
		bullet := rapid.SampledFrom([]string{"", "- ", "* ", "• ", "🐟 "}).Draw(t, "bullet")
		for i := range names {
			pairs[i] = bullet + names[i] + sep + amounts[i]
		}
		return "\n" + strings.Join(pairs, "\n")
	case "list":
		if slices.ContainsFunc(amounts, func(a string) bool { return strings.ContainsAny(a, ", -") }) {
			return write(t, names, amounts)
		}
		if slices.ContainsFunc(names, func(n string) bool { return strings.ContainsAny(n, "/-(") }) {
			return write(t, names, amounts)
		}
		sep := rapid.SampledFrom([]string{"/", " / ", ", "}).Draw(t, "sep")
		mid := rapid.SampledFrom([]string{" ", ": ", " = ", " are "}).Draw(t, "mid")
		return strings.Join(names, sep) + mid + strings.Join(amounts, sep)
	}
	return "\n| " + strings.Join(names, " | ") + " |\n|" + strings.Repeat("---|", len(names)) + "\n| " + strings.Join(amounts, " | ") + " |\n"
}
