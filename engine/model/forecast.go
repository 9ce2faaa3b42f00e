package model

import (
	"math"

	"ripen/engine/unit"
)

// Course is what one draw did and will do.
type Course struct {
	Done         float64 // day the challenge passes for good, +Inf when not by the horizon
	AmmoniaClear float64 // day ammonia first fell below ClearTAN after having been above, or NaN
	NitritePeak  float64 // day of the highest nitrite, or NaN when nitrite never showed
	NitriteClear float64 // day nitrite fell below ClearNO2 after the peak, or NaN
	Passes       bool    // the challenge passes now
}

// Challenge says by how much the tank would fail now: it raises total ammonia
// to the target, waits 24 hours, and returns the larger of ammonia and nitrite
// over their limits ClearTAN and ClearNO2. Below 1 the tank passes. The run
// itself is left as it is. A tank with animals that says how much they are or eat,
// but names no target, is challenged with its ration instead, and so is any tank from
// the day on that animals of a known ration went in.
func (r *Run) Challenge() float64 { return r.doubt.Trial * r.challenge(r.doubt.Trial) }

// challenge is Challenge without the doubt's Trial, for any Trial of least or more.
func (r *Run) challenge(least float64) float64 {
	set := &r.plan.Case.Setup
	if set.Rationed() || r.plan.conds[r.seg].stocked(set) {
		return r.rationed()
	}
	target := r.target()
	// What cannot be: even growing at the maximum all day, too little capacity.
	// This spares most of the simulations and never decides a pass.
	a, n := r.able(&r.State)
	tan := max(r.State.TAN, target)
	if r.k.plant == 0 {
		leftA, leftN := float64(ClearTAN)/least, float64(ClearNO2)/least
		needA := 0.97 * (tan - leftA)
		needN := 0.97 * (tan - leftA + r.State.NO2 - leftN)
		if a < needA || n < needN {
			return (2 + max(needA-a, needN-n)) / least
		}
	}
	x := r.aside()
	if x.State.TAN < target {
		x.State.TAN = target
	}
	x.h = 0.02
	if set.Method != FishIn {
		x.k.fedTAN, x.k.fedOrg = 0, 0 // the dose stands in for the day's food
	}
	x.integrate(x.Day + 1)
	return x.clearness()
}

// able is how much ammonia and nitrite the bacteria of a state could oxidise within a day in which all
// grow at the maximum, mg N/L.
func (r *Run) able(s *State) (ammonia, nitrite float64) {
	for i := range s.B {
		v := 1 / yieldN[i] * s.B[i] * math.Expm1(r.k.mu[i])
		switch i {
		case NOB:
			nitrite += v
		case CMX:
			ammonia, nitrite = ammonia+v, nitrite+v
		default:
			ammonia += v
		}
	}
	return ammonia, nitrite
}

// Rationed says whether the tank is done when it carries its ration: there are
// animals in it, so that nobody may dose it; the member told their weight or
// food; and named no target to hold it to.
func (s *Setup) Rationed() bool {
	return s.Method == FishIn && (s.Given.Feed || s.Given.Stock) && !s.Given.Target
}

// Rationed says whether the tank is held to its ration at Now.
func (p *Plan) Rationed() bool {
	return p.Case.Setup.Rationed() || p.conds[len(p.conds)-1].stocked(&p.Case.Setup)
}

// stocked says whether animals went into a tank that began without, and are fed.
func (c *condition) stocked(start *Setup) bool {
	return start.Method != FishIn && c.Method == FishIn && c.Setup.Stock > 0 && c.Setup.Feed > 0
}

