package fit

import (
	"cmp"
	"math"
	"slices"

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
	curves  [3]*kit.Curve // of the bins
	tells   [3]float64    // share of an independent reading that each value is worth
	most    float64       // the highest log-probability that any pools give it
}

// sights prepares the readings of a plan that tell something, in the order in which runs
// come by them.
func sights(plan *model.Plan) []sight {
	c, now := &plan.Case, plan.Now
	var order []int
	for i := range c.Readings {
		if float64(c.Readings[i].Day) <= now {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		x, y := &c.Readings[a], &c.Readings[b]
		return cmp.Or(cmp.Compare(x.Day, y.Day), cmp.Compare(x.Seq, y.Seq))
	})
	var out []sight
	curves := map[kit.Bin]*kit.Curve{}
	for _, i := range order {
		r := &c.Readings[i]
		s := sight{reading: i, tells: plan.Tells(i)}
		any := false
		for sp, seen := range [3]*model.Seen{r.Ammonia, r.Nitrite, r.Nitrate} {
			if s.tells[sp] == 0 {
				continue
			}
			b := kit.For(r.Kit, unit.Species(sp)).Bin(*seen, unit.Species(sp)).Wider(misfit[sp])
			s.bins[sp] = &b
			if curves[b] == nil {
				curves[b] = b.Curve(blunder, blunderProb)
			}
			s.curves[sp] = curves[b]
			any = true
		}
		if any {
			s.most = s.highest()
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

// lens is how the kit of one draw sees a tank.
type lens struct {
	bias  [3]float64 // factors
	bound [3]float64 // what it sees though it is bound, mg/L on the ion scale
}

// lens returns the kit of a draw.
func (b *problem) lens(x *z) (l lens) {
	for sp := range l.bias {
		l.bias[sp] = math.Exp(b.prior.Bias[sp] * x[biasNH+sp])
	}
	l.bound[unit.Ammonia] = b.bound(x)
	return l
}

// logLike returns the log-probability of one sight given the pools and the kit of
// a draw; never above zero.
func (s *sight) logLike(p model.Pools, l *lens) float64 {
	sum := 0.0
	for sp, c := range &s.curves {
		if c != nil {
			sum += s.tells[sp] * c.Log(view(p, unit.Species(sp))+l.bound[sp], l.bias[sp])
		}
	}
	return sum
}

// highest returns what logLike is at most, whatever the pools and the draw.
func (s *sight) highest() float64 {
	sum := 0.0
	for sp, b := range s.bins {
		if b != nil {
			sum += s.tells[sp] * math.Log((1-blunder)*b.Most()+blunder*blunderProb)
		}
	}
	return sum
}
