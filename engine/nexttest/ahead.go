package nexttest

import (
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// ahead runs every draw on to each day, now first, and returns what each sense
// would see there without noise, by day, sense and draw.
func ahead(p *fit.Posterior, days []float64) [][len(senses)][]float64 {
	out := make([][len(senses)][]float64, len(days))
	for i := range out {
		for s := range out[i] {
			out[i][s] = make([]float64, len(p.Draws))
		}
	}
	stood := outlook.Stands(p)
	model.Each(len(p.Draws), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(draw int) {
			kit := p.Kit(draw)
			look := func(i int) {
				q := run.State.Pools()
				for s, sp := range species {
					out[i][s][draw] = kit.Shows(q, sp)
				}
				out[i][3][draw] = run.PH()
				out[i][4][draw] = float64(unit.MeqL(run.State.Alk).CaCO3().DKH())
			}
			p.Resume(draw, run)
			run.Suppose(outlook.Doubted(draw))
			run.To(p.Plan.Now, nil)
			stood.Put(run, draw)
			look(0)
			run.Watch(days[len(days)-1], func(day int, _ model.Pools) {
				if i := day - int(days[0]); i > 0 {
					look(i)
				}
			})
		}
	})
	return out
}
