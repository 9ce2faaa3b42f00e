package model

import (
	"math"

	"ripen/engine/unit"
)

// Run is one draw on its way through a Plan. The zero value is not usable; see
// Start. A Run holds no pointers into other runs and may be copied.
type Run struct {
	State  State
	Ledger Ledger
	Day    float64
	Steps  int // integration steps made

	plan    *Plan
	p       *Params
	k       kin
	seg     int
	next    int     // the next stop
	ease    float64 // one over how many times the tolerance errors may be
	h       float64
	first   float64 // the step that was right after the last jump
	jumped  bool    // no step was made since the last
	kill    bool    // the unseen event is still to come
	heldOff bool    // no food goes in for now
	laid    bool    // k is laid out on lane, if it is this run that is
	now     pace    // of the state at
	at      steeped
	dosed   float64 // day of the last dose under Habit
	change  float64 // day of the next water change under Habit
	look    float64 // day of the next look at the tank under Habit
	doubt   Doubt
	passed  passed // milestones so far
	past    *Past  // see Share
	lane    *Lane  // what integrates it, beside others, or nil
	room    *Run   // for trials
}

// Start sets up a run of the plan with one draw of the parameters.
func (p *Plan) Start(par *Params) *Run {
	r := new(Run)
	r.Reset(p, par)
	return r
}

// Reset starts r over, without allocating.
func (r *Run) Reset(p *Plan, par *Params) {
	*r = Run{lane: r.lane, room: r.room, plan: p, p: par, h: stepFirst, first: stepStart, ease: 1, dosed: math.Inf(-1), change: math.Inf(1), doubt: NoDoubt, kill: par.Unseen.Kill > 0, passed: nothingPassed}
	c := &p.start
	r.k.begin(par)
	r.k.enter(&p.envs[0])
	r.k.sated = r.sated()
	s := &r.State
	h := math.Pow(10, -(c.PH + par.PHOffset))
	s.Alk = alkAt(h, float64(c.KH.Meq())*par.AlkRatio, r.k.kw)
	s.acid = acidFor(h, s.Alk, r.k.kw)
	s.O2 = r.k.satO2 * 0.95
	s.demand = otherDemand
	switch c.Method {
	case DarkStart:
		s.Soil = 14 * par.Source
	case Planted:
		s.Soil = 5 * par.Source
	}
	for i := range s.B {
		s.B[i] = capacityToN(i, par.Seed[i])
	}
	s.TAN, s.NO2 = c.Start[unit.Ammonia], c.Start[unit.Nitrite]
	s.NO3 = max(par.TapNO3, c.Start[unit.Nitrate])
	r.Ledger.In = s.Nitrogen()
	if p.Habit.Change > 0 {
		r.change = p.changed + p.Habit.Interval
	}
}

// Coarse loosens the tolerance until the next Reset: every pool of the 20 tanks
// stays within 3 % of its peak, and of nine in ten tanks drawn at random within
// 3.5 %, in a fifth fewer steps. That is fine enough to be weighed against
// readings of kits, which are right to 10 to 30 %.
func (r *Run) Coarse() { r.ease = 1. / slack }

// CopyFrom makes r the same as src, with par in place of src's parameters,
// which must be equal to them.
func (r *Run) CopyFrom(src *Run, par *Params) {
	lane, room := r.lane, r.room
	*r = *src
	r.lane, r.room, r.laid, r.p, r.k.p = lane, room, false, par, par
}

// aside returns a copy of the run for a trial, good until the next.
func (r *Run) aside() *Run {
	if r.room == nil {
		r.room = new(Run)
	}
	x := r.room
	*x = *r
	x.laid = false
	return x
}

// On says whether the run is on this very plan.
func (r *Run) On(p *Plan) bool { return r.plan == p }

// Follow puts the run on another plan that is the same up to the run's day.
func (r *Run) Follow(p *Plan) { r.plan = p }

// capacityToN turns an oxidation capacity at the guild's optimum, mg N/L/d,
// into biomass nitrogen, mg N/L.
func capacityToN(i int, v float64) float64 {
	return v * yieldN[i] / Defaults[i].Mu
}

// acidFor returns K1·[CO2] such that hydrogen gives h, mol/L.
func acidFor(h, alk, kw float64) float64 {
	return max(h*(alk*1e-3+h)-kw, 1e-18)
}

