package study

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// chart is what a keeper compares colours with: mg/L of the ion.
type chart struct {
	steps   [3][]float64
	haze    float64 // sd of the logarithm of what is seen
	dark    float64 // mg/L below which nothing is seen
	slips   float64 // share of readings that are mistakes
	between float64 // chance to note a value between two steps as both
}

// charts that are sold: two for drops, two strips, and one photometer, whose
// steps are not all those that the engine knows. Common practice, no source.
var charts = []chart{
	{[3][]float64{{0, 0.25, 0.5, 1, 2, 4, 8}, {0, 0.25, 0.5, 1, 2, 5}, {0, 5, 10, 20, 40, 80, 160}}, 0.22, 0.08, 0.03, 0.1},
	{[3][]float64{{0, 0.2, 0.4, 0.8, 1.5, 3, 5, 10}, {0, 0.1, 0.3, 0.6, 1, 2, 4}, {0, 5, 10, 25, 50, 100}}, 0.25, 0.1, 0.03, 0.05},
	{[3][]float64{{0, 0.5, 1, 3, 6}, {0, 0.5, 1, 3, 5, 10}, {0, 10, 25, 50, 100, 250}}, 0.45, 0.2, 0.05, 0.1},
	{[3][]float64{{0, 0.5, 1, 3, 6}, {0, 1, 5, 10}, {0, 10, 25, 50, 100, 250, 500}}, 0.4, 0.3, 0.05, 0},
	{[3][]float64{}, 0.1, 0.03, 0.02, 0},
}

// buyKit picks the keeper's kit: six in ten drops, three strips, one photometer.
func (k *keeper) buyKit() {
	i := [...]int{0, 0, 0, 0, 1, 1, 2, 2, 3, 4}[k.rng.IntN(10)]
	k.chart, k.tool = charts[i], [...]model.Kit{model.Liquid, model.Liquid, model.Strip, model.Strip, model.Meter}[i]
	for sp := range k.bias {
		k.bias[sp] = math.Pow(1.5, between(k.rng, -1, 1))
	}
	k.mixed = between(k.rng, 0.2, 1)
}

// see is what the keeper notes of n mg N/L of a species.
func (k *keeper) see(sp unit.Species, n float64) *model.Seen {
	c := &k.chart
	v := n * sp.IonPerN()
	if sp == unit.Ammonia {
		v += k.bound
	}
	v *= k.bias[sp] * spreadOf(k.rng, 1, c.haze)
	steps := c.steps[sp]
	slip := k.rng.Float64() < c.slips
	if steps == nil {
		if slip { // a dirty glass, or the point in the wrong place
			v *= [...]float64{0.1, 0.3, 3, 10}[k.rng.IntN(4)]
		}
		v = math.Round(100*v) / 100
		return &model.Seen{Low: v, High: v}
	}
	if slip {
		v = steps[k.rng.IntN(len(steps))]
		return &model.Seen{Low: v, High: v}
	}
	if v < c.dark {
		v = 0
	}
	// The nearest colour; colours deepen with the logarithm.
	deep := func(x float64) float64 { return math.Log(x + c.dark) }
	best := 0
	for i := range steps {
		if math.Abs(deep(steps[i])-deep(v)) < math.Abs(deep(steps[best])-deep(v)) {
			best = i
		}
	}
	if best > 0 && best < len(steps)-1 && k.rng.Float64() < c.between {
		if v > steps[best] {
			return &model.Seen{Low: steps[best], High: steps[best+1]}
		}
		return &model.Seen{Low: steps[best-1], High: steps[best]}
	}
	top := best == len(steps)-1 && v > 1.3*steps[best]
	return &model.Seen{Low: steps[best], High: steps[best], Over: top}
}
