package model

import "math"

// Stand is how a tank stood on a day.
type Stand struct {
	state State
	seg   int
	day   float64
}

// Stand returns how the tank stands now.
func (r *Run) Stand() Stand { return Stand{r.State, r.seg, r.Day} }

// Tried says whether a run that passes the challenge at Now is held to it on this earlier whole day
// too, to find since when it passes.
func (p *Plan) Tried(day int) bool {
	return float64(day) < p.Now && day%challengeEvery(float64(day)-p.Now) == 0
}

// Past is how a tank stood on each day that is tried, and how far it was from passing
// the challenge, kept for the draws that share it. The zero value knows of none.
type Past struct {
	days      []Stand   // the earliest first, or nil
	margin    []float64 // what the challenge leaves over the limits, or NaN while nobody asked
	target    float64   // of the challenges
	own       []Stand   // room for days
	from, was Run       // room for runs
}

// leastTrial is the least that Doubt.Trial may be.
const leastTrial = 0.3

// Turn makes it the past of another tank: how that stood on each day that is tried, or nil if
// nobody knows.
func (p *Past) Turn(days []Stand) { p.days, p.margin = days, p.margin[:0] }

// Share lets the run use and fill a past, until Reset: that of runs which are the same
// up to now, but for their doubts and what is asked of them.
func (r *Run) Share(p *Past) { r.past = p }

// since returns the day from which on the challenge has passed for good, for a run
// that stands at now and passes it with this outcome.
func (r *Run) since(now, m float64) float64 {
	p := r.past
	if p == nil {
		p = new(Past)
	}
	if p.days == nil {
		p.own = p.own[:0]
		p.from.Ride(r.lane)
		p.from.Reset(r.plan, r.p)
		p.from.ease = r.ease
		p.from.Daily(math.Floor(now), nil, func(day int, r *Run) {
			if r.plan.Tried(day) {
				p.own = append(p.own, r.Stand())
			}
		})
		p.days = p.own
	}
	if target := r.target(); target != p.target || len(p.margin) == 0 {
		p.target, p.margin = target, p.margin[:0]
		for range p.days {
			p.margin = append(p.margin, math.NaN())
		}
	}
	x := &p.was
	x.CopyFrom(r, r.p)
	x.Ride(r.lane)
	// try returns what the challenge of a day leaves, of a draw of no doubt.
	try := func(i int) float64 {
		if math.IsNaN(p.margin[i]) {
			x.stand(&p.days[i])
			p.margin[i] = x.challenge(leastTrial)
		}
		return p.margin[i]
	}
	at := func(i int) (day, left float64) { // of a day, or now
		if i == len(p.days) {
			return now, m
		}
		return p.days[i].day, r.doubt.Trial * try(i)
	}
	with := &Stand{r.State, r.seg, now} // passed with room to spare, or nil
	if m > ample {
		with = nil
	}
	for i := len(p.days) - 1; i >= 0; i-- {
		d := &p.days[i]
		if with != nil && math.IsNaN(p.margin[i]) && x.asGood(d, with) {
			continue
		}
		switch left := r.doubt.Trial * try(i); {
		case left >= 1:
			from, before := d.day, left
			on, m := at(i + 1)
			for ; m >= 1; on, m = at(i + 1) { // one that was passed by
				from, before = on, m
				i++
			}
			return crossing(from, on, before, m, 1)
		case left <= ample:
			with = d
		default:
			with = nil
		}
	}
	on, m := at(0)
	return crossing(0, on, math.Inf(1), m, 1)
}

// A tank that passes the challenge by so much that it leaves no more than ample of the limits is not tried on
// the days before on which it had alike of the bacteria, and hardly more of what they have to clear.
const ample, alike, hardlyMore = 0.4, 0.9, 0.02

// asGood says whether the tank as it stood at d was nearly as able as later, at then, so that it
// passed as well.
func (r *Run) asGood(d, then *Stand) bool {
	s, t := &d.state, &then.state
	if d.seg != then.seg || r.k.rise > 0 || s.TAN > t.TAN+hardlyMore || s.NO2 > t.NO2+hardlyMore || s.Org > t.Org+hardlyMore || s.Soil > t.Soil+hardlyMore || s.Alk < alike*t.Alk || s.Cl > t.Cl {
		return false
	}
	r.into(d.seg)
	a, n := r.able(s)
	b, o := r.able(t)
	return a >= alike*b && n >= alike*o
}

// stand puts the run where a tank stood.
func (r *Run) stand(d *Stand) {
	r.into(d.seg)
	r.Day, r.State = d.day, d.state
}

// into enters a segment, unless the run is in it.
func (r *Run) into(seg int) {
	if seg != r.seg {
		r.seg = seg
		r.k.enterFrom(r)
	}
}
