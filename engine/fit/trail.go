package fit

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// kept is of how many draws it is kept how they came through the log.
const kept = 512

// trail is how some of the draws came to where they stand.
type trail struct {
	step   int           // every so many of the draws
	days   int           // whole days passed
	at     []int         // of each of these draws, the index of its way: twins share one
	pools  []model.Pools // by way, then day from 1 on
	tried  int           // of these days
	stands []model.Stand // by way, then day that is tried
}

// ofWay returns what was kept of the way of draw i, of which all holds n for each; nil if that was not kept.
func ofWay[T any](p *Posterior, i int, all []T, n int) []T {
	t, j := &p.trail, p.before(i)
	if t.step == 0 || !p.ran(i) || j%t.step != 0 || j/t.step >= len(t.at) {
		return nil
	}
	return all[t.at[j/t.step]*n:][:n:n]
}

// Stands returns how draw i stood on each day that is tried, see model.Plan.Tried, or nil if it is
// not one of those of which that was kept.
func (p *Posterior) Stands(i int) []model.Stand {
	return ofWay(p, i, p.trail.stands, p.trail.tried)
}

// Pools returns the pools of draw i on each whole day from 1 up to now, or nil likewise.
func (p *Posterior) Pools(i int) []model.Pools {
	return ofWay(p, i, p.trail.pools, p.trail.days)
}

// Odd is a reading that the posterior finds unlikely.
type Odd struct {
	Reading int          // index in the case
	Species unit.Species // which value of it
	Prob    float64      // posterior mean probability of the value read
	Over    bool         // read higher than expected
}

// Posterior mean probabilities below which a reading is odd, and unlikely.
const odd, unlikely = 0.05, 0.25

// past takes some of the draws through the log once more, keeps their trail, and finds
// the readings that are unlikely.
func (c *cloud) past() (trail, []Odd) {
	b := c.b
	n := min(kept, len(c.x))
	t := trail{step: len(c.x) / n, days: int(b.plan.Now), at: make([]int, n)}
	var ways []int       // the first draw of each
	var weight []float64 // how many of the draws go it
	for k := range n {
		i := k * t.step
		if k == 0 || !c.alike(i, i-t.step) {
			ways, weight = append(ways, i), append(weight, 0)
		}
		t.at[k] = len(ways) - 1
		weight[t.at[k]] += 1 / float64(n)
	}
	for day := range t.days {
		if b.plan.Tried(day + 1) {
			t.tried++
		}
	}
	t.pools, t.stands = make([]model.Pools, len(ways)*t.days), make([]model.Stand, len(ways)*t.tried)
	all := make([][3]chance, len(ways)*len(b.sights)) // by way, then sight
	model.Each(len(ways), func(on *model.Lane) func(int) {
		run := on.Run()
		return func(k int) {
			l := b.lens(&c.x[ways[k]])
			run.Reset(b.plan, &c.par[ways[k]])
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
			stands := t.stands[k*t.tried:]
			run.Daily(float64(t.days), look, func(day int, r *model.Run) {
				t.pools[k*t.days+day-1] = r.State.Pools()
				if b.plan.Tried(day) {
					stands[0], stands = r.Stand(), stands[1:]
				}
			})
			run.To(b.plan.Now, look)
		}
	})
	var out []Odd
	for i := range b.sights {
		for sp, bin := range b.sights[i].bins {
			if bin == nil {
				continue
			}
			prob, high := 0.0, 0.0
			for k, w := range weight {
				s := &all[k*len(b.sights)+i][sp]
				prob += w * float64(s.prob)
				if s.high {
					high += w
				}
			}
			if prob < unlikely {
				out = append(out, Odd{b.sights[i].reading, unit.Species(sp), prob, high > 0.5})
			}
		}
	}
	return t, out
}

// alike says whether draws i and j are the same up to now.
func (c *cloud) alike(i, j int) bool {
	return c.twin[i] == c.twin[j] && len(c.active) == len(c.b.active)
}

// chance is how likely a draw makes what was read of a species.
type chance struct {
	prob float32 // to save room
	high bool    // it was read higher than the draw's kit would show
}

// chances returns it for each species.
func (s *sight) chances(p model.Pools, l *lens) (out [3]chance) {
	for sp, bin := range s.bins {
		if bin != nil {
			v := view(p, unit.Species(sp)) + l.bound[sp]
			out[sp] = chance{float32(bin.Prob(v, l.bias[sp])), v*l.bias[sp] < bin.Low}
		}
	}
	return out
}