// rationed is the challenge of a tank that nobody may dose: a day of its ration
// must raise neither ammonia from its limit nor, with a day's ration as ammonia in the water,
// but no more than that limit, nitrite from its own: where nothing makes nitrite yet, that does not rise
// either. It is the larger of both over their limits after that day.
func (r *Run) rationed() float64 {
	a := r.aside()
	a.State.TAN = max(a.State.TAN, float64(ClearTAN))
	a.h = 0.02
	a.integrate(a.Day + 1)
	left := a.State.TAN / float64(ClearTAN)
	n := r.aside()
	n.State.NO2 = max(n.State.NO2, float64(ClearNO2))
	n.State.TAN = max(n.State.TAN, min(n.k.fedTAN+n.k.fedOrg, float64(ClearTAN)))
	n.h = 0.02
	n.integrate(n.Day + 1)
	return max(left, n.State.NO2/float64(ClearNO2))
}

// leastLoad is the smallest day's ammonia that a tank with animals is held to,
// mg N/L: 0.5 mg/L on a kit, twice what counts as clear. Set with a measured start-up
// in view, since less is cleared almost before it is given.
const leastLoad = 0.39

// target is the dose of the challenge. Nobody doses a tank with animals, so
// without a stated target how much its keeper will come to ask of it in a day
// is one of the unknowns: from leastLoad up to half the usual target, the
// ammonia of a full stock. Common practice, no source.
func (r *Run) target() float64 {
	set := &r.plan.Case.Setup
	full := float64(set.Target)
	if set.Method != FishIn || set.Given.Target || full <= 2*leastLoad {
		return full
	}
	return leastLoad * math.Pow(full/2/leastLoad, r.p.Ask)
}

// spare is by how much the ration of a full stock goes beyond what the tank is asked to
// carry. Common practice, no source.
const spare = 1.1

// sated is how many times the first ration the keeper of a tank with animals comes to
// feed: until they are as many as the tank is asked to carry.
func (r *Run) sated() float64 {
	first := r.k.firstTAN + r.k.firstOrg
	if r.k.rise == 0 || first <= 0 {
		return 1
	}
	return max(spare*r.target()/first, 1)
}

// Grown is how many times the first ration the tank gets now, of which nobody told what its animals
// are or eat; 1 for others.
func (r *Run) Grown() float64 {
	if r.k.rise == 0 {
		return 1
	}
	return min(1+r.k.rise*r.Day, r.k.sated)
}

// clearness is the larger of ammonia and nitrite over their limits.
func (r *Run) clearness() float64 {
	return max(r.State.TAN/float64(ClearTAN), r.State.NO2/float64(ClearNO2))
}

// Doubt is what no fit can tell of the days to come.
type Doubt struct {
	Trial     float64 // factor on what a challenge leaves of ammonia and nitrite, leastTrial or more
	Diligence float64 // 1 for looking at the tank daily, 0 for as often as the log tells, below for less often
	Notice    float64 // 0..1: from never changing water as its hardness is used up to as soon as half is
}

// NoDoubt takes the draw at its word, and the keeper to go on as the log tells.
var NoDoubt = Doubt{Trial: 1, Notice: 1}

// Do does something to the tank now, beside what is planned.
func (r *Run) Do(e Event) {
	r.event(&e)
	r.jump()
}

// Suppose makes the run's forecast under a doubt, until Reset.
func (r *Run) Suppose(d Doubt) { r.doubt = d }

// leastProved is the capacity for nitrite, mg N/L/d, from which a tank without
// ammonia and nitrite is one that has used them up, not one that never had any.
const leastProved = 0.3

// habit acts as the keeper would on this day, past Now.
func (r *Run) habit() {
	h := &r.plan.Habit
	s := &r.State
	if r.Day >= r.change {
		r.changeWater(h.Change, h.Treated)
		r.change = max(r.change, r.Day-1) + h.Interval // what was left out is not made up for
	}
	if notice := h.Heed + (1-h.Heed)*r.doubt.Notice; h.Refresh && s.Alk < notice*usedUp*float64(r.plan.conds[r.seg].KH.Meq())*r.p.AlkRatio {
		r.changeWater(0.5, Yes)
	}
	if r.Day < r.look {
		return
	}
	r.look = max(r.look, r.Day-1) + math.Pow(h.Look, 1-r.doubt.Diligence)
	if r.plan.conds[r.seg].rots() {
		r.holdOff(s.TAN >= float64(tooMuch.N(unit.Ammonia)))
	}
	if s.TAN >= float64(ClearTAN) || s.NO2 >= float64(holdNO2) || r.Day-r.dosed < h.Every {
		return
	}
	n := h.Dose
	if h.Prove && s.NO2 < float64(ClearNO2) && r.Capacity()[1] > leastProved {
		n = max(n, r.plan.Case.Setup.Target)
	}
	if n > 0 {
		r.dose(float64(n)*r.p.Dose, h.Salt)
		r.dosed = r.Day
	}
}

