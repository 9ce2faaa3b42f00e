package chem_test

import (
	"fmt"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// The handbook table prints 0.0381 for pH 8.0 and 20 C: of 2 mg/L total ammonia
// nitrogen, 0.076 mg/L is the form that harms.
func ExampleFreeAmmoniaFraction() {
	const tan = 2.0
	f := chem.FreeAmmoniaFraction(8.0, 20, 0)
	fmt.Printf("%.4f of the total, %.3f mg N/L\n", f, f*tan)
	// Output: 0.0381 of the total, 0.076 mg N/L
}

// Soft water of 2 meq/L in a room at 25 C, before and after 10 mg/L of dosed ammonium
// nitrogen has become nitrate. A speciation program prints 8.482 and 7.949
// (carbonate.csv, rows P1).
func ExamplePHFromAlkalinity() {
	alk := unit.MeqL(2).CaCO3()
	co2 := chem.CO2AtAir(25, 400)
	fmt.Printf("pH %.2f at %.0f mg/L CaCO3\n", chem.PHFromAlkalinity(alk, co2, 25, 0.002), alk)
	alk -= 10 * chem.AlkPerNitrified
	fmt.Printf("pH %.2f at %.0f mg/L CaCO3\n", chem.PHFromAlkalinity(alk, co2, 25, 0.002), alk)
	// Output:
	// pH 8.48 at 100 mg/L CaCO3
	// pH 7.95 at 29 mg/L CaCO3
}

// US EPA (2013) states its criteria at pH 7 and 20 C as 17 mg/L acute and 1.9 mg/L
// chronic.
func ExampleAcuteTAN() {
	fmt.Printf("acute %.0f, chronic %.1f mg N/L\n", chem.AcuteTAN(7, 20, true), chem.ChronicTAN(7, 20))
	// Output: acute 17, chronic 1.9 mg N/L
}

// Tap water at the US limit of 4 mg/L chloramine leaves 0.79 mg/L ammonia nitrogen
// when neutralised (water_supply.csv), and takes up to 700 mg of thiosulfate crystals
// per 25 L.
func Example_chloramine() {
	const residual = 4.0 // mg Cl2/L
	fmt.Printf("%.2f mg N/L\n", residual*chem.AmmoniaNPerChloramine)
	fmt.Printf("%.0f mg Na2S2O3.5H2O in 25 L\n",
		25*residual*chem.ThiosulfatePerChlorine*chem.PentahydratePerThiosulfate)
	// Output:
	// 0.79 mg N/L
	// 700 mg Na2S2O3.5H2O in 25 L
}
