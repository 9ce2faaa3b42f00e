package dosing_test

import (
	"fmt"

	"ripen/engine/dosing"
	"ripen/engine/unit"
)

// A dose of 2 mg/L on the scale of a kit, in 60 litres, from a solution of 10 % by
// weight and from ammonium chloride.
func ExampleAmmonia() {
	rise := unit.MgIon(2).N(unit.Ammonia)
	solution, _ := dosing.Ammonia(rise, 60, dosing.Product{Percent: 10})
	salt, _ := dosing.Ammonia(rise, 60, dosing.Product{Salt: true})
	fmt.Printf("%.2f ml at %.3f g/ml, or %.3f g\n", solution.ML, solution.Density, float64(salt.Mass))
	// Output: 1.18 ml at 0.959 g/ml, or 0.356 g
}
