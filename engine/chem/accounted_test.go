package chem

import (
	"strings"
	"testing"

	"ripen/testdata"
)

// unchecked says of the rows that no test compares with a number of ours why that is
// so. Rows of the tables left out here (ammonia's two, its criteria, oxygen) are
// compared one and all, or named as misprints where they are.
var unchecked = map[string]map[string]string{
	"stoichiometry.csv": {
		"o2_step1_growth_read o2_step2_growth_read o2_step1_growth_calc o2_step2_growth_calc alk_growth_epa biomass_yield_read": "with growth; the model counts without, see TestYield_Published",
		"o2_total_growth_read o2_total_growth_epa biomass_yield_epa":                                                            "in package model, TestYield_Published",
		"alk_min_read do_min_read breakpoint_practice_read":                                                                     "advice of design, no constant",
		"o2_equiv_denit_read": "no denitrification here: nitrate is only lost at a rate",
		"n_to_nh3 n_to_nh4 nh4_to_n n_to_no2 no2_to_n n_to_no3 no3_to_n nh3_to_nh4 nh4_to_no2 no2_to_no3 dkh_meq dkh_caco3 meq_caco3 meq_dkh": "in package unit, TestConversions_Published",
		"thio_field_read thio_bottle_15 thio_bottle_5":                                     "practice between the reactions: in package dosing, TestDechlorinate_Published",
		"bisulfite_field_read sulfite_field_read ascorbic_field_read ascorbate_field_read": "agents that nothing here doses",
	},
	"chlorine.csv": {
		"epa_cl_acute bc_trc_cont bc_trc_max bc_trc_coef bc_trc_exp bc_trc_60min bc_irrigation": "other limits; ours are US EPA's",
		"old_k_ph7 old_half_1mg_ph7 her_decay_usual her_decay_max":                              "in package model, TestChlorineConstants_Published",
		"old_k_ph9 old_mpn old_ct99_ph7 old_ct99_ph9 old_ct99_mpn_ph7":                          "how unsure the kill is: a factor of a thousand between ways to count; the model's unknown Chlorine stands for it",
		"nh2cl_ratio": "in package dosing, TestDechlorinate_Published",
		"har_no_nitrif har_ph lee_penetration lee_dose_41 lee_dose_11 vt_practice nh2cl_t99_ph7 pka_hocl dech_aa dech_sbs_lc50": "background",
	},
	"nitrite_toxicity.csv": {
		"srac_cl srac_rank tomasso86_rank mazik_lc50 mazik_lc50_n mazik_cacl2 mazik_plasma cut_lc50_96h cut_lc50_36d krou_loec krou_noec avi_methb_24h avi_methb_96h avi_conc rham_lc50 rham_safe cat_km cat_jmax plasma_channel plasma_blue boyd_usual": "toxicity to species: background of the guideline",
		"boyd_no3 nitrate_laketrout nitrate_laketrout_chr bc_no3_max":             "nitrate, for which no limit is given here",
		"nh3_cut_96h nh3_rbt_96h nh3_catfish_ph7 nh3_catfish_ph8 nh3_catfish_ph9": "ammonia's toxicity: background of the criteria",
	},
	"water_supply.csv": {
		"uk_dose uk_ceiling": "in package model, TestChlorineConstants_Published",
		"who_cl2 who_nh2cl who_chlorite who_min_contact who84_contact us_mrdl_cl2 us_mrdl_nh2cl us_mcl_no3 us_mcl_no3no2 ca_mac_1995 ca_mac_chlorite cdc_30min lantagne_low uk_typical uk_pool uk_no2_tap uk_no2_works bc_no3_drink bc_no2_drink": "limits of drinking water: background",
	},
}

// checkedHere are the rows that tests of this package compare, by their id; of
// stoichiometry.csv those of the map ours as well.
var checkedHere = map[string]string{
	"stoichiometry.csv":    "alk_observed_range",
	"chlorine.csv":         "epa_fw_acute epa_fw_chronic epa_sw_chronic epa_cl_chronic",
	"nitrite_toxicity.csv": "bc_max_ bc_avg_ bc_ratio_max bc_ratio_avg srac_ratio", // of the guideline every row
	"water_supply.csv":     "chloramine_N_at_mrdl chloramine_N_at_who",
}

// TestEveryRowAccounted: a published row is compared with a number of ours, or it is
// said why not; never both, and nothing is said of rows that are not there.
func TestEveryRowAccounted(t *testing.T) {
	for file, groups := range unchecked {
		why := map[string]string{}
		for ids, reason := range groups {
			for _, id := range strings.Fields(ids) {
				why[id] = reason
			}
		}
		for _, row := range testdata.Table(t, file) {
			id := row.Text("id")
			_, checked := ours[id]
			checked = checked && file == "stoichiometry.csv"
			for _, c := range strings.Fields(checkedHere[file]) {
				checked = checked || id == c || strings.HasSuffix(c, "_") && strings.HasPrefix(id, c)
			}
			reason, excused := why[id]
			delete(why, id)
			switch {
			case !checked && !excused:
				t.Errorf("%s:%d: %s is neither compared nor excused", file, row.Line(), id)
			case checked && excused:
				t.Errorf("%s:%d: %s is compared, and excused as: %s", file, row.Line(), id, reason)
			}
		}
		for id := range why {
			t.Errorf("%s has no row %s", file, id)
		}
	}
	// carbonate.csv: the constants that are not ours.
	left := map[string]bool{"pK1_seawater_S35_SWS": true, "pK2_seawater_S35_SWS": true, "pKa_HOCl": true, "pKsp_calcite": true} // sea water: package model, TestSeaWaterPH
	for _, row := range testdata.Table(t, carbonateFile) {
		if name := row.Text("name"); row.Text("kind") == "constant" && constants[name] == nil && !left[name] {
			t.Errorf("%s:%d: %s is neither compared nor excused", carbonateFile, row.Line(), name)
		}
	}
}
