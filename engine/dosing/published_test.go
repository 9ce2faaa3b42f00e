package dosing

import (
	"math"
	"testing"

	"ripen/engine/unit"
	"ripen/testdata"
)

// row is a row of a published table by its id.
func row(t *testing.T, file, id string) testdata.Row {
	t.Helper()
	for _, r := range testdata.Table(t, file) {
		if r.Text("id") == id {
			return r
		}
	}
	t.Fatalf("%s has no row %s", file, id)
	return testdata.Row{}
}

// apart is how far each source of a density may lie from ours besides its rounding.
var apart = map[string]float64{
	"BE":     0.00006, // the same table; the density of water has four figures
	"BP":     0,       // 20 C, two figures
	"COOLEY": 0.007,   // 1880; lighter from 20 % on
	"URE":    0.006,   // 1880; lighter from 20 % on
	"ICT":    0.006,   // 20 C instead of 15.6, where it is lighter; from memory
}

func TestAmmoniaDensity_Published(t *testing.T) {
	compared := map[string]int{}
	for _, r := range testdata.Table(t, "ammonia_density.csv") {
		source, want := r.Text("source"), r.Number("gravity")
		slack, known := apart[source]
		if !known {
			t.Fatalf("line %d: unknown source %s", r.Line(), source)
		}
		if r.Text("kind") == "sg" {
			want *= waterAt60F
		}
		if got := AmmoniaDensity(r.Number("percent")); math.Abs(got-want) > slack+r.HalfUnit("gravity") {
			t.Errorf("line %d: %g %% has %.4f g/ml, %s %.4f", r.Line(), r.Number("percent"), got, source, want)
		}
		compared[source]++
	}
	if compared["BE"] != len(baume) || compared["BP"] != 2 || len(compared) != len(apart) {
		t.Errorf("compared %v", compared)
	}
}

// What a dose takes, worked from the published masses.
func TestAmmonia_Published(t *testing.T) {
	const file = "stoichiometry.csv"
	for id, rise := range map[string]unit.MgN{
		"nh4cl_per_mgN":   1,
		"nh4cl_per_mgNH4": unit.MgIon(1).N(unit.Ammonia),
		"nh4cl_per_mgNH3": unit.MolarN / unit.MolarNH3,
	} {
		r := row(t, file, id)
		d, err := Ammonia(rise, 1000, Product{Salt: true})
		if got := float64(d.Mass); err != nil || math.Abs(got-r.Number("value")) > r.HalfUnit("value") {
			t.Errorf("%s: %.5g mg/L, %v; published %g", id, got, err, r.Number("value"))
		}
	}
	// 10 g of NH3 in 100 ml are 8.224 g of nitrogen by the published factor; so 1 mg
	// N/L in 100 L takes 100/1000/8.224 of 100 ml.
	toNH3 := row(t, file, "n_to_nh3")
	want := 100 * 0.1 / (10 / toNH3.Number("value"))
	d, err := Ammonia(1, 100, Product{Percent: 10, ByVolume: true})
	if err != nil || math.Abs(d.ML/want-1) > 1e-4 {
		t.Errorf("10 %% w/v: %.5g ml, %v; want %.5g", d.ML, err, want)
	}
	// The same by weight with the Pharmacopoeia's density: 25 % w/w of 0.91 g/ml.
	want = 0.1 * toNH3.Number("value") / (0.25 * 0.91)
	d, err = Ammonia(1, 100, Product{Percent: 25, Density: 0.91})
	if err != nil || math.Abs(d.ML/want-1) > 1e-4 {
		t.Errorf("25 %% w/w: %.5g ml, %v; want %.5g", d.ML, err, want)
	}
	alk := row(t, file, "alk_nogrowth")
	if math.Abs(float64(d.Uses)-alk.Number("value")) > alk.HalfUnit("value") || math.Abs(float64(d.Brings)-alk.Number("value")/2) > alk.HalfUnit("value") {
		t.Errorf("1 mg N/L takes %.4g mg/L of alkalinity and brings %.4g, published %g and its half", float64(d.Uses), float64(d.Brings), alk.Number("value"))
	}
}

