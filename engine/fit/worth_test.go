package fit

import (
	"math"
	"testing"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// BenchmarkWorth asks how many independent draws the 2048 of a fit are worth: fits that
// differ in their chance alone scatter in the mean of each unknown as means of so many
// draws would. It reports that for the mean over the unknowns and for the worst of them,
// as geometric means over tanks with 20 and 60 daily readings. Figures are good to about a tenth.
func BenchmarkWorth(b *testing.B) {
	const fits = 10
	for b.Loop() {
		var mean, worst, tanks float64
		for _, days := range []int{20, 60} {
			for i, ph := range []float64{6.8, 7.4, 7.8} {
				c := readDaily(days, ph, unit.Celsius(20+4*i))
				var of []int
				var sum, squares, within [dims]float64
				for k := range fits {
					p := Fit(c, unit.Days(days), Hypothesis{}, Draws+k) // another number of draws has another chance
					of = newProblem(p.Plan, Hypothesis{}).active
					for _, d := range of {
						m, q := 0.0, 0.0
						for i := range p.Scores {
							m += p.Scores[i][d]
							q += p.Scores[i][d] * p.Scores[i][d]
						}
						m /= float64(len(p.Scores))
						within[d] += (q/float64(len(p.Scores)) - m*m) / fits
						sum[d] += m
						squares[d] += m * m
					}
				}
				share, most := 0.0, 0.0 // the scatter of the mean over that of one draw
				for _, d := range of {
					s := (squares[d] - sum[d]*sum[d]/fits) / (fits - 1) / within[d]
					share += s / float64(len(of))
					most = max(most, s)
				}
				mean, worst, tanks = mean-math.Log(share), worst-math.Log(most), tanks+1
			}
		}
		b.ReportMetric(math.Exp(mean/tanks), "draws-worth")
		b.ReportMetric(math.Exp(worst/tanks), "draws-worst")
	}
}

// readDaily is a dosed tank that nitrifies as the central parameters say, read daily
// off ordinary charts and dosed when it is clear.
func readDaily(days int, ph float64, temp unit.Celsius) model.Case {
	s := model.Setup{Volume: 60, PH: ph, KH: unit.DKH(2*ph - 8).CaCO3(), Temp: temp, Media: model.Sponge, MediaVolume: 0.6, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	c := model.Case{Setup: model.Typical(s)}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	par := model.Central()
	par.Seed = [model.Guilds]float64{model.AOB: 0.01, model.AOA: 0.01, model.CMX: 0.01, model.NOB: 0.004}
	for d := 1; d <= days; d++ {
		r := model.NewPlan(c, unit.Days(d)).Start(&par)
		r.To(float64(d), nil)
		q := r.State.Pools()
		x := model.Reading{Day: unit.Days(d)}
		for sp, seen := range []**model.Seen{&x.Ammonia, &x.Nitrite, &x.Nitrate} {
			v, top := kit.For(model.Liquid, unit.Species(sp)).Nearest(float64(q.N(unit.Species(sp)).Ion(unit.Species(sp))))
			*seen = &model.Seen{Low: v, High: v, Over: top}
		}
		c.Readings = append(c.Readings, x)
		if q.N(unit.Ammonia) < model.ClearTAN {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		}
	}
	return c
}
