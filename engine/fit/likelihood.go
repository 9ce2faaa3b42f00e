package fit

import (
	"math"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

const (
	// blunder is the share of readings that are plain mistakes: a wrong bottle, a
	// swapped tube, a slip of the pen. Common practice, no source.
	blunder = 0.03
	// blunderProb is the probability of any one step in a blunder: one in seven.
	blunderProb = 1.0 / 7
)

// misfit is how far, on the log scale, even the best draw stays off the true
// course of each pool, since real tanks know more tricks than the model. It
// widens the kit's error in quadrature.
var misfit = [3]float64{unit.Ammonia: 0.30, unit.Nitrite: 0.30, unit.Nitrate: 0.60}

// nitriteSeen is the share of nitrite that nitrate kits take for nitrate,
// mole for mole. Common practice, no source.
const nitriteSeen = 0.6

// sight is one reading ready to be compared with a run.
type sight struct {
	reading int // index in the case
	bins    [3]*kit.Bin
}

// sights prepares the readings of a case up to now.
func sights(c *model.Case, now float64) []sight {
	var out []sight
	for i := range c.Readings {
		r := &c.Readings[i]
		if float64(r.Day) > now {
			break
		}
		s := sight{reading: i}
		any := false
		for sp, seen := range [3]*model.Seen{r.Ammonia, r.Nitrite, r.Nitrate} {
			if seen != nil {
				b := kit.For(r.Kit, unit.Species(sp)).Bin(*seen, unit.Species(sp))
				s.bins[sp] = &b
				any = true
			}
		}
		if any {
			out = append(out, s)
		}
	}
	return out
}

// view returns what a perfect kit would show of the pools, mg/L on the ion scale.
func view(p model.Pools, sp unit.Species) float64 {
	n := p.N(sp)
	if sp == unit.Nitrate {
		n += nitriteSeen * p.N(unit.Nitrite)
	}
	return float64(n.Ion(sp))
}

// logLike returns the log-probability of one sight given the pools and a draw;
// never above zero. bound, if positive, is ammonia that the kit sees though it
// is bound, mg/L on the ion scale.
func (s *sight) logLike(p model.Pools, x *z, pr *Prior, bound float64) float64 {
	sum := 0.0
	for sp, b := range s.bins {
		if b == nil {
			continue
		}
		v := view(p, unit.Species(sp))
		if sp == int(unit.Ammonia) {
			v += bound
		}
		q := b.Prob(v, math.Exp(pr.Bias[sp]*x[biasNH+sp]), misfit[sp])
		sum += math.Log((1-blunder)*q + blunder*blunderProb)
	}
	return sum
}
