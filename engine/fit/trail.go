package fit

import (
	"ripen/engine/model"
	"ripen/engine/par"
	"ripen/engine/unit"
)

// few is how many draws are taken through the log once more when it is fitted.
const few = 256

// trail is how some of the draws came to where they stand.
type trail struct {
	step  int           // every so many of the draws
	days  int           // whole days passed
	pools []model.Pools // by draw, then day from 1 on
}

// Retrace puts draw i into run as Resume does, and calls keep with its pools on each
// whole day that it has passed there. A draw whose way was not kept begins anew.
func (p *Posterior) Retrace(i int, run *model.Run, keep func(day int, q model.Pools)) {
	t, j := &p.trail, p.before(i)
	if t.step == 0 || !p.ran(i) || j%t.step != 0 || j/t.step >= few {
		run.Reset(p.Plan, &p.Draws[i])
		return
	}
	p.Resume(i, run)
	for day, q := range t.pools[j/t.step*t.days:][:t.days] {
		keep(day+1, q)
	}
}

// Odd is a reading that the posterior finds unlikely.
type Odd struct {
	Reading int          // index in the case
	Species unit.Species // which value of it
	Prob    float64      // posterior mean probability of the value read
	Over    bool         // read higher than expected
}

// past takes a few draws through the log once more, keeps their trail, and finds the
// readings with a posterior mean probability below one in twenty.
func (c *cloud) past() (trail, []Odd) {
	b := c.b
	n := min(few, len(c.x))
	last := b.day(len(b.sights) - 1)
	t := trail{step: len(c.x) / n, days: int(last)}
	t.pools = make([]model.Pools, n*t.days)
	all := make([][3]chance, n*len(b.sights)) // by draw, then sight
	par.Each(n, func() func(int) {
		var run model.Run
		return func(k int) {
			l := b.lens(&c.x[k*t.step])
			run.Reset(b.plan, &c.par[k*t.step])
			run.Coarse()
			seen := all[k*len(b.sights) : (k+1)*len(b.sights)]
			at := 0
			look := func(reading int, r *model.Run) bool {
				if at < len(seen) && b.sights[at].reading == reading {
					seen[at] = b.sights[at].chances(r.State.Pools(), &l)
					at++
				}
				return true
			}
			for day := range t.days {
				run.To(float64(day+1), look)
				t.pools[k*t.days+day] = run.State.Pools()
			}
			run.To(last, look)
		}
	})
	var out []Odd
	for i := range b.sights {
		for sp, bin := range b.sights[i].bins {
			if bin == nil {
				continue
			}
			prob, high := 0.0, 0
			for k := range n {
				s := &all[k*len(b.sights)+i][sp]
				prob += s.prob / float64(n)
				if s.high {
					high++
				}
			}
			if prob < 0.05 {
				out = append(out, Odd{b.sights[i].reading, unit.Species(sp), prob, 2*high > n})
			}
		}
	}
	return t, out
}

// chance is how likely a draw makes what was read of a species.
type chance struct {
	prob float64
	high bool // it was read higher than the draw's kit would show
}

// chances returns it for each species.
func (s *sight) chances(p model.Pools, l *lens) (out [3]chance) {
	for sp, bin := range s.bins {
		if bin != nil {
			v := view(p, unit.Species(sp)) + l.bound[sp]
			out[sp] = chance{bin.Prob(v, l.bias[sp]), v*l.bias[sp] < bin.Low}
		}
	}
	return out
}
