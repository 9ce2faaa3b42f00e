package post

import (
	"fmt"

	"ripen/engine/unit"
)

// limits are the values that a reading of a living tank can have. Common
// practice, no source; beyond them a missing point or a wrong unit is likelier.
var limits = [...]struct {
	low, high float64
	unit      string
}{
	Ammonia: {0, 20, " mg/L"}, Nitrite: {0, 20, " mg/L"}, Nitrate: {0, 500, " mg/L"}, PH: {4, 10, ""}, KH: {0, 40, " dKH"}, Temp: {5, 40, " °C"}, Chlorine: {0, 5, " mg/L"},
}

// chartTop is the last step of usual colour charts. Common practice, no source.
var chartTop = map[Kind]float64{Ammonia: 8, Nitrite: 5, Nitrate: 160}

// firstStep is the highest value that a usual chart has as its first step above
// zero: "less than" it is a zero. Common practice, no source.
var firstStep = map[Kind]float64{Ammonia: 0.5, Nitrite: 0.5, Nitrate: 12.5, Chlorine: 0.5}

// bareKH is the highest carbonate hardness in dKH taken without a unit.
const bareKH = 25

// value turns a reading to what is stored, or says why it is doubtful. dashed
// says that the post writes a dash before its numbers.
func (r *reader) value(x *reading, dashed bool) (Found, string) {
	a := *x.amt
	f := Found{Kind: x.kind, Typed: r.src.quote(x.from, x.to), AsN: a.asN}
	if x.label != nil {
		f.AsN = f.AsN || x.label.asN
		if a.unit == noUnit || a.unit == degrees {
			a.unit = max(x.label.unit, a.unit)
		}
	}
	if x.kind == KH && a.unit == noUnit && r.allPPM && a.low > 25 {
		a.unit = ppm
	}
	f.AsN = x.kind <= Nitrate && (f.AsN || r.opt.Scale == "n")
	switch {
	case a.odd != "":
		return f, a.odd
	case a.negative || a.dash && !dashed && a.low > 0 && x.kind != PH && x.kind != Temp:
		l := limits[x.kind]
		return f, fmt.Sprintf("a minus or a dash stands before it, and %s lies between %g and %g%s; write it without, as in %s 0.5", x.kind.plain(), l.low, l.high, l.unit, x.kind.plain())
	}
	switch a.word {
	case zeroWord, nilWord, noneLabel, goneWord:
		return f, ""
	case topWord:
		top, ok := chartTop[x.kind]
		if !ok {
			return f, "a number is needed here; write the highest step of your chart"
		}
		f.Low, f.High, f.Over = top, top, true
		return f, ""
	case traceWord:
		return f, "it is no number; write the step of the chart that comes nearest, or 0 if it shows none"
	case colourWord:
		return f, "a colour differs from kit to kit; write the number beside it on the chart"
	case unclear:
		return f, "it can mean that none was found or that no test was done; write " + x.kind.plain() + " 0 or leave it out"
	}
	f.Low, f.High, f.Over = a.low, a.high, a.over
	if reason := r.convert(&f, a.unit); reason != "" {
		return f, reason
	}
	if a.under {
		switch step, ok := firstStep[x.kind]; {
		case x.sense.denies != nil && x.sense.denies.isZero(): // "not zero but under 0.25"
		case ok && f.High <= step:
			f.High = 0
		case !ok && x.kind != KH:
			return f, "a value below a bound is not a reading; write the value that comes nearest"
		}
	}
	if l := limits[x.kind]; f.Low < l.low || f.High > l.high {
		return f, fmt.Sprintf("%s should lie between %g and %g%s; check the number, its point and its unit", x.kind.plain(), l.low, l.high, l.unit)
	}
	return f, ""
}

// plain is the name of the kind for people.
func (k Kind) plain() string {
	return [...]string{"ammonia", "nitrite", "nitrate", "pH", "KH", "temperature", "chlorine", "other"}[k]
}

// convert brings a reading to its unit: mg/L, dKH, °C.
func (r *reader) convert(f *Found, u unitOf) string {
	scale := func(c func(float64) float64) { f.Low, f.High = c(f.Low), c(f.High) }
	switch {
	case u == gramL:
		return "g/L is far too much for it; write it in mg/L"
	case u == ppb:
		scale(func(v float64) float64 { return v / 1000 })
	case f.Kind == KH:
		return r.convertKH(f, u, scale)
	case f.Kind == Temp:
		return r.convertTemp(f, u, scale)
	}
	return ""
}

func (r *reader) convertKH(f *Found, u unitOf, scale func(func(float64) float64)) string {
	bare := u == noUnit
	if bare {
		u = map[string]unitOf{"dKH": german, "ppm": ppm, "meq": meq}[r.opt.KH]
	}
	switch u {
	case ppm:
		if bare && f.High > 0 && f.High < 9 {
			return fmt.Sprintf("%g ppm is next to nothing; write KH %gdKH or KH %gppm", f.High, f.High, f.High)
		}
		scale(func(v float64) float64 { return float64(unit.MgCaCO3(v).DKH()) })
	case meq:
		scale(func(v float64) float64 { return float64(unit.MeqL(v).CaCO3().DKH()) })
	case dropsKit:
		return "what a drop stands for differs from kit to kit; write it as KH 4dKH or KH 71ppm"
	default:
		if bare && f.High > bareKH {
			return fmt.Sprintf("KH should lie between 0 and %d dKH without a unit; if it is ppm, write KH %gppm", bareKH, f.High)
		}
	}
	return ""
}

// living is the range of temperatures that a bare number is taken for.
const (
	livingLow, livingHigh = 10, 40
)

func (r *reader) convertTemp(f *Found, u unitOf, scale func(func(float64) float64)) string {
	toC := func(v float64) float64 { return float64(unit.FromFahrenheit(v)) }
	bare := u == noUnit || u == degrees
	if bare {
		u = celsius
		if r.opt.Temp == "F" {
			u = fahrenheit
		}
	}
	low, high, own, sign := f.Low, f.High, "°C", "F"
	if u == fahrenheit {
		scale(toC)
		own, sign = "°F", "C"
	}
	if bare && (f.Low < livingLow || f.High > livingHigh) {
		from, to := float64(livingLow), float64(livingHigh)
		if u == fahrenheit {
			from, to = unit.Celsius(from).Fahrenheit(), unit.Celsius(to).Fahrenheit()
		}
		said := fmt.Sprintf("%g", low)
		if high != low {
			said = fmt.Sprintf("%g-%g", low, high)
		}
		return fmt.Sprintf("without a unit it means %s for you, and tanks lie between %g and %g %s; write temp %s%s if that is meant", own, from, to, own, said, sign)
	}
	return ""
}
