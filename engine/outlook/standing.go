package outlook

import (
	"fmt"
	"math"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// Standing is ammonia or nitrite that the last tests agree on though no draw explains
// it: food or animals that nobody told of, or bacteria lost. What was read stands
// then, whatever the draws say, and those who use it up are fewer than they think.
type Standing struct {
	what unit.Species
	ion  float64 // as read, mg/L
	days int     // on how many days in a row
	day  float64 // of the last
	now  float64 // when it stands
}

// Sizes are our own judgement (no source), as is that two tests are no slip.
const (
	standingDays = 4.0 // how old the last test may be
	standingIon  = 0.5 // the least that counts, mg/L: twice what counts as clear
	unfallen     = 0.8 // the share of the test before that counts as not fallen
	// leastLeft is the least that the bacteria left may use up in a day, as a share of what
	// was read; all of it is the most, since it did not go.
	leastLeft = 0.03
)

// Stands returns what the last tests show against all draws: two or more in a row
// that are odd and high, or of which the last is and that did not fall though nothing went in, when
// it need only be unlikely, since two slips alike are rarer than one; the last of them recent and followed by no water change; nil if they show nothing.
func Stands(p *fit.Posterior) *Standing {
	if s := lastHigh(p, unit.Nitrite); s != nil && s.days >= 2 {
		return s
	}
	if s := lastHigh(p, unit.Ammonia); s != nil && s.days >= 2 {
		return s
	}
	return nil
}

// lastHigh is the run of high tests of a species that ends with the last one, which is odd;
// nil if there is none.
func lastHigh(p *fit.Posterior, sp unit.Species) *Standing {
	now := p.Plan.Now
	s := Standing{what: sp, now: now}
	last, odd := math.Inf(-1), false
	var read *model.Reading // at last
	for i := range p.Plan.Case.Readings {
		r := &p.Plan.Case.Readings[i]
		x := r.Of(sp)
		if x == nil || float64(r.Day) > now {
			continue
		}
		day, before, was := float64(r.Day), s.ion, odd
		s.ion = x.Ion(sp)
		stayed := s.ion >= unfallen*before && (read == nil || !fedBetween(p.Plan, read, r))
		if p.Plan.Tells(i)[sp] > 0 { // else it is what it repeats
			odd = isOdd(p.Odd, i, sp)
		}
		goesOn := odd && was || stayed
		if p.Plan.Tells(i)[sp] > 0 && stayed && s.days > 0 {
			odd = isOdd(p.Unlikely, i, sp)
		}
		switch {
		case s.ion < standingIon:
			s.days = 0
		case s.days == 0 || !goesOn:
			s.days = 1
		case day >= last+0.5:
			s.days++
		}
		last, read = day, r
	}
	if !odd || s.days == 0 || last < now-standingDays || changedSince(&p.Plan.Case, read, now) {
		return nil
	}
	s.day = last
	return &s
}

// against is the last test where it shows ammonia or nitrite that should be clear, and is
// the only one to do so: a slip, or the first sign of a loss.
func against(p *fit.Posterior) string {
	for _, sp := range []unit.Species{unit.Nitrite, unit.Ammonia} {
		if s := lastHigh(p, sp); s != nil && s.days == 1 {
			return fmt.Sprintf("%v %g mg/L on day %d", sp, s.ion, p.Plan.Case.DayOf(unit.Days(s.day)))
		}
	}
	return ""
}

// fedBetween says whether something that becomes ammonia went in after one reading, up to
// another.
func fedBetween(p *model.Plan, from, to *model.Reading) bool {
	if m := p.Current().Method; m == model.Food || m == model.DarkStart || m == model.FishIn {
		return true
	}
	return slices.ContainsFunc(p.Case.Events, func(e model.Event) bool {
		return !e.Perhaps && (e.Kind == model.Dose || e.Kind == model.FeedOnce || e.Kind == model.Stocked) && e.After(from) && !e.After(to)
	})
}

// isOdd says whether a value was read higher than the draws explain.
func isOdd(odd []fit.Odd, reading int, sp unit.Species) bool {
	return slices.ContainsFunc(odd, func(o fit.Odd) bool { return o.Reading == reading && o.Species == sp && o.Over })
}

// changedSince says whether water was changed after a reading, up to a day.
func changedSince(c *model.Case, from *model.Reading, to float64) bool {
	return slices.ContainsFunc(c.Events, func(e model.Event) bool {
		return e.Kind == model.WaterChange && e.After(from) && float64(e.Day) <= to
	})
}

// Put brings draw i, which stands at now, to what was read; a nil Standing changes nothing.
func (s *Standing) Put(r *model.Run, i int) {
	if s == nil {
		return
	}
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

// says is what is told of it: that the hardness is used up, if that is why.
func (s *Standing) says(c *crash, now float64) string {
	if c.goesOn(now) {
		return fmt.Sprintf("%v of %g mg/L stands as the last %d tests show it: the hardness is used up (%s), and bacteria stop without it", s.what, s.ion, s.days, c.shows)
	}
	return fmt.Sprintf("%v of %g mg/L stands as the last %d tests show it, though the rest of the log does not explain it: more food or animals, or bacteria lost, that nobody told of; /log it with at: and ask again", s.what, s.ion, s.days)
}
