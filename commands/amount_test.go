package commands

import (
	"math"
	"testing"

	"ripen/store"
)

// The option and the member's units that an amount is read with.
var amountOptions = map[string]Option{
	"volume": {Name: "volume", Type: TypeVolume, Min: 1, Max: 100000, Unit: "L"}, "temp": optTemp(""), "kh": optKH(""), "ph": optPH("ph", ""),
	"ammonia": optAmmonia(TypeReading), "chlorine": optChlorine(), "stock": {Name: "stock", Type: TypeMass, Max: 100000, Unit: "g"},
	"hours": {Name: "hours", Type: TypeHours, Min: 0.05, Max: 720, Unit: "h"}, "salinity": optSalinity(),
	"altitude": optAltitude(),
}

var american = store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}

func TestReadValue(t *testing.T) {
	const exact = "US liquid gallon of 231 cubic inches; imperial gallon of the UK Weights and Measures Act 1985"
	tests := []struct {
		option, typed string
		units         store.Units
		low, high     float64
		open          bool
		source        string
	}{
		{"volume", "60L", store.Metric, 60, 60, false, "as typed"},
		{"volume", "60 litres", american, 60, 60, false, "a unit stands over the member's own"},
		{"volume", "15gal", store.Metric, 56.78118, 56.78118, false, exact},
		{"volume", "15 US gal", store.Metric, 56.78118, 56.78118, false, exact},
		{"volume", "15impgal", store.Metric, 68.19135, 68.19135, false, exact},
		{"volume", "15", american, 56.78118, 56.78118, false, "a bare number is in the member's unit"},
		{"volume", "2500 ml", store.Metric, 2.5, 2.5, false, "thousandths"},
		{"temp", "25C", store.Metric, 25, 25, false, "as typed"},
		{"temp", "25 °C", american, 25, 25, false, "degree sign and space"},
		{"temp", "25℃", store.Metric, 25, 25, false, "one character U+2103"},
		{"temp", "77F", store.Metric, 25, 25, false, "definition: 1.8 C + 32"},
		{"temp", "78f", store.Metric, 25.5556, 25.5556, false, "lower case"},
		{"temp", "77", american, 25, 25, false, "a bare number is in the member's unit"},
		{"temp", "77°", american, 25, 25, false, "a degree sign alone is no unit"},
		{"temp", "104F", store.Metric, 40, 40, false, "the upper bound, not quite 40 in floating point"},
		{"kh", "6dKH", store.Metric, 6, 6, false, "as typed"},
		{"kh", "107ppm", store.Metric, 5.995, 5.995, false, "1 dKH is 10 mg CaO/L, 17.848 mg/L as CaCO3"},
		{"kh", "2.1meq", store.Metric, 5.888, 5.888, false, "1 meq/L is 50.043 mg/L as CaCO3"},
		{"kh", "107", american, 5.995, 5.995, false, "a bare number is in the member's unit"},
		{"kh", "0", store.Metric, 0, 0, false, "soft water can have none"},
		{"altitude", "1600m", store.Metric, 1600, 1600, false, "as typed"},
		{"altitude", "5200 ft", store.Metric, 1584.96, 1584.96, false, "1 ft is 0.3048 m, exact"},
		{"altitude", "1600", american, 1600, 1600, false, "a bare number is in metres"},
		{"altitude", "-200m", store.Metric, -200, -200, false, "a shore below the sea"},
		{"ammonia", "0.25", store.Metric, 0.25, 0.25, false, "as typed"},
		{"ammonia", ".5", store.Metric, 0.5, 0.5, false, "no digit before the point"},
		{"ammonia", "0,25", store.Metric, 0.25, 0.25, false, "decimal comma"},
		{"ammonia", "0,250", store.Metric, 0.25, 0.25, false, "no thousand begins with 0"},
		{"ammonia", "2,5 mg/l", store.Metric, 2.5, 2.5, false, "decimal comma with a unit"},
		{"ammonia", "5+", store.Metric, 5, 5, true, "the chart tops out"},
		{"ammonia", "5 ppm+", store.Metric, 5, 5, true, "plus behind the unit"},
		{"ammonia", "0", store.Metric, 0, 0, false, "below the first step"},
		{"ammonia", "2-4", store.Metric, 2, 4, false, "between two steps"},
		{"ammonia", "2 – 4 ppm", store.Metric, 2, 4, false, "an en dash"},
		{"ammonia", "２.５", store.Metric, 2.5, 2.5, false, "full-width digits"},
		{"ph", "7.4", store.Metric, 7.4, 7.4, false, "as typed"},
		{"ph", "7.4 pH", store.Metric, 7.4, 7.4, false, "as some write it"},
		{"salinity", "35 ppt", store.Metric, 35, 35, false, "parts per thousand are g/kg"},
		{"chlorine", "0.5mg/L", store.Metric, 0.5, 0.5, false, "as typed"},
		{"stock", "1.2kg", store.Metric, 1200, 1200, false, "thousands"},
		{"hours", "2d", store.Metric, 48, 48, false, "days"},
		{"hours", "12", store.Metric, 12, 12, false, "a bare number is hours"},
	}
	for _, tt := range tests {
		o := amountOptions[tt.option]
		a, err := readValue(o, tt.typed, bareUnit(o, tt.units))
		if err != nil {
			t.Errorf("%s:%s: %v", tt.option, tt.typed, err)
			continue
		}
		if math.Abs(a.low-tt.low) > 1e-3 || math.Abs(a.high-tt.high) > 1e-3 || a.open != tt.open {
			t.Errorf("%s:%s = %v to %v (open %v), want %v to %v (%v): %s", tt.option, tt.typed, a.low, a.high, a.open, tt.low, tt.high, tt.open, tt.source)
		}
	}
}

