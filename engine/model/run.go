package model

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// Steps of the integrator, in days. With its tolerances, see step.go, every pool
// keeps within 0.5 % of its peak of a tight reference; see TestAgreesWithLSODA.
const (
	stepMax   = 1
	stepMin   = 1e-4
	stepFirst = 0.15 // from the start
	stepStart = 0.12 // after the first jump
	slack     = 2.6  // by how much Coarse loosens the tolerances
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
	r.k = newKin(par)
	r.k.enter(&p.envs[0])
	r.k.sated = r.sated()
	s := &r.State
	s.Alk = alkAt(c.PH+par.PHOffset, float64(c.KH.Meq())*par.AlkRatio, r.k.kw)
	s.acid = acidFor(c.PH+par.PHOffset, s.Alk, r.k.kw)
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

// acidFor returns K1·[CO2] such that hydrogen gives this pH.
func acidFor(ph, alk, kw float64) float64 {
	h := math.Pow(10, -ph)
	return max(h*(alk*1e-3+h)-kw, 1e-18)
}

// alkAt returns the alkalinity, meq/L, of water of a pH in which tests show alk: a kit
// calls 0 what is less than a quarter of a degree, and water holds at least the carbon
// dioxide of the air, which would make it more acidic than it is if there were none.
func alkAt(ph, alk, kw float64) float64 {
	const (
		airAcid = 13.6e-6 * 4.45e-7 // carbon dioxide by Henry's law at 0.0004 atm, times K1, of fresh water at 25 C
		unseen  = 0.09              // meq/L
	)
	h := math.Pow(10, -ph)
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

// Daily is To, up to a whole day, that calls daily at each whole day on its way, from
// where the run stands on; daily may only look.
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
	st := r.plan.stops[r.next]
	r.next++
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
	*k = newKin(r.p)
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

// integrate advances the state to a day with adaptive steps.
func (r *Run) integrate(day float64) {
	if r.lane != nil {
		r.lane.take(r, day, false, nil)
		return
	}
	if r.Day >= day {
		return
	}
	k := &r.k
	r.setOut()
	var states [2]State
	var paces [2]pace
	s, next, now, then := &states[0], &states[1], &paces[0], &paces[1]
	*s, *now = r.State, r.now
	for x := r.stride(day); x.at < day; {
		r.choose(&x, s.Cl)
		if r.judge(&x, k.step(s, now, x.h, next, then), next.TAN) {
			r.passed.look(x.from, x.at, s.TAN, s.NO2, next.TAN, next.NO2)
			s, next, now, then = next, s, then, now
		}
		if x.at >= day {
			r.arrive(&x)
		}
	}
	r.State, r.now = *s, *now
	r.at = s.steeped()
}

// setOut brings the run's pace up to date.
func (r *Run) setOut() {
	if k := &r.k; !k.paced || r.State.steeped() != r.at {
		k.paceOf(&r.State, &r.now)
		k.paced = true
	}
}

// stride is how far an integration has come.
type stride struct {
	at, to float64
	next   float64 // the step that the last one suggests
	h      float64 // the step being made
	from   float64 // where the last one that was accepted began
}

func (r *Run) stride(day float64) stride { return stride{at: r.Day, to: day, next: r.h} }

// choose sets the length of the next step.
func (r *Run) choose(x *stride, chlorine float64) {
	k := &r.k
	h := x.next
	if h > k.longest {
		h = k.longest
	}
	if chlorine > 0 {
		h = min(h, 1.5/(chlorine*k.clKill*k.p.Chlorine+k.loss))
	}
	if left := x.to - x.at; left < 1.1*h+stepMin { // spares a short last step
		h = left
	} else if left < 2*h { // as are two of a kind
		h = left / 2
	}
	if k.rise > 0 {
		grown := min(1+k.rise*(x.at+h/2), k.sated)
		k.fedTAN, k.fedOrg = k.firstTAN*grown, k.firstOrg*grown
	}
	x.h = h
}

// judge says whether a step with such an error, after which there was so much ammonia, is
// good enough, and if so counts it; it sets what the next one should be.
func (r *Run) judge(x *stride, err, tan float64) bool {
	if err < refused {
		err *= r.ease
	}
	h := x.h
	if !(err <= 1.6) && h > stepMin { // also when it is not a number
		x.next = max(0.6*h, stepMin)
		if err < refused {
			x.next = max(x.next, 0.9*h/math.Cbrt(err))
		}
		return false
	}
	r.Steps++
	r.Ledger.In += h * (r.k.fedTAN + r.k.fedOrg)
	better := h * (0.58 + 0.4/(err+0.16)) // about err^-1/3, at most threefold
	if r.jumped {
		r.first, r.jumped = min(better, 0.3), false
		if h < 0.06 {
			better *= 2.6 // what oxygen and nitrite do at once is over
		}
	}
	if err < 0.2 && tan < 0.003 {
		better = 6 * h // no ammonia left that could surprise
	}
	if h == x.next || err > 0.5 {
		if x.next = better; better > stepMax {
			x.next = stepMax
		} else if better < stepMin {
			x.next = stepMin
		}
	}
	x.from = x.at
	if h == x.to-x.at {
		x.at = x.to
	} else {
		x.at += h
	}
	return true
}

// arrive ends an integration.
func (r *Run) arrive(x *stride) { r.Day, r.h = x.to, x.next }

// lose takes away a share of all guilds; what is lost rots.
func (r *Run) lose(share float64) {
	for i := range r.State.B {
		d := r.State.B[i] * share
		r.State.B[i] -= d
		r.State.Org += d
	}
}

// event applies a logged event.
func (r *Run) event(e *Event) {
	s := &r.State
	vol := max(float64(r.plan.conds[r.seg].Volume), 0.1)
	switch e.Kind {
	case Dose:
		if e.Perhaps && !(r.p.Silent && s.TAN < float64(ClearTAN) && s.NO2 < float64(holdNO2)) {
			return
		}
		r.dose(float64(e.N)*r.p.Dose, e.Salt)
	case FeedOnce:
		n := FoodN * float64(e.Mass) / vol * r.p.Source
		s.Org += n
		r.Ledger.In += n
	case WaterChange:
		r.changeWater(e.Fraction, e.Treated)
	case Buffer:
		s.Alk += float64(e.Alk.Meq()) // CO2 stays, so pH follows
	case Seed:
		r.seed(e, vol)
	case Culture:
		r.culture(e.Content)
	case NitriteRemoved:
		out := e.Fraction * s.NO2
		s.NO2 -= out
		r.Ledger.Out += out
	case Cleaned:
		share := 0.25
		if e.Harsh || e.Treated == No {
			share = 0.6
		}
		if e.Fraction > 0 {
			share *= e.Fraction
		}
		r.lose(1 - math.Pow(1-share, r.p.Harm))
	}
}

// dose adds ammonia; a solution brings its alkalinity along, a salt does not.
func (r *Run) dose(n float64, salt bool) {
	r.State.TAN += n
	r.Ledger.In += n
	if !salt {
		r.State.Alk += n / unit.MolarN
	}
	r.jump()
}

// changeWater replaces a share of the water by the source's.
func (r *Run) changeWater(f float64, treated Treated) {
	s, c := &r.State, &r.plan.conds[r.seg]
	out := f * (s.TAN + s.NO2 + s.NO3)
	s.TAN *= 1 - f
	s.NO2 *= 1 - f
	s.NO3 *= 1 - f
	s.NO3 += f * r.p.TapNO3
	r.Ledger.Out += out
	r.Ledger.In += f * r.p.TapNO3
	// New water has the set-up's alkalinity; RO and rain are taken as made up to
	// what the member keeps, since nobody runs a tank on water without any.
	s.Alk += f * (float64(c.KH.Meq())*r.p.AlkRatio - s.Alk)
	if treated == No || treated == AsHabit && !c.Conditioner {
		switch c.Source {
		case Chlorinated:
			s.Cl += f * tapChlorine
		case Chloraminated:
			s.Cl += f * tapChlorine
			n := f * tapChlorine * chem.AmmoniaNPerChloramine
			s.TAN += n
			r.Ledger.In += n
		}
	}
	r.jump()
	if s.Cl > 0 {
		r.h = min(r.h, 0.01)
	}
}

// tapChlorine is the residual in tap water, mg Cl2/L: 0.5 to 1 (common
// practice, no source; water companies keep 0.5 typically, below 1 surely).
const tapChlorine = 0.8

// assimilate lets measured pH, KH, oxygen and chlorine correct the state: they
// are read on the tank itself, so they outweigh what was foreseen.
func (r *Run) assimilate(x *Reading) {
	if !x.corrects() {
		return
	}
	s := &r.State
	ph := s.PH(&r.k.Env)
	if x.KH != nil {
		s.Alk = alkAt(ph, s.Alk+0.8*(float64(x.KH.Meq())-s.Alk), r.k.kw)
		if x.PH == nil {
			s.acid = acidFor(ph, s.Alk, r.k.kw)
		}
	}
	if x.PH != nil {
		s.acid = acidFor(ph+0.7*(*x.PH-ph), s.Alk, r.k.kw)
	}
	if x.Oxygen != nil {
		s.O2 = max(*x.Oxygen, 0.05)
		s.demand = max(r.k.kla*(r.k.satO2-s.O2), 0)
	}
	if x.Chlorine != nil {
		s.Cl = max(*x.Chlorine, 0)
	}
}

// corrects says whether the reading tells anything that outweighs what was foreseen.
func (x *Reading) corrects() bool {
	return x.PH != nil || x.KH != nil || x.Oxygen != nil || x.Chlorine != nil
}

// calm says whether what comes next leaves the run as it is.
func (r *Run) calm() bool {
	st := &r.plan.stops[r.next]
	if st.kind != stopReading {
		return false
	}
	x := &r.plan.Case.Readings[st.i]
	return !x.corrects() && (x.Ammonia == nil || !r.plan.conds[r.seg].rots())
}

// retell takes a pH and a KH that were told to hold from now on for measured.
func (r *Run) retell(c *condition) {
	var x Reading
	if c.retold.PH {
		x.PH = &c.PH
	}
	if c.retold.KH {
		x.KH = &c.KH
	}
	r.assimilate(&x)
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