// alkAt returns the alkalinity, meq/L, of water with h mol/L of hydrogen ions in which tests show alk: a kit
// calls 0 what is less than a quarter of a degree, and water holds at least the carbon
// dioxide of the air, which would make it more acidic than it is if there were none.
func alkAt(h, alk, kw float64) float64 {
	const (
		airAcid = 13.6e-6 * 4.45e-7 // carbon dioxide by Henry's law at 0.0004 atm, times K1, of fresh water at 25 C
		unseen  = 0.09              // meq/L
	)
	return max(alk, min(((airAcid+kw)/h-h)*1e3, unseen))
}

// lastChange is the day of the last logged water change.
func (p *Plan) lastChange() (day float64) {
	for _, e := range p.Case.Events {
		if e.Kind == WaterChange && float64(e.Day) <= p.Now {
			day = float64(e.Day)
		}
	}
	return day
}

// To moves the run to a day, through all stops up to and including it. At each
// reading it calls seen, unless that is nil, with the reading's index; when
// seen returns false the run stops there and To returns false.
func (r *Run) To(day float64, seen func(i int, r *Run) bool) bool {
	if r.lane != nil {
		return r.lane.take(r, day, true, seen)
	}
	for {
		to, h := r.ahead(day)
		r.integrate(to)
		if h == atEnd {
			return true
		}
		if !r.halted(h, seen) {
			return false
		}
	}
}

// Daily is To, for until a whole day, and calls daily at each whole day on its way; daily
// may only look. Where the run stands at until already, or past it, nothing happens.
func (r *Run) Daily(until float64, seen func(i int, r *Run) bool, daily func(day int, r *Run)) {
	first := math.Floor(r.Day) + 1
	if first > until {
		return
	}
	if r.lane != nil {
		r.lane.daily, r.lane.last = daily, until
		r.lane.take(r, first, true, seen)
		return
	}
	for day := first; day <= until; day++ {
		r.To(day, seen)
		daily(int(day), r)
	}
}

// halt is where an integration ends.
type halt int

const (
	atEnd  halt = iota
	atStop      // of the plan
	atLoss      // of bacteria, unseen
)

// ahead is up to when nothing happens, at most to a day, and what does then.
func (r *Run) ahead(day float64) (to float64, h halt) {
	for r.next < len(r.plan.stops) && r.plan.stops[r.next].quiet {
		r.next++
	}
	to = day
	if r.next < len(r.plan.stops) && r.plan.stops[r.next].day <= day {
		to, h = r.plan.stops[r.next].day, atStop
	}
	if r.kill && r.p.Unseen.Day <= to {
		to, h = r.p.Unseen.Day, atLoss
	}
	return to, h
}

// halted does what is to be done where the run halts. It says whether the run goes on.
func (r *Run) halted(h halt, seen func(i int, r *Run) bool) bool {
	if h == atLoss {
		r.lose(r.p.Unseen.Kill)
		r.kill = false
		return true
	}
	st := &r.plan.stops[r.next]
	r.next++
	if st.calm {
		return seen == nil || seen(st.i, r)
	}
	switch st.kind {
	case stopSegment:
		if st.day > 0 || st.i > 0 {
			r.seg = st.i
			r.k.enterFrom(r)
			r.retell(&r.plan.conds[st.i])
		}
	case stopEvent:
		r.event(&r.plan.Case.Events[st.i])
	case stopReading:
		if seen != nil && !seen(st.i, r) {
			return false
		}
		x := &r.plan.Case.Readings[st.i]
		r.assimilate(x)
		if x.Ammonia != nil && r.plan.conds[r.seg].rots() {
			r.holdOff(x.High())
		}
		return true
	}
	r.jump()
	return true
}

// enterFrom takes over the constants of the run's segment.
func (k *kin) enterFrom(r *Run) {
	*k = kin{}
	k.begin(r.p)
	k.enter(&r.plan.envs[r.seg])
	k.sated = r.sated()
	if r.heldOff {
		k.holdOff(true)
	}
	r.laid = false
}

// jump takes note that the state or its surroundings changed suddenly.
func (r *Run) jump() {
	r.h, r.jumped = min(r.h, r.first), true
}

// Capacity returns what the guilds could oxidise now with ample substrate at
// their best pH, mg N/L/d: ammonia and nitrite.
func (r *Run) Capacity() (v [2]float64) {
	for i := range r.State.B {
		c := r.k.full[i] * r.State.B[i]
		if i != NOB {
			v[0] += c
		}
		if i == NOB || i == CMX {
			v[1] += c
		}
	}
	return v
}

// PH returns the pH now.
func (r *Run) PH() float64 { return r.State.PH(&r.k.Env) }