func TestReadValueRefuses(t *testing.T) {
	tests := []struct{ option, typed, code, reason string }{
		{"ph", "15", CodeRange, "no water"},
		{"ph", "0", CodeRange, "no water"},
		{"ph", "7-8", CodeNumber, "a range where one number is needed"},
		{"ph", "7+", CodeNumber, "an open top where one number is needed"},
		{"ammonia", "-1", CodeRange, "no negative amounts"},
		{"ammonia", "−1", CodeRange, "the same with a minus sign U+2212"},
		{"ammonia", "5000ppm", CodeRange, "more than any kit or tank shows"},
		{"ammonia", "2-400", CodeRange, "the upper step counts too"},
		{"ammonia", "4-2", CodeNumber, "backwards"},
		{"ammonia", "2-4+", CodeNumber, "a range and open at once"},
		{"ammonia", "abc", CodeNumber, "no digits"},
		{"ammonia", "", CodeMissing, "nothing"},
		{"ammonia", "1,250", CodeNumber, "could be a thousand"},
		{"ammonia", "1,250,000", CodeNumber, "thousands"},
		{"ammonia", "1.2.3", CodeNumber, "two points"},
		{"ammonia", "1,25.5", CodeNumber, "comma and point"},
		{"ammonia", "1/2", CodeNumber, "a fraction or two readings"},
		{"ammonia", "½", CodeNumber, "a fraction in one character"},
		{"ammonia", "1e3", CodeUnit, "no exponents"},
		{"ammonia", "NaN", CodeNumber, "not a number"},
		{"ammonia", "Inf", CodeNumber, "not a number"},
		{"ammonia", "0x10", CodeUnit, "no hexadecimals"},
		{"ammonia", "5 apples", CodeUnit, "no unit"},
		{"ammonia", "5%", CodeUnit, "a unit of something else"},
		{"temp", "300F", CodeRange, "boiling"},
		{"temp", "25L", CodeUnit, "a unit of something else"},
		{"volume", "0", CodeRange, "no tank"},
		{"volume", "60", "", "control: this one is fine"},
		{"volume", "99999999999999999999999999999999999999999999L", CodeRange, "absurd"},
		{"kh", "60dKH", CodeRange, "more than any water"},
		{"hours", "0", CodeRange, "no time"},
		{"stock", "5g\x00", CodeBadText, "NUL"},
		{"stock", "5\xffg", CodeBadText, "invalid UTF-8"},
	}
	for _, tt := range tests {
		o := amountOptions[tt.option]
		_, err := readValue(o, tt.typed, bareUnit(o, store.Metric))
		code := ""
		if err != nil {
			code = err.Code
		}
		if code != tt.code {
			t.Errorf("%s:%q: code %q, want %q: %s", tt.option, tt.typed, code, tt.code, tt.reason)
		}
	}
}
