package model

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ripen/engine/unit"
	"ripen/testdata"
)

// published is a default and the rows of kinetics.csv that may support it: those
// of the guild whose parameter is one of these and whose unit is unit. Why a
// default may lie outside of them stands in reasons.
type published struct {
	name       string
	value      float64
	guild      string // prefixes of the guild's name in the table, separated by |
	parameters string // separated by spaces
	units      string // separated by |
}

// of says whether a row is about this default.
func (p *published) of(r testdata.Row) bool {
	about := slices.ContainsFunc(strings.Split(p.guild, "|"), func(g string) bool { return strings.HasPrefix(r.Text("guild"), g) })
	return about && slices.Contains(strings.Fields(p.parameters), r.Text("parameter")) && slices.Contains(strings.Split(p.units, "|"), r.Text("unit"))
}

func publishedDefaults() []published {
	all := func(i int, prefix string) []published {
		g := &Defaults[i]
		return []published{
			{"growth rate", g.Mu, prefix, "max_specific_growth_rate max_specific_growth_rate_at_optimum", "1/d"},
			{"half-saturation, ammonia", g.KTAN, prefix, "half_sat_ammonium", "mg TAN-N/L|mg NH4-N/L"},
			{"half-saturation, nitrite", g.KNO2, prefix, "half_sat_nitrite", "mg NO2-N/L"},
			{"half-saturation, oxygen", g.KO2, prefix, "half_sat_oxygen", "mg O2/L"},
			{"half-saturation, alkalinity", g.KAlk, prefix, "half_sat_alkalinity", "mmol HCO3/L"},
			{"yield", g.Yield, prefix, "yield", "g COD/g N"},
			{"decay", g.Decay, prefix, "decay_rate endogenous_respiration_rate", "1/d"},
			{"theta of decay", g.DecayTheta, prefix, "theta_decay", "-"},
			{"lowest temperature", g.TMin, prefix, "cardinal_Tmin temperature_range", "C"},
			{"best temperature", g.TOpt, prefix, "cardinal_Topt activity_temperature_optimum temperature_range", "C"},
			{"highest temperature", g.TMax, prefix, "cardinal_Tmax temperature_range", "C"},
			{"lowest pH", g.PHMin, prefix, "cardinal_pHmin pH_limit_low lowest_pH_observed lowest_pH_continuous_steady_state pH_of_complete_inhibition", "pH"},
			{"best pH", g.PHOpt, prefix, "cardinal_pHopt pH_bell_optimum", "pH"},
			{"highest pH", g.PHMax, prefix, "cardinal_pHmax", "pH"},
			{"Ki free ammonia", g.KiNH3, prefix, "Ki_free_ammonia_haldane Ki_free_ammonia_uncompetitive Ki_free_ammonia_noncompetitive", "mg NH3-N/L"},
			{"Ki nitrous acid", g.KiHNO2, prefix, "Ki_free_nitrous_acid Ki_free_nitrous_acid_noncompetitive Ki_free_nitrous_acid_haldane FNA_inhibition_onset", "mg HNO2-N/L"},
		}
	}
	var out []published
	for i, prefix := range []string{AOB: "AOB", AOA: "AOA", CMX: "comammox", NOB: "NOB"} {
		out = append(out, all(i, prefix)...)
	}
	return append(out, surroundings()...)
}