func TestRaise_Published(t *testing.T) {
	w := Water{Volume: 100, PH: 7, KH: unit.DKH(2).CaCO3(), Temp: 25}
	for id, to := range map[string]unit.MgCaCO3{"nahco3_per_dkh_100l": unit.DKH(3).CaCO3(), "nahco3_per_meq_100l": w.KH + unit.MeqL(1).CaCO3()} {
		r := row(t, "stoichiometry.csv", id)
		b, err := Raise(w, to, SodiumBicarbonate, 0)
		if got := float64(b.Mass); err != nil || math.Abs(got-r.Number("value")) > r.HalfUnit("value") {
			t.Errorf("%s: %.5g g, %v; published %g", id, got, err, r.Number("value"))
		}
	}
	// KHCO3 is 100.115 g/mol (IUPAC 2021: K 39.098, H 1.008, C 12.011, O 15.999), so a
	// milliequivalent in 100 L takes 10.01 g.
	if b, err := Raise(w, w.KH+unit.MeqL(1).CaCO3(), PotassiumBicarbonate, 0); err != nil || math.Abs(float64(b.Mass)-10.0115) > 0.0005 {
		t.Errorf("potassium bicarbonate: %.5g g, %v", float64(b.Mass), err)
	}
}

func TestDechlorinate_Published(t *testing.T) {
	d, err := Dechlorinate(1, 1000, true) // so grams are mg per mg
	if err != nil {
		t.Fatal(err)
	}
	for id, got := range map[string]float64{
		"thio_tetra_anh": float64(d.Anhydrous), "thio_tetra_penta": float64(d.Crystals), "thio_sulfate_penta": float64(d.Least), "chloramine_n_per_cl2": float64(d.Ammonia),
	} {
		if r := row(t, "stoichiometry.csv", id); math.Abs(got-r.Number("value")) > r.HalfUnit("value") {
			t.Errorf("%s: %.5g, published %g", id, got, r.Number("value"))
		}
	}
	for _, r := range testdata.Table(t, "thiosulfate.csv") {
		switch r.Text("end") {
		case "sulfate":
			if math.Abs(float64(d.Least)-r.Number("value")) > r.HalfUnit("value") {
				t.Errorf("%s: to sulfate %.3g, published %g", r.Text("id"), float64(d.Least), r.Number("value"))
			}
		case "tetrathionate":
			if math.Abs(float64(d.Crystals)-r.Number("value")) > r.HalfUnit("value") {
				t.Errorf("%s: to tetrathionate %.3g, published %g", r.Text("id"), float64(d.Crystals), r.Number("value"))
			}
		case "any": // the top of what is advised
			if math.Abs(float64(d.Crystals)-r.Number("high")) > r.HalfUnit("high") {
				t.Errorf("%s: %.3g, published up to %g", r.Text("id"), float64(d.Crystals), r.Number("high"))
			}
		case "excess": // what a bottle gets to be sure is no more than ours
			if float64(d.Crystals) < r.Number("value") {
				t.Errorf("%s: %.3g is less than the %g of a sample bottle", r.Text("id"), float64(d.Crystals), r.Number("value"))
			}
		}
	}
	// What practice takes lies between the least and what is sure to be enough; a sample
	// bottle is told to be on the sure side.
	field := row(t, "stoichiometry.csv", "thio_field_read").Number("value")
	if least := float64(d.Anhydrous) / 8; field < least || field > float64(d.Anhydrous) {
		t.Errorf("the field takes %g mg per mg, ours is from %.3g to %.3g", field, least, float64(d.Anhydrous))
	}
	for _, id := range []string{"thio_bottle_15", "thio_bottle_5"} {
		if r := row(t, "stoichiometry.csv", id); r.Number("value") > float64(d.Crystals) || r.Number("value") < field {
			t.Errorf("%s: %g mg per mg, ours is %.3g", id, r.Number("value"), float64(d.Crystals))
		}
	}
	if r := row(t, "chlorine.csv", "nh2cl_ratio"); math.Abs(1/float64(d.Ammonia)-r.Number("value")) > r.HalfUnit("value") {
		t.Errorf("chloramine holds %.3g mg of chlorine per mg of nitrogen, published %g", 1/float64(d.Ammonia), r.Number("value"))
	}
	if r := row(t, "water_supply.csv", "us_mrdl_nh2cl"); r.Number("value") != MostChlorine {
		t.Errorf("MostChlorine = %g, published %g", MostChlorine, r.Number("value"))
	}
	plain, err := Dechlorinate(1, 1000, false)
	if err != nil || plain.Ammonia != 0 || plain.Crystals != d.Crystals {
		t.Errorf("free chlorine: %+v, %v", plain, err)
	}
}
