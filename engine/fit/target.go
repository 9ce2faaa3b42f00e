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
	// Independent says that readings err independently however close in time, as
	// Density.Read draws them. Readings of real tanks do not.
	Independent bool
}

// problem is a plan, its readings and a hypothesis: what the sampler samples.
type problem struct {
	plan   *model.Plan
	prior  Prior
	hyp    Hypothesis
	sights []sight
	told   int       // readings of ammonia, nitrite or nitrate
	most   []float64 // the highest log-likelihood of the first 0, 1, ... sights
	active []int     // the unknowns that all readings can say something about
}

// newProblem prepares a plan for fitting.
func newProblem(plan *model.Plan, h Hypothesis) *problem {
	if h.Independent {
		plan = plan.Independent()
	}
	b := &problem{plan: plan, prior: PriorFor(&plan.Case.Setup), hyp: h, sights: sights(plan)}
	b.most = make([]float64, len(b.sights)+1)
	for i := range b.sights {
		b.most[i+1] = b.most[i] + b.sights[i].most
	}
	for i := range plan.Case.Readings {
		if r := &plan.Case.Readings[i]; float64(r.Day) <= plan.Now && (r.Ammonia != nil || r.Nitrite != nil || r.Nitrate != nil) {
			b.told++
		}
	}
	b.active = b.matters(plan.Now)
	return b
}

// day is the day of sight i.
func (b *problem) day(i int) float64 { return float64(b.plan.Case.Readings[b.sights[i].reading].Day) }

// matters lists the unknowns that can change what was read up to a day.
func (b *problem) matters(day float64) []int {
	on := [dims]bool{seedAO: true, seedNOB: true, ratioAOA: true, ratioCMX: true, growA: true, growN: true, halfA: true, halfN: true, decay: true,
		area: true, phOffset: true, alkRatio: true, phMin: true, freeNH3: true}
	for i, s := range b.sights {
		if b.day(i) > day {
			break
		}
		for sp, bin := range s.bins {
			if bin != nil {
				on[biasNH+sp] = true
			}
		}
	}
	on[tapNO3], on[nitrateLoss] = on[biasNO3], on[biasNO3]
	c := &b.plan.Case
	set := &c.Setup
	on[source] = set.Method != model.Dosed && set.Method != model.Seeded
	on[rise] = set.Method == model.FishIn
	on[ask] = on[rise] && !set.Rationed()
	on[plant] = set.Plants != model.NoPlants
	tap, treats := set.Source <= model.Chloraminated, set.Conditioner
	for _, ch := range c.Changes {
		if float64(ch.Day) > day {
			break
		}
		tap = tap || ch.Source != nil && *ch.Source <= model.Chloraminated
		treats = treats && (ch.Conditioner == nil || *ch.Conditioner)
		on[plant] = on[plant] || ch.Plants != nil
		on[source] = on[source] || ch.Feed != nil || ch.Stock != nil
	}
	for _, e := range c.Events {
		if float64(e.Day) > day {
			break
		}
		switch e.Kind {
		case model.Dose:
			on[dose], on[silent] = true, on[silent] || e.Perhaps
		case model.FeedOnce, model.Stocked:
			on[source] = true
		case model.WaterChange:
			on[chlorine] = on[chlorine] || tap && (e.Treated == model.No || e.Treated == model.AsHabit && !treats)
		case model.Seed, model.Culture:
			on[gift] = true
		case model.PlantsAdded:
			on[plant] = true
		case model.Cleaned, model.Medicine, model.Outage:
			on[harm] = true
		}
	}
	for i := range c.Readings {
		r := &c.Readings[i]
		if float64(r.Day) > day {
			break
		}
		on[silent] = on[silent] || set.Method == model.Food && r.High()
		on[chlorine] = on[chlorine] || r.Chlorine != nil
	}
	on[unseenDay], on[unseenKill] = b.hyp.Unseen, b.hyp.Unseen
	on[special] = b.hyp.Bound || b.hyp.Phosphate
	var out []int
	for d, v := range on {
		if v {
			out = append(out, d)
		}
	}
	return out
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
