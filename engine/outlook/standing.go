package outlook

import (
	"fmt"
	"math"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// standing is ammonia or nitrite that the last tests agree on though no draw explains
// it: food or animals that nobody told of, or bacteria lost. What was read stands
// then, whatever the draws say, and those who use it up are fewer than they think.
type standing struct {
	what unit.Species
	ion  float64 // as read, mg/L
	days int     // on how many days in a row
}

// Sizes are our own judgement (no source), as is that two tests are no slip.
const (
	standingDays = 4.0 // how old the last test may be
	standingIon  = 0.5 // the least that counts, mg/L: twice what counts as clear
	// leastLeft is the least that the bacteria left may use up in a day, as a share of what
	// was read; all of it is the most, since it did not go.
	leastLeft = 0.03
)

// stands returns what the last tests show against all draws: two or more in a row
// that are odd and high, the last of them recent and followed by no water change.
func stands(p *fit.Posterior) *standing {
	now := p.Plan.Now
	for _, sp := range []unit.Species{unit.Nitrite, unit.Ammonia} {
		s := standing{what: sp}
		last := math.Inf(-1)
		for i := range p.Plan.Case.Readings {
			r := &p.Plan.Case.Readings[i]
			x := r.Of(sp)
			if x == nil || float64(r.Day) > now {
				continue
			}
			if s.ion = x.Ion(sp); s.ion >= standingIon && isOdd(p.Odd, i, sp) {
				if float64(r.Day) >= last+0.5 || s.days == 0 {
					s.days++
				}
			} else {
				s.days = 0
			}
			last = float64(r.Day)
		}
		if s.days >= 2 && last >= now-standingDays && !changedSince(&p.Plan.Case, last, now) {
			return &s
		}
	}
	return nil
}

// isOdd says whether a value was read higher than the draws explain.
func isOdd(odd []fit.Odd, reading int, sp unit.Species) bool {
	return slices.ContainsFunc(odd, func(o fit.Odd) bool { return o.Reading == reading && o.Species == sp && o.Over })
}

// changedSince says whether water was changed after a day, up to another.
func changedSince(c *model.Case, from, to float64) bool {
	return slices.ContainsFunc(c.Events, func(e model.Event) bool {
		return e.Kind == model.WaterChange && float64(e.Day) > from && float64(e.Day) <= to
	})
}

// put brings draw i, which stands at now, to what was read.
func (s *standing) put(r *model.Run, i int) {
	n := float64(unit.MgIon(s.ion).N(s.what))
	most := n * math.Pow(leastLeft, even(i, math.Sqrt(7)))
	eaters, step := []int{model.NOB, model.CMX}, 1
	if s.what == unit.Nitrite {
		r.State.NO2 = max(r.State.NO2, n)
	} else {
		eaters, step = []int{model.AOB, model.AOA, model.CMX}, 0
		r.State.TAN = max(r.State.TAN, n)
	}
	if now := r.Capacity()[step]; now > most {
		for _, g := range eaters {
			r.State.B[g] *= most / now
		}
	}
}

// says is what is told of it.
func (s *standing) says() string {
	return fmt.Sprintf("%v of %g mg/L stands as the last %d tests show it, though the rest of the log does not explain it: more food or animals, or bacteria lost, that nobody told of; /log it with at:, and ask again", s.what, s.ion, s.days)
}