// surroundings are the defaults of what is round the bacteria, worked out as the
// model uses them: what a gram of food or animals gives off in 1000 L, and the rest.
func surroundings() []published {
	fed := env0(Setup{Volume: 1000, Method: FishIn, Feed: 1, Given: Given{Feed: true}})
	fasted := env0(Setup{Volume: 1000, Method: FishIn, Stock: 1000, Given: Given{Stock: true, Feed: true}})
	const foodN = 0.064 // g N per g, the row's; what is released is checked against it
	area := func(m Media) float64 { return 1000 * areaPerLitre[m] }
	return []published{
		{"N in biomass", nPerCOD, "biomass", "N_content", "g N/g COD"},
		{"share of food's N released", (fed.fedTAN + fed.fedOrg) / foodN, "decaying food", "fraction_of_N_released", "-"},
		{"share of food's N as ammonia", fed.fedTAN / foodN, "fish", "fraction_food_N_as_ammonia", "-"},
		{"ammonia of fasted animals", 1000 * fasted.fedTAN, "fish (fasted", "ammonia_excretion", "mg N/(kg d)"},
		{"mineralisation of food", orgRate, "decaying food", "ammonification_first_order", "1/d"},
		{"areal rate", arealRate, "nitrifying biofilm|moving bed biofilter media|trickling filter media", "areal_TAN_rate_max areal_rate areal_TAN_rate_design", "g TAN/(m2 d)|g N/(m2 d)"},
		{"area of sponge", area(Sponge), "sponge media", "specific_surface_area", "m2/m3"},
		{"area of ceramic", area(Ceramic), "ceramic ring media", "specific_surface_area", "m2/m3"},
		{"area of floss", area(Floss), "floss", "specific_surface_area", "m2/m3"},
		{"area of sand", area(Sand), "sand media", "specific_surface_area", "m2/m3"},
		{"area of carriers", area(MovingBed), "extruded plastic carrier media|moving bed biofilter media", "specific_surface_area specific_surface_area_design", "m2/m3"},
		{"uptake of many fast plants over 0.3 m", 300 * plantUptake[ManyFast], "duckweed", "N_uptake_pond_range", "mg N/(m2 d)"},
		{"uptake of few fast plants over 0.3 m", 300 * plantUptake[FewFast], "duckweed", "N_uptake_pond_range", "mg N/(m2 d)"},
		{"half-saturation of plants", 1000 * 0.1 / unit.MolarN, "submersed pondweed|emergent plant", "ammonium_Km", "uM"},
	}
}

