package model

import "math"

// Stand is how a tank stood on a whole day.
type Stand struct {
	state State
	seg   int
}

// Stand returns how the tank stands now.
func (r *Run) Stand() Stand { return Stand{r.State, r.seg} }

// Pools returns what the kits would have seen then, if they were perfect.
func (s *Stand) Pools() Pools { return s.state.Pools() }

// Past is how a tank stood on each whole day up to now, and how far it was from passing
// the challenge, kept for the draws that share it. The zero value knows of none.
type Past struct {
	days      []Stand   // from day 1 on, or nil
	margin    []float64 // what the challenge leaves over the limits, or NaN while nobody asked
	target    float64   // of the challenges
	own       []Stand   // room for days
	from, was Run       // room for runs
}

// leastTrial is the least that Doubt.Trial may be.
const leastTrial = 0.3

// Turn makes it the past of another tank: how that stood on each whole day up to now, or
// nil if nobody knows.
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
		p.from.Daily(math.Floor(now), nil, func(_ int, r *Run) { p.own = append(p.own, r.Stand()) })
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
		d, day := &p.days[i], float64(i+1)
		if day == now || math.Mod(day, challengeEvery(day-now)) != 0 {
			continue
		}
		if math.IsNaN(p.margin[i]) {
			if d.seg != x.seg {
				x.seg = d.seg
				x.k.enterFrom(x)
			}
			x.Day, x.State = day, d.state
			p.margin[i] = x.challenge(leastTrial)
		}
		before := r.doubt.Trial * p.margin[i]
		if before >= 1 {
			return crossing(day, on, before, m, 1)
		}
		on, m = day, before
	}
	return crossing(0, on, math.Inf(1), m, 1)
}
