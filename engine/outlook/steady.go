package outlook

import (
	"math"

	"ripen/engine/model"
)

// strays is by how much tanks may do other than their draws.
type strays struct {
	drift  float64 // spread of the days still to come, on the log scale
	beyond float64 // share that does what no draw knows of
}

// straysOf is what is left open for a log. Who reads nearly every day sees what comes between, and does it
// as told: on simulated tanks with such keepers, that follow other laws than the model's, half of beyond and
// two thirds of drift hold what intervals promise.
func straysOf(p *model.Plan) strays {
	s := steady(p)
	return strays{drift + s*(0.45-drift), beyond + s*(0.10-beyond)}
}

// steady is 1 for a log of ammonia or nitrite on six days of seven of the last two weeks, 0 on every other
// day or less.
func steady(p *model.Plan) float64 {
	const span, least, most = 14, 1. / 2, 6. / 7
	days := map[float64]bool{}
	for i := range p.Case.Readings {
		r := &p.Case.Readings[i]
		if d := float64(r.Day); (r.Ammonia != nil || r.Nitrite != nil) && d <= p.Now && d > p.Now-span {
			days[math.Floor(d)] = true
		}
	}
	rate := float64(len(days)) / max(min(p.Now, span), 4)
	return min(max((rate-least)/(most-least), 0), 1)
}
