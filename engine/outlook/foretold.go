package outlook

import (
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
)

// How many draws an outlook projects. Quantiles are good to one in a hundred chances
// before any reading, and to two after: the draws of a fit are worth fewer independent
// ones than that (fit.BenchmarkWorth), so that more would hardly help.
const shownPrior, shownFit = 1024, 512

// Shown returns the draws of a posterior that an outlook rests on.
func Shown(p *fit.Posterior) *fit.Posterior {
	if p.Readings == 0 {
		return p.Thin(shownPrior)
	}
	return p.Thin(shownFit)
}

// Foretold returns the done day of each draw as an outlook has it, doubts and what
// no fit foresees included; +Inf past the horizon.
func Foretold(p *fit.Posterior) []float64 {
	return foretold(p, courses(p, 0, Stands(p), Doubted, nil))
}

// Supposed is Foretold of a posterior whose plan has something changed after now, in a
// tank in which s stands, by the draws alone: of what goes beyond them nobody knows what a
// change does to it.
func Supposed(p *fit.Posterior, s *Standing) []float64 {
	return drawn(p, courses(p, 0, s, Doubted, nil), strays{drift: straysOf(p.Plan).drift})
}

// foretold takes the done days off the courses.
func foretold(p *fit.Posterior, cs []model.Course) []float64 {
	return drawn(p, cs, straysOf(p.Plan))
}

// drawn is foretold with so much left open.
func drawn(p *fit.Posterior, cs []model.Course, s strays) []float64 {
	done := make([]float64, len(cs))
	for i, c := range cs {
		if done[i] = unforeseen(i, c.Done, p.Plan.Now, p.Readings, s); done[i] > p.Plan.End() {
			done[i] = math.Inf(1)
		}
	}
	return done
}
