package model

import "math"

// Past is how a tank stood on each whole day up to now, kept for the draws that share
// it. The zero value knows of none.
type Past struct {
	days []pastDay
}

type pastDay struct {
	state State
	seg   int
}

// Forget empties the past, for another draw's.
func (p *Past) Forget() { p.days = p.days[:0] }

// Share lets the run use and fill a past, until Reset: that of runs which are the same
// up to now.
func (r *Run) Share(p *Past) { r.past = p }

// since returns the day from which on the challenge has passed for good, for a run
// that stands at now and passes, with this outcome.
func (r *Run) since(now float64) float64 {
	p := r.past
	if p == nil {
		p = new(Past)
	}
	if len(p.days) == 0 {
		y := r.plan.Start(r.p)
		y.ease = r.ease
		for day := 1.; day <= now; day++ {
			y.To(day, nil)
			p.days = append(p.days, pastDay{y.State, y.seg})
		}
	}
	x := *r
	on, m := now, r.Challenge()
	for i := len(p.days) - 1; i >= 0; i-- {
		day := float64(i + 1)
		if day == now || math.Mod(day, challengeEvery(day-now)) != 0 {
			continue
		}
		if d := &p.days[i]; d.seg != x.seg {
			x.seg = d.seg
			x.k.enterFrom(&x)
		}
		x.Day, x.State = day, p.days[i].state
		before := x.Challenge()
		if before >= 1 {
			return crossing(day, on, before, m, 1)
		}
		on, m = day, before
	}
	return crossing(0, on, math.Inf(1), m, 1)
}
