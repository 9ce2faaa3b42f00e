package fit

import (
	"math"

	"ripen/engine/model"
)

// Hypothesis is what is supposed to have happened beyond the log. The zero
// value supposes nothing.
type Hypothesis struct {
	// Unseen says that bacteria were lost at an unknown time within [From, To]
	// days, by an unknown share: 1 - 0.6^exp(score), so from a tenth to nearly all.
	Unseen   bool
	From, To float64
	// Bound says that the ammonia kit reads an unknown amount of bound ammonia,
	// about 0.3 mg/L within a factor of two.
	Bound bool
	// Phosphate says that growth is held to an unknown share by want of
	// phosphate, a third within a factor of two.
	Phosphate bool
}

// problem is a plan, its readings and a hypothesis: what the sampler samples.
type problem struct {
	plan   *model.Plan
	prior  Prior
	hyp    Hypothesis
	sights []sight
}

// params turns scores into parameters under the hypothesis.
func (b *problem) params(x *z, out *model.Params) {
	b.prior.params(x, out)
	if b.hyp.Unseen {
		share := 0.5 * math.Erfc(-x[unseenDay]/math.Sqrt2)
		out.Unseen = model.Unseen{
			Day:  b.hyp.From + share*(b.hyp.To-b.hyp.From),
			Kill: 1 - math.Pow(0.4, math.Exp(0.7*x[unseenKill])),
		}
	}
	if b.hyp.Phosphate {
		out.Phos = min(0.33*math.Exp(0.5*x[special]), 1)
	}
}

// bound is the bound ammonia that the kit sees under the hypothesis.
func (b *problem) bound(x *z) float64 {
	if !b.hyp.Bound {
		return 0
	}
	return 0.3 * math.Exp(0.7*x[special])
}
