package nexttest

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// sense is one thing that can be read.
type sense struct {
	what string
	like unit.Species // whose misfits last as long
	made func(*model.Reading) bool
	// chances returns, for what each draw would show without noise, the steps that
	// may be seen and the chance of each, by draw.
	chances func(p *fit.Posterior, v []float64, told float64) (steps []float64, open bool, chance [][]float64)
}

var senses = [...]sense{
	{Ammonia, unit.Ammonia, func(r *model.Reading) bool { return r.Ammonia != nil }, colours(unit.Ammonia)},
	{Nitrite, unit.Nitrite, func(r *model.Reading) bool { return r.Nitrite != nil }, colours(unit.Nitrite)},
	{Nitrate, unit.Nitrate, func(r *model.Reading) bool { return r.Nitrate != nil }, colours(unit.Nitrate)},
	{PH, unit.Ammonia, func(r *model.Reading) bool { return r.PH != nil }, scale(phStep, phErr)},
	{KH, unit.Ammonia, func(r *model.Reading) bool { return r.KH != nil }, scale(khStep, khErr)},
}

// Steps and errors of pH charts and of hardness tests, which count drops of a
// degree. Common practice, no source.
const (
	phStep, phErr = 0.2, 0.2
	khStep, khErr = 1, 0.6 // dKH
)

// of works out one reading on one day. Readings soon after the last of the same
// tell less; see model.Told.
func (s *sense) of(p *fit.Posterior, g *gain, v []float64, day float64) Candidate {
	told := model.Told(s.like, since(&p.Plan.Case, p.Plan.Now, day, s.made), 0)
	steps, open, chance := s.chances(p, v, told)
	c := Candidate{What: s.what, Day: day}
	c.Bits, c.Err = g.information(chance)
	c.After = g.after(chance)
	all := make([]float64, len(steps))
	for _, x := range chance {
		for k := range x {
			all[k] += x[k] / float64(len(chance))
		}
	}
	low, high := stepAt(all, 0.1), stepAt(all, 0.9)
	c.Low, c.High, c.Over = steps[low], steps[high], open && high == len(steps)-1
	if c.If = g.branches(steps, all, chance); c.If != nil {
		c.If[1].Open = open && c.If[1].Step == steps[len(steps)-1]
	}
	return c
}

// stepAt returns the step where the chances up to it reach q.
func stepAt(chance []float64, q float64) int {
	sum := 0.0
	for k, x := range chance {
		if sum += x; sum >= q {
			return k
		}
	}
	return len(chance) - 1
}

// colours reads a chart of the member's kit, the one used last.
func colours(sp unit.Species) func(*fit.Posterior, []float64, float64) ([]float64, bool, [][]float64) {
	return func(p *fit.Posterior, v []float64, told float64) ([]float64, bool, [][]float64) {
		c := kit.For(p.Plan.Case.LastKit(unit.Days(p.Plan.Now)), sp)
		open := c.Steps != nil
		if !open {
			c.Steps = fine(c.Floor)
		}
		f := fit.Foresee(c, sp, told)
		chance := table(len(v), len(c.Steps))
		for i := range v {
			f.Chances(v[i], chance[i])
		}
		return c.Steps, open, chance
	}
}

// fine is a chart for meters: steps a quarter apart up to 300 mg/L, finer than
// the model is true.
func fine(least float64) []float64 {
	out := []float64{0}
	for x := least; x < 300; x *= 1.25 {
		out = append(out, x)
	}
	return out
}

// scale reads an even scale with a normal error, from the least that any draw
// shows to the most, in at most 25 steps.
func scale(step, err float64) func(*fit.Posterior, []float64, float64) ([]float64, bool, [][]float64) {
	return func(_ *fit.Posterior, v []float64, told float64) ([]float64, bool, [][]float64) {
		low, high := math.Round(slices.Min(v)/step), math.Round(slices.Max(v)/step)
		by := max(1, math.Ceil((high-low)/24))
		var steps []float64
		for x := low; x < high+by; x += by {
			steps = append(steps, x*step)
		}
		chance := table(len(v), len(steps))
		sd := err / math.Sqrt(told)
		for i := range v {
			below := 0.0
			for k := range steps {
				upTo := 1.0
				if k < len(steps)-1 {
					upTo = distuv.UnitNormal.CDF((steps[k] + by*step/2 - v[i]) / sd)
				}
				chance[i][k], below = upTo-below, upTo
			}
		}
		return steps, false, chance
	}
}

func table(n, m int) [][]float64 {
	all, out := make([]float64, n*m), make([][]float64, n)
	for i := range out {
		out[i] = all[i*m : (i+1)*m]
	}
	return out
}