// reasons for defaults outside the published range, or without a row: by guild
// and name.
var reasons = map[string]string{
	"AOB half-saturation, alkalinity":      "0.2 is under the 0.3 of sludge models: no penalty was seen in tanks at 70 mg/L CaCO3 (moving bed row), the pH crash does the rest",
	"AOB lowest temperature":               "the fitted -8 C of the algae-bacteria model is flatter than any sane cardinal curve; 4 C is where filters stop (handbooks, from memory)",
	"AOB highest temperature":              "38 C: pure cultures at 40; the published 40 is a fit beyond the data",
	"AOB highest pH":                       "12.4 is a fit beyond its data; growth stops near 9.8 (from memory)",
	"NOB highest pH":                       "12.1 is a fit beyond its data; growth is hardly seen above 9.6 (from memory)",
	"NOB theta of decay":                   "1.05 against the one published 1.04",
	"NOB half-saturation, alkalinity":      "no limitation down to 1.2 mg C/L (0.1 mmol/L), so half of that",
	"NOB lowest pH":                        "4.8: an acid-tolerant Nitrospira grows best at pH 6.0 and half as fast near 5 (that paper, from memory)",
	"AOA half-saturation, ammonia":         "0.02 is just over the 0.0178 of freshwater enrichments: films see less than the water",
	"AOA half-saturation, nitrite":         "does not oxidise nitrite",
	"AOB half-saturation, nitrite":         "does not oxidise nitrite",
	"NOB half-saturation, ammonia":         "does not oxidise ammonia",
	"AOA half-saturation, oxygen":          "0.10 against the one published 0.093",
	"AOA half-saturation, alkalinity":      "no row; the largest cells' affinity for CO2 is that of AOB or better, so less than half",
	"AOA yield":                            "no row in COD; about three quarters of AOB's",
	"AOA decay":                            "no row; half of AOB's, in keeping with slow growth",
	"AOA theta of decay":                   "no row; as AOB",
	"AOA highest pH":                       "no row; 9.0 (from memory)",
	"AOA growth rate":                      "doubles in 30 h; the rows of doubling times are 19, 29, 35 and 45 h, and those of growth rates the slower ones of these",
	"AOA lowest pH":                        "no row for neutral strains; acidophiles live at 4.0",
	"AOA best pH":                          "7.3: the acidophile's 5.0 is another lineage; neutral strains grow best near 7.3 (from memory)",
	"AOA Ki free ammonia":                  "no Ki; strains stand 42 to 1400 mg TAN-N/L, biofilm ones the least",
	"AOA Ki nitrous acid":                  "no row; as AOB",
	"comammox half-saturation, alkalinity": "no row; as AOA",
	"comammox decay":                       "one model synthesis takes 0.1; slow growers with high yield keep less turnover, so 0.04",
	"comammox theta of decay":              "no row; as AOB",
	"comammox half-saturation, oxygen":     "half of the one model value 0.5, as affinity to ammonia is far higher than AOB's",
	"comammox best temperature":            "30: the isolate at 37 came from a hot pipe; filters hold them at 20 to 25",
	"comammox lowest temperature":          "no row; found in drinking water filters at 5 to 10 C (from memory)",
	"comammox highest temperature":         "no row; the isolate grows at 42 or more (from memory)",
	"comammox lowest pH":                   "no row; 5.0 (from memory)",
	"comammox best pH":                     "no row; 7.8 (from memory)",
	"comammox highest pH":                  "no row; 9.5 (from memory)",
	"comammox Ki free ammonia":             "no Ki; partial inhibition from 0.35 mg TAN-N/L, floored at 0.3 in the model",
	"comammox Ki nitrous acid":             "no row; as NOB",
	"biomass N in biomass":                 "0.0875 is that of C5H7NO2, on which growth's oxygen and alkalinity rest; the row has it rounded to 0.086",
	"floss area of floss":                  "no row; as sponge, whose fibres are about as fine",
	"sand media area of sand":              "3000: sand that lies still is partly clogged, so two fifths of a fluidised bed's (common practice, no source)",
}

// TestDefaultsArePublished lists every kinetic default with the published rows
// behind it, and fails on one outside their range unless a reason stands above.
func TestDefaultsArePublished(t *testing.T) {
	rows := testdata.Table(t, "kinetics.csv")
	used := map[string]bool{}
	for _, p := range publishedDefaults() {
		low, high := math.Inf(1), math.Inf(-1)
		n, source, nearest := 0, "", math.Inf(1)
		for _, r := range rows {
			if !p.of(r) {
				continue
			}
			n++
			away := math.Inf(1)
			for _, c := range []string{"value", "low", "high"} {
				if r.Text(c) != "" {
					low, high = min(low, r.Number(c)), max(high, r.Number(c))
					away = min(away, math.Abs(r.Number(c)-p.value))
				}
			}
			if away < nearest {
				nearest, source = away, fmt.Sprintf("line %d, %s", r.Line(), r.Text("source"))
			}
		}
		key := p.guild + " " + p.name
		reason := reasons[key]
		switch {
		case n > 0 && p.value >= low && p.value <= high:
			t.Logf("%-9s %-28s %-7.4g within %g to %g, %d rows, the nearest in %s", p.guild, p.name, p.value, low, high, n, source)
			continue
		case p.value == 0 && reason == "":
			t.Errorf("%s is zero without a reason", key)
		case reason == "":
			t.Errorf("%s is %g, published %g to %g (%d rows), and no reason stands beside it", key, p.value, low, high, n)
		default:
			used[key] = true
			t.Logf("%-9s %-28s %-7.4g published %g to %g (%d rows): %s", p.guild, p.name, p.value, low, high, n, reason)
		}
	}
	for key := range reasons {
		if !used[key] {
			t.Errorf("a reason that is not needed: %s", key)
		}
	}
}