// challengeEvery is how many days lie between two challenges of a draw, by the
// days from now: far off, the day in between is interpolated.
func challengeEvery(ahead float64) int {
	switch a := math.Abs(ahead); {
	case a <= 21:
		return 1
	case a <= 60:
		return 2
	case a <= 120:
		return 4
	}
	return 8
}

// Finish runs the tank on until the challenge passes, at least to day until and
// at most to the horizon, and returns its course. Up to Now the run follows the
// log; it may stand anywhere before. If keep is not nil it is called at each
// whole day to come with the pools.
func (r *Run) Finish(until float64, keep func(day int, p Pools)) Course {
	c := Course{Done: math.Inf(1)}
	now, end := r.plan.Now, r.plan.End()
	prevM, prevTry := math.Inf(1), r.Day
	passing, settled := false, false
	var seen Pools
	// visit goes to a day and looks; it says whether there is more to see. A tank
	// that fails now cannot have been done for good before, so it is challenged from then on.
	visit := func(day float64) bool {
		r.To(day, nil)
		if !settled && day >= now && (day == now || int(day)%challengeEvery(day-now) == 0) {
			m := r.Challenge()
			switch {
			case m < 1 && day == now && now > 0:
				passing = true
				c.Done = r.since(now, m)
			case m < 1 && !passing:
				passing = true
				c.Done = crossing(prevTry, day, prevM, m, 1)
			case m >= 1:
				passing = false
				c.Done = math.Inf(1)
			}
			prevM, prevTry = m, day
		}
		seen = r.State.Pools() // before the keeper acts
		if day < now {
			return true
		}
		if day == now {
			c.Passes = passing
		}
		settled = passing
		if passing && day >= until && (seen[1] < float64(ClearNO2) || day > c.Done+7) {
			return false
		}
		r.habit()
		return true
	}
	more, day := true, math.Floor(r.Day)+1
	if r.Day == now {
		more = visit(now)
	}
	for ; more && day <= end; day++ {
		if r.Day < now && now < day && !visit(now) {
			break
		}
		more = visit(day)
		if keep != nil {
			keep(int(day), seen)
		}
	}
	c.AmmoniaClear, c.NitritePeak, c.NitriteClear = r.passed.ammonia, r.passed.peakDay, r.passed.nitrite
	if c.NitritePeak >= end { // still rising
		c.NitritePeak = math.NaN()
	}
	return c
}

// Watch runs the tank on to a day, as Finish does, but only looks at the pools:
// keep is called at each whole day from where the run stands on.
func (r *Run) Watch(until float64, keep func(day int, p Pools)) {
	now := r.plan.Now
	for day := math.Floor(r.Day) + 1; day <= until; day++ {
		if day-1 <= now && now < day {
			r.To(now, nil)
			r.habit()
		}
		r.To(day, nil)
		keep(int(day), r.State.Pools())
		if day > now {
			r.habit()
		}
	}
}

// crossing interpolates where a quantity that fell from y0 at t0 to y1 at t1
// crossed level, on a log scale.
func crossing(t0, t1, y0, y1, level float64) float64 {
	if !(y0 > level) || math.IsInf(y0, 1) || y1 <= 0 {
		return t1
	}
	return t0 + (t1-t0)*math.Log(y0/level)/math.Log(y0/y1)
}
