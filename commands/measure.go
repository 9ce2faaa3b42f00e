package commands

import (
	"slices"
	"strings"

	"ripen/engine/unit"
)

// dimension tells what an amount measures.
type dimension int

const (
	dimPlain  dimension = iota // a bare number
	dimVolume                  // litres
	dimTemp                    // degrees Celsius
	dimKH                      // German degrees
	dimConc                    // mg/L
	dimShare                   // percent
	dimMass                    // grams
	dimFluid                   // millilitres of a product
	dimTime                    // hours
	dimHeight                  // metres
)

// measure is a unit that people type, with its way to the base unit of its
// dimension and back.
type measure struct {
	name     string // as it is printed and kept
	dim      dimension
	aliases  []string // lower case, without spaces, beside name
	to, from func(float64) float64
}

// family is a set of measures that one option takes.
type family struct {
	example  string // how to write it
	measures []measure
}

// find returns the measure of a typed unit, nil if it is none of the family.
func (f family) find(typed string) *measure {
	t := strings.ToLower(strings.Join(strings.Fields(typed), ""))
	t = strings.TrimSuffix(t, ".")
	i := slices.IndexFunc(f.measures, func(m measure) bool {
		return t == strings.ToLower(m.name) || slices.Contains(m.aliases, t)
	})
	if i < 0 {
		return nil
	}
	return &f.measures[i]
}

// with returns a family that takes what f takes and what g takes.
func (f family) with(g family, example string) family {
	return family{example, slices.Concat(f.measures, g.measures)}
}

func times(k float64) (to, from func(float64) float64) {
	return func(x float64) float64 { return x * k }, func(x float64) float64 { return x / k }
}

func scaled(name string, d dimension, k float64, aliases ...string) measure {
	to, from := times(k)
	return measure{name, d, aliases, to, from}
}

func volumes() family {
	return family{"60L, 15gal or 15impgal", []measure{
		scaled("L", dimVolume, 1, "liter", "liters", "litre", "litres", "ltr", "ltrs", "lt"),
		{"gal", dimVolume, []string{"gals", "gallon", "gallons", "usgal", "usgallon", "usgallons"},
			func(x float64) float64 { return float64(unit.FromUSGal(x)) }, func(x float64) float64 { return unit.Litres(x).USGal() }},
		{"impgal", dimVolume, []string{"impgals", "impgallon", "impgallons", "imperialgallon", "imperialgallons", "ukgal", "ukgallon", "ukgallons"},
			func(x float64) float64 { return float64(unit.FromImpGal(x)) }, func(x float64) float64 { return unit.Litres(x).ImpGal() }},
		scaled("ml", dimVolume, 0.001, "milliliter", "milliliters", "millilitre", "millilitres"),
	}}
}

func temps() family {
	return family{"25C or 77F", []measure{
		scaled("C", dimTemp, 1, "°c", "oc", "degc", "celsius", "degreesc", "degreescelsius"),
		{"F", dimTemp, []string{"°f", "of", "degf", "fahrenheit", "degreesf", "degreesfahrenheit"},
			func(x float64) float64 { return float64(unit.FromFahrenheit(x)) }, func(x float64) float64 { return unit.Celsius(x).Fahrenheit() }},
	}}
}

func hardnesses() family {
	return family{"6dKH, 107ppm or 2.1meq", []measure{
		scaled("dKH", dimKH, 1, "kh", "°dkh", "dh", "°dh", "°kh", "degrees", "degree", "deg", "germandegrees"),
		{"ppm", dimKH, []string{"mg/l", "mgl", "ppmcaco3", "mg/lcaco3", "ppmascaco3", "mg/lascaco3"},
			func(x float64) float64 { return float64(unit.MgCaCO3(x).DKH()) }, func(x float64) float64 { return float64(unit.DKH(x).CaCO3()) }},
		{"meq", dimKH, []string{"meq/l", "meql", "mmol/l", "mmol"},
			func(x float64) float64 { return float64(unit.MeqL(x).CaCO3().DKH()) }, func(x float64) float64 { return float64(unit.DKH(x).CaCO3().Meq()) }},
	}}
}

func concentrations() family {
	return family{"0.5 or 2ppm", []measure{
		scaled("mg/L", dimConc, 1, "ppm", "mgl", "mg/liter", "mg/litre", "mgperl", "mgperliter", "mgperlitre", "milligramsperliter", "milligramsperlitre"),
		scaled("ppb", dimConc, 0.001, "ug/l", "μg/l", "mcg/l"),
	}}
}

func chartSteps() family {
	f := concentrations()
	f.example = "0.5, a range as 20-40, a chart that tops out as 5+, none as 0"
	return f
}

func shares() family {
	return family{"40%", []measure{scaled("%", dimShare, 1, "percent", "pct")}}
}

func masses() family {
	return family{"5g", []measure{
		scaled("g", dimMass, 1, "gr", "gram", "grams", "gramme", "grammes"),
		scaled("kg", dimMass, 1000, "kilo", "kilos", "kilogram", "kilograms"),
		scaled("mg", dimMass, 0.001, "milligram", "milligrams"),
	}}
}

func fluids() family {
	return family{"10ml", []measure{
		scaled("ml", dimFluid, 1, "milliliter", "milliliters", "millilitre", "millilitres"),
		scaled("L", dimFluid, 1000, "liter", "liters", "litre", "litres"),
	}}
}

func spans() family {
	return family{"12, 12h or 2d", []measure{
		scaled("h", dimTime, 1, "hr", "hrs", "hour", "hours"),
		scaled("d", dimTime, 24, "day", "days"),
		scaled("min", dimTime, 1.0/60, "mins", "minute", "minutes"),
	}}
}

func heights() family {
	return family{"1600m or 5200ft", []measure{
		scaled("m", dimHeight, 1, "meter", "meters", "metre", "metres", "masl"),
		scaled("ft", dimHeight, 0.3048, "foot", "feet"),
	}}
}

func numbers(example string, unitAliases ...string) family {
	return family{example, []measure{scaled("", dimPlain, 1, unitAliases...)}}
}
