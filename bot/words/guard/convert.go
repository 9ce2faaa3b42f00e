package guard

import "math"

// conversion is how a unit that answers may use follows from one of drafts: mul times the
// value, plus add where it is no difference.
type conversion struct {
	to       string
	mul, add float64
}

// conversions are exact by definition, but for the molar mass of calcium carbonate
// (100.09 g/mol) and that of calcium oxide (56.08 g/mol), of which a German degree is
// 10 mg/L.
var conversions = map[string][]conversion{
	"c":     {{"f", 1.8, 32}},
	"l":     {{"gal", 1 / 3.785411784, 0}, {"ml", 1000, 0}}, // the US gallon
	"g":     {{"oz", 1 / 28.349523125, 0}},
	"dkh":   {{"caco3", 10 * 100.09 / 56.08, 0}, {"meq/l", 10 * 2 / 56.08, 0}},
	"days":  {{"hours", 24, 0}},
	"hours": {{"days", 1.0 / 24, 0}},
}

// dimensions are kinds that measure the same, by the one that stands for them.
var dimensions = map[string]string{"f": "c", "gal": "l", "ml": "l", "oz": "g", "caco3": "dkh", "meq/l": "dkh", "hours": "days"}

// converted holds where a quantity of an answer is one of the draft in another unit: right
// as far as it is printed, and about as exact as the draft.
func converted(want, t token) bool {
	if want.kind == "" || want.of == 0 || t.of == 0 || want.ranged != t.ranged || want.difference != t.difference {
		return false
	}
	if want.kind == t.kind {
		return want.of != t.of && follows(want, t, conversion{mul: 1})
	}
	for _, c := range conversions[want.kind] {
		if c.to == t.kind {
			return follows(want, t, c)
		}
	}
	return false
}

func follows(want, t token, c conversion) bool {
	if want.difference {
		c.add = 0
	}
	for end := range 2 {
		if end == 1 && !want.ranged {
			break
		}
		exact := (want.value[end]*want.of*c.mul + c.add) / t.of
		step := math.Pow(10, -float64(t.decimals[end]))
		if math.Abs(exact-t.value[end]) > step/2+1e-9 {
			return false
		}
		// The step of the answer in the draft's, which is to be no larger, nor many times finer.
		if ratio := step * t.of / c.mul / (want.of * math.Pow(10, -float64(want.decimals[end]))); ratio > 1+1e-9 || ratio < 0.05 {
			return false
		}
	}
	return true
}
