package dosing

import "ripen/engine/unit"

// MaxPercent is the strongest solution of ammonia that [AmmoniaDensity] knows, percent
// NH3 by weight. Stronger ones do not keep at room temperature.
const MaxPercent = 35.28

// baume is the percent by weight of NH3 in solutions of 10, 11, ... 29 degrees Baumé
// (lighter than water, 60 F), of which the specific gravity is 140/(130 + degrees).
var baume = [...]float64{0, 1.62, 3.30, 5.02, 6.74, 8.49, 10.28, 12.10, 13.96, 15.84,
	17.76, 19.68, 21.60, 23.52, 25.48, 27.44, 29.40, 31.36, 33.32, 35.28}

// waterAt60F is the density of water at 60 F, g/ml, to which the gravities refer.
const waterAt60F = 0.9990

// AmmoniaDensity returns the density in g/ml of aqueous ammonia at 60 F (15.6 C), of a
// strength in percent NH3 by weight: linear between the rows of a table of degrees
// Baumé. Held at its ends, 0 and [MaxPercent].
//
// Within 0.006 of other published tables. At 25 C a solution of 10 % is 0.4 % lighter,
// one of 28 % about 0.7 %.
//
// Source: the table of aqua ammonia of a producer's handbook, degrees Baumé against
// weight percent, in testdata/published/ammonia_density.csv.
func AmmoniaDensity(percent float64) float64 {
	p := min(max(percent, 0), MaxPercent)
	i := 1
	for i < len(baume)-1 && baume[i] < p {
		i++
	}
	low, high := baume[i-1], baume[i]
	degrees := 10 + float64(i-1) + (p-low)/(high-low)
	return waterAt60F * 140 / (130 + degrees)
}

// byWeight returns the percent by weight of a solution that holds grams of NH3 in
// 100 ml, and its density: the fixed point of percent = grams/density.
func byWeight(gramsPer100 float64) (percent, density float64) {
	percent = gramsPer100
	for range 60 {
		density = AmmoniaDensity(percent)
		percent = gramsPer100 / density
	}
	return percent, density
}

// DropsPerML is how many drops of a watery liquid make a millilitre. Common practice,
// no source; droppers differ by a third.
const DropsPerML = 20

// milligrams is what a rise in mg/L takes in all.
func milligrams(rise float64, v unit.Litres) float64 { return rise * float64(v) }
