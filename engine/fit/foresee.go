package fit

import (
	"math"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// Foresight is a reading to come, off one chart.
type Foresight struct {
	bins []kit.Bin
}

// Foresee prepares for a reading of a species off a chart with steps, which will
// be worth the share tells, see model.Told, above 0 and at most 1, of an independent one: its
// error is taken 1/root(tells) as wide, which is what a normal likelihood to
// that power is.
func Foresee(c kit.Chart, sp unit.Species, tells float64) *Foresight {
	s := c.Sigma * c.Sigma
	f := new(Foresight)
	extra := math.Sqrt((s+misfit[sp]*misfit[sp])/tells - s)
	for i, x := range c.Steps {
		f.bins = append(f.bins, c.Bin(model.Seen{Low: x, High: x, Over: i == len(c.Steps)-1}, sp).Wider(extra))
	}
	return f
}

// Chances puts into out, of the chart's length, the chance of each step when the
// kit without its noise would show v mg/L on the ion scale; see Posterior.View.
// They add up to 1. A blunder may show any step.
func (f *Foresight) Chances(v float64, out []float64) {
	for k := range f.bins {
		out[k] = (1-blunder)*f.bins[k].Prob(v, 1) + blunder/float64(len(f.bins))
	}
}
