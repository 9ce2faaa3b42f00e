package commands

import (
	"encoding/json"
	"strings"
)

// Values is what a reading holds: mg/L on the kit's scale, KH in dKH,
// temperature in C; only what was read.
type Values struct {
	Ammonia  *Value `json:"ammonia,omitempty"`
	Nitrite  *Value `json:"nitrite,omitempty"`
	Nitrate  *Value `json:"nitrate,omitempty"`
	PH       *Value `json:"ph,omitempty"`
	KHdKH    *Value `json:"kh_dkh,omitempty"`
	TempC    *Value `json:"temp_c,omitempty"`
	Chlorine *Value `json:"chlorine,omitempty"`
	Oxygen   *Value `json:"oxygen,omitempty"`
}

// Value is one value of a reading. It marshals to a number, to "5+" where the
// chart tops out, and to [20,40] where the colour stood between two steps.
type Value struct {
	Low, High float64
	Over      bool
}

// MarshalJSON implements json.Marshaler.
func (v Value) MarshalJSON() ([]byte, error) {
	switch {
	case v.Over:
		return json.Marshal(number(v.Low, 3) + "+")
	case v.Low != v.High:
		return json.Marshal([]float64{v.Low, v.High})
	}
	return json.Marshal(v.Low)
}

// String prints the value as it is typed: 0.5, 20-40, 5+.
func (v Value) String() string {
	switch {
	case v.Over:
		return number(v.Low, 3) + "+"
	case v.Low != v.High:
		return number(v.Low, 3) + "-" + number(v.High, 3)
	}
	return number(v.Low, 3)
}

func valuesOf(args map[string]arg) Values {
	of := func(name string) *Value {
		a, ok := args[name]
		if !ok {
			return nil
		}
		return &Value{rounded(a.low, 3), rounded(a.high, 3), a.open}
	}
	return Values{of("ammonia"), of("nitrite"), of("nitrate"), of("ph"), of("kh"), of("temp"), of("chlorine"), of("oxygen")}
}

// shown prints the values of a reading in the member's units.
func shown(c *call) []string {
	var s []string
	for _, name := range measured {
		a, ok := c.args[name]
		if !ok {
			continue
		}
		v := Value{a.low, a.high, a.open}
		words := label(name) + " " + v.String()
		switch name {
		case "ph":
		case "kh":
			words = label(name) + " " + inUnit(hardnesses(), c.units.KH, a.low).String()
		case "temp":
			words = label(name) + " " + inUnit(temps(), c.units.Temp, a.low).String()
		default:
			words += " mg/L" + asNitrogen(a.bare)
		}
		s = append(s, strings.TrimSpace(words))
	}
	return s
}
