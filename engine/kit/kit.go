// Package kit models how a test kit turns a true concentration into what a
// person reads off a chart.
//
// A colour chart gives a step, not a value: the probability of a reading is the
// probability that a noisy view of the true value falls nearest to that step.
// Below the first step the chart reads zero, and its top step is open. All
// values are mg/L on the ion scale.
//
// The chart steps and errors are common practice, no source: they are those of
// ordinary colour kits for ammonia, nitrite and nitrate.
package kit

import (
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// Chart is a row of colour steps with the error of reading it.
type Chart struct {
	Steps []float64 // ascending, the first is zero
	Sigma float64   // sd of the logarithm of the view
	Floor float64   // added before taking logarithms: about where the eye sees nothing
}

// charts by kit and species.
var charts = [...][3]Chart{
	model.Liquid: {
		unit.Ammonia: {[]float64{0, 0.25, 0.5, 1, 2, 4, 8}, 0.20, 0.10},
		unit.Nitrite: {[]float64{0, 0.25, 0.5, 1, 2, 5}, 0.20, 0.10},
		unit.Nitrate: {[]float64{0, 5, 10, 20, 40, 80, 160}, 0.30, 2.0},
	},
	model.Strip: {
		unit.Ammonia: {[]float64{0, 0.5, 1, 3, 6}, 0.40, 0.25},
		unit.Nitrite: {[]float64{0, 0.5, 1, 3, 5, 10}, 0.40, 0.25},
		unit.Nitrate: {[]float64{0, 10, 25, 50, 100, 250}, 0.45, 4.0},
	},
	model.Meter: {
		unit.Ammonia: {nil, 0.08, 0.04},
		unit.Nitrite: {nil, 0.08, 0.04},
		unit.Nitrate: {nil, 0.12, 0.5},
	},
}

// For returns the chart of a kit for a species; a Meter's has no steps.
func For(k model.Kit, s unit.Species) Chart { return charts[k][s] }

// Bin is the interval of views that give one reading, mg/L.
type Bin struct {
	Low, High float64 // Low is -Inf at the bottom of a chart, High +Inf at its top
	lo, hi    float64 // the same as logarithms, Floor added
	sigma     float64
	inv       float64 // 1/sigma
	floor     float64
}

// Bin returns the interval of views behind a reading. A reading between two
// steps reaches half way, on the chart's scale, to both neighbours; a meter's
// to 5 % and 0.01 mg/L on either side. On the nitrogen scale a value is a step of
// the ion scale that was converted, or else a step of a chart printed in nitrogen.
func (c Chart) Bin(x model.Seen, s unit.Species) Bin {
	b := c.interval(x, s)
	b.floor, b.sigma, b.inv = c.Floor, c.Sigma, 1/c.Sigma
	b.lo, b.hi = math.Inf(-1), math.Log(b.High+c.Floor)
	if b.Low+c.Floor > 0 {
		b.lo = math.Log(b.Low + c.Floor)
	}
	return b
}

// interval works out the bounds of a reading's bin.
func (c Chart) interval(x model.Seen, s unit.Species) Bin {
	lo, hi := x.Low, max(x.High, x.Low)
	if x.AsN {
		k := s.IonPerN()
		if c.has(lo) && c.has(hi) && !(c.has(lo*k) && c.has(hi*k)) {
			c = c.times(k)
		}
		lo, hi = lo*k, hi*k
	}
	b := Bin{Low: math.Inf(-1), High: math.Inf(1)}
	if c.Steps == nil {
		b.Low, b.High = lo*0.95-0.01, hi*1.05+0.01
		if lo <= 0 {
			b.Low = math.Inf(-1)
		}
		if x.Over {
			b.High = math.Inf(1)
		}
		return b
	}
	lo, hi = c.snap(lo), c.snap(hi)
	if i := below(c.Steps, lo); i >= 0 && lo > 0 {
		b.Low = c.middle(c.Steps[i], lo)
	}
	if i := above(c.Steps, hi); i < len(c.Steps) && !x.Over {
		b.High = c.middle(hi, c.Steps[i])
	}
	return b
}

// has says whether v is a step of the chart.
func (c Chart) has(v float64) bool { return slices.Contains(c.Steps, c.snap(v)) }

// times returns the chart with its steps in units k times as large: a chart that
// is printed in nitrogen has the usual numbers on it, which stand for more.
func (c Chart) times(k float64) Chart {
	steps := make([]float64, len(c.Steps))
	for i, s := range c.Steps {
		steps[i] = k * s
	}
	c.Steps = steps
	return c
}

// snap returns the step that v is within 4 % of, or v: a value converted from
// the other scale is still that step.
func (c Chart) snap(v float64) float64 {
	for _, s := range c.Steps {
		if math.Abs(v-s) <= 0.04*s {
			return s
		}
	}
	return v
}

// below returns the index of the largest step under v, -1 if none.
func below(steps []float64, v float64) int {
	i, _ := slices.BinarySearch(steps, v*(1-1e-9))
	return i - 1
}

// above returns the index of the smallest step over v, len(steps) if none.
func above(steps []float64, v float64) int {
	i, _ := slices.BinarySearch(steps, v*(1+1e-9)+1e-12)
	return i
}

// middle is where the eye goes over from step a to step b.
func (c Chart) middle(a, b float64) float64 {
	return math.Sqrt((a+c.Floor)*(b+c.Floor)) - c.Floor
}

// Wider returns the same bin seen with more error: extra is added to Sigma in
// quadrature.
func (b Bin) Wider(extra float64) Bin {
	b.sigma = math.Sqrt(b.sigma*b.sigma + extra*extra)
	b.inv = 1 / b.sigma
	return b
}

// Prob returns the probability that a true value of v mg/L is read as this bin,
// with the kit's bias as a factor:
//
//	p = phi((ln(High + Floor) - m)/Sigma) - phi((ln(Low + Floor) - m)/Sigma)
//	m = ln(bias v + Floor)
//
// A negative v counts as none; bias must be above 0. Beyond six Sigma it is 0.
func (b *Bin) Prob(v, bias float64) float64 {
	at := math.Log(max(v, 0)*bias + b.floor)
	return max(phi((b.hi-at)*b.inv)-phi((b.lo-at)*b.inv), 0)
}

// Most is the highest probability that any true value gives this bin. Where Prob
// leaves a tail out, that may be higher by a billionth.
func (b *Bin) Most() float64 {
	switch none := math.Log(b.floor); {
	case math.IsInf(b.hi, 1):
		return 1
	case (b.lo+b.hi)/2 > none:
		return math.Erf((b.hi - b.lo) / 2 * b.inv / math.Sqrt2)
	default: // the middle of the bin lies below nothing at all
		return phi((b.hi-none)*b.inv) - phi((b.lo-none)*b.inv)
	}
}

// Nearest returns the step that a view of v would be read as, and whether it
// is the open top of the chart. A meter returns v rounded to 0.01.
func (c Chart) Nearest(v float64) (step float64, top bool) {
	if c.Steps == nil {
		return math.Round(v*100) / 100, false
	}
	for i := 0; i < len(c.Steps)-1; i++ {
		if v < c.middle(c.Steps[i], c.Steps[i+1]) {
			return c.Steps[i], false
		}
	}
	return c.Steps[len(c.Steps)-1], true
}
