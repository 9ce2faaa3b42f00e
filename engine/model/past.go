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
	on := now
	for i := len(p.days) - 1; i >= 0; i-- {
		d := &p.days[i]
		if math.IsNaN(p.margin[i]) {
			if d.seg != x.seg {
				x.seg = d.seg
				x.k.enterFrom(x)
			}
			x.Day, x.State = d.day, d.state
			p.margin[i] = x.challenge(leastTrial)
		}
		before := r.doubt.Trial * p.margin[i]
		if before >= 1 {
			return crossing(d.day, on, before, m, 1)
		}
		on, m = d.day, before
	}
	return crossing(0, on, math.Inf(1), m, 1)
}
