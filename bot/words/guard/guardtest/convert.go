package guardtest

import (
	"fmt"
	"strconv"
)

// aConversion puts a quantity in another unit, rightly and in the ways that go wrong.
type aConversion struct {
	kind    string
	pattern string // its group 1 is kept, group 2 is the number
	right   func(v float64) []string
	wrong   func(v float64) []string
}

func f(decimals int, v float64) string { return strconv.FormatFloat(v, 'f', decimals, 64) }

// conversions use factors of their own, not those of the guard: ounces of 28.35 g, gallons
// of 3.785 L, 17.85 mg/L and 2.8 degrees to the meq/L.
var conversions = []aConversion{
	{"temperature", `(\bat |it to |cool to |above about )(\d+) C\b`,
		func(v float64) []string { return []string{f(0, 1.8*v+32) + " F", f(1, 1.8*v+32) + " degrees F"} },
		func(v float64) []string {
			return []string{f(0, 1.8*v+33) + " F", f(0, 1.8*v) + " F", f(0, v) + " F", f(0, 1.8*v+32) + " C", f(0, 2*v+30.6) + " F", f(0, 1.8*v+31) + " F", f(2, 1.8*v+32) + " F"}
		}},
	{"temperature difference", `(\bby )(\d+) C\b`,
		func(v float64) []string { return []string{f(1, 1.8*v) + " F"} },
		func(v float64) []string {
			return []string{f(1, 1.8*v+32) + " F", f(0, 1.8*v+32) + " F", f(1, v/1.8) + " F", f(1, 1.8*v+1) + " F"}
		}},
	{"temperature a day", `(about )(\d+) C a day`,
		func(v float64) []string { return []string{f(1, 1.8*v) + " F a day"} },
		func(v float64) []string {
			return []string{f(1, 1.8*v+32) + " F a day", f(1, v/1.8) + " F a day", f(1, 1.8*v) + " F an hour", f(1, 1.8*v) + " C a day"}
		}},
	{"volume", `(for |of media for |about )(\d+) L\b`,
		func(v float64) []string { return []string{f(1, v/3.785) + " gallons", f(1, v/3.785) + " US gal"} },
		func(v float64) []string {
			return []string{f(1, v/4.546) + " gallons", f(1, v/3.785) + " L", f(0, v) + " gallons", f(1, v/3.785+0.3) + " gal", f(1, v*3.785) + " gal", f(0, v/37.85) + "0 gal"}
		}},
	{"weight", `()(\d+\.\d) g\b`,
		func(v float64) []string { return []string{f(3, v/28.35) + " oz", f(3, v/28.35) + " ounces"} },
		func(v float64) []string {
			return []string{f(1, v/28.35+0.1) + " oz", f(3, v/28.35+0.004) + " oz", f(3, v/2.835) + " oz", f(3, v/28.35) + " g", f(2, v/28.35) + " kg", f(1, v) + " oz"}
		}},
	{"hardness", `(KH to about |under |KH )(\d+(?:\.\d)?) dKH\b`,
		func(v float64) []string {
			return []string{f(0, 17.85*v) + " mg/L CaCO3", f(0, 17.85*v) + " ppm as CaCO3"}
		},
		func(v float64) []string {
			return []string{f(0, 17.85*v) + " mg/L", f(0, 17.85*v) + " ppm", f(0, 17.85*v+2) + " mg/L CaCO3", f(1, v) + " meq/L", f(1, v) + " mg/L CaCO3", f(2, v/2.8+0.1) + " meq/L", f(0, 17.85*v) + " meq/L", f(0, 178.5*v) + " mg/L CaCO3"}
		}},
	{"days", `(about )([2-9]\d|1\d\d) days behind`,
		func(v float64) []string { return []string{f(1, v/7) + " weeks behind"} },
		func(v float64) []string {
			return []string{f(1, v/7+0.2) + " weeks behind", f(1, v/7) + " days behind", f(1, v/7) + " months behind", f(0, v) + " weeks behind", f(0, v) + " hours behind", f(0, v/7+0.6) + " weeks behind"}
		}},
}

// Converted returns answers with a quantity in another unit, which is right or wrong.
func Converted(base Answer, right bool) []Answer {
	var all []Answer
	for _, c := range conversions {
		ways, kind := c.wrong, "wrong "+c.kind
		if right {
			ways, kind = c.right, "right "+c.kind
		}
		for n := range ways(1) {
			for _, text := range once(base.Text, c.pattern, 2, func(m []string) string {
				v, err := strconv.ParseFloat(m[2], 64)
				if err != nil {
					panic(fmt.Sprint("guardtest: ", err))
				}
				return m[1] + ways(v)[n]
			}) {
				all = append(all, Answer{base.Draft, kind, text})
			}
		}
	}
	return all
}
