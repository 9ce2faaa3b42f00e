package model

import "math"

// Past is how a tank stood on each whole day up to now, and how far it was from passing
// the challenge, kept for the draws that share it. The zero value knows of none.
type Past struct {
	days      []pastDay
	target    float64 // of the challenges
	from, was Run     // room for runs
}

type pastDay struct {
	state  State
	seg    int
	margin float64 // what the challenge leaves over the limits, or NaN while nobody asked
}

// leastTrial is the least that Doubt.Trial may be.
const leastTrial = 0.3

// Forget empties the past, for another draw's.
func (p *Past) Forget() { p.days = p.days[:0] }

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
	if len(p.days) == 0 {
		p.from.Reset(r.plan, r.p)
		p.from.ease = r.ease
		for day := 1.; day <= now; day++ {
			p.from.To(day, nil)
			p.days = append(p.days, pastDay{state: p.from.State, seg: p.from.seg})
		}
		p.target = math.NaN()
	}
	if target := r.target(); target != p.target {
		p.target = target
		for i := range p.days {
			p.days[i].margin = math.NaN()
		}
	}
	x := &p.was
	*x = *r
	on := now
	for i := len(p.days) - 1; i >= 0; i-- {
		d, day := &p.days[i], float64(i+1)
		if day == now || math.Mod(day, challengeEvery(day-now)) != 0 {
			continue
		}
		if math.IsNaN(d.margin) {
			if d.seg != x.seg {
				x.seg = d.seg
				x.k.enterFrom(x)
			}
			x.Day, x.State = day, d.state
			d.margin = x.challenge(leastTrial)
		}
		before := r.doubt.Trial * d.margin
		if before >= 1 {
			return crossing(day, on, before, m, 1)
		}
		on, m = day, before
	}
	return crossing(0, on, math.Inf(1), m, 1)
}
