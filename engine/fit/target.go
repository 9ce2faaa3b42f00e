package fit

import (
	"math"

	"ripen/engine/model"
	"ripen/engine/unit"
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
	told   int // readings of ammonia, nitrite or nitrate
	visits []visit
	most   []float64     // the highest log-likelihood of the first 0, 1, ... sights
	since  [dims]float64 // from which day on each unknown can change what is read
	active []int         // the unknowns that all readings can say something about
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
	b.visits, b.since = b.byDay(), b.begins()
	b.active = b.matters(plan.Now)
	return b
}

// day is the day of sight i.
func (b *problem) day(i int) float64 { return float64(b.plan.Case.Readings[b.sights[i].reading].Day) }

// matters lists the unknowns that can change what was read up to a day.
func (b *problem) matters(day float64) []int {
	var out []int
	for d, since := range b.since {
		if since <= day {
			out = append(out, d)
		}
	}
	return out
}

// visit is a day on which something was read that tells of the tank.
type visit struct {
	day  float64
	upto int // index after the last sight of that day
}

// byDay groups the sights by day.
func (b *problem) byDay() (out []visit) {
	for i := range b.sights {
		if d := b.day(i); len(out) == 0 || d > out[len(out)-1].day {
			out = append(out, visit{day: d})
		}
		out[len(out)-1].upto = i + 1
	}
	return out
}

// first is the first sight of visit v.
func (b *problem) first(v int) int {
	if v == 0 {
		return 0
	}
	return b.visits[v-1].upto
}

// begins returns the day from which on each unknown can change what is read, +Inf for never.
func (b *problem) begins() (since [dims]float64) {
	for d := range since {
		since[d] = math.Inf(1)
	}
	on := func(d int, day unit.Days) { since[d] = min(since[d], float64(day)) }
	always := func(d int, holds bool) {
		if holds {
			since[d] = math.Inf(-1)
		}
	}
	for _, d := range [...]int{seedAO, seedNOB, ratioAOA, ratioCMX, growA, growN, halfA, halfN, decay, area, phOffset, alkRatio, phMin, freeNH3} {
		always(d, true)
	}
	for i := range b.sights {
		for sp, bin := range b.sights[i].bins {
			if bin != nil {
				on(biasNH+sp, unit.Days(b.day(i)))
			}
		}
	}
	since[tapNO3], since[nitrateLoss] = since[biasNO3], since[biasNO3]
	c := &b.plan.Case
	set := &c.Setup
	always(source, set.Method != model.Dosed && set.Method != model.Seeded)
	always(rise, set.Method == model.FishIn)
	always(ask, set.Method == model.FishIn && !set.Rationed())
	always(plant, set.Plants != model.NoPlants)
	always(unseenDay, b.hyp.Unseen)
	always(unseenKill, b.hyp.Unseen)
	always(special, b.hyp.Bound || b.hyp.Phosphate)

	tap, untreated := unit.Days(math.Inf(1)), unit.Days(math.Inf(1)) // from when on water holds chlorine, and nobody treats it
	if set.Source <= model.Chloraminated {
		tap = 0
	}
	if !set.Conditioner {
		untreated = 0
	}
	for _, ch := range c.Changes {
		if ch.Source != nil && *ch.Source <= model.Chloraminated {
			tap = min(tap, ch.Day)
		}
		if ch.Conditioner != nil && !*ch.Conditioner {
			untreated = min(untreated, ch.Day)
		}
		if ch.Plants != nil {
			on(plant, ch.Day)
		}
		if ch.Feed != nil || ch.Stock != nil {
			on(source, ch.Day)
		}
	}
	for _, e := range c.Events {
		switch e.Kind {
		case model.Dose:
			on(dose, e.Day)
			if e.Perhaps {
				on(silent, e.Day)
			}
		case model.FeedOnce, model.Stocked:
			on(source, e.Day)
		case model.WaterChange:
			switch e.Treated {
			case model.No:
				on(chlorine, max(e.Day, tap))
			case model.AsHabit:
				on(chlorine, max(e.Day, tap, untreated))
			}
		case model.Seed, model.Culture:
			on(gift, e.Day)
		case model.PlantsAdded:
			on(plant, e.Day)
		case model.Cleaned, model.Medicine, model.Outage:
			on(harm, e.Day)
		}
	}
	for i := range c.Readings {
		r := &c.Readings[i]
		if set.Method == model.Food && r.High() {
			on(silent, r.Day)
		}
		if r.Chlorine != nil {
			on(chlorine, r.Day)
		}
	}
	return since
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
