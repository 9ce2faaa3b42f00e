package study

import (
	"math/rand/v2"
	"slices"

	"ripen/engine/diagnose"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Found is how the diagnosis of one tank did.
type Found struct {
	Causes  []string // that are truly at work; none in a sound tank
	Visible float64  // the day from which the faults can be seen
	Done    float64  // the day on which the tank was done; the horizon when later
	Without float64  // the same, had there been no fault
	Soon    Told     // five days after the faults could be seen
	Later   Told     // 5 to 15 days after that, not past nine tenths of what was left
}

// Told is one diagnosis.
type Told struct {
	Day     float64
	Verdict string
	Causes  []diagnose.Cause
}

// Rank is the place of a cause on the list, from 1; 0 when it is not on it.
func (t *Told) Rank(cause string) int {
	return 1 + slices.IndexFunc(t.Causes, func(c diagnose.Cause) bool { return c.Name == cause })
}

// Faults draws q.Tanks tanks of the wider truth for every cause, which holds them
// up, and twice as many that are sound and that have two causes at once; it keeps
// them as keepers do and asks what slows them. A fault can be seen from when the tank
// differs from its twin without it by more than kits err, two evenings in a row.
// q.Own is not used.
func Faults(q Question, p Progress) []Found {
	const twice = 2
	var all []Found
	of := q.Tanks * (len(faults) + 2*twice)
	keep := func(kind, tanks int, pick func(rng *rand.Rand) []fault) {
		for range tanks {
			number := uint64(kind)<<32 + uint64(len(all))<<12
			rng := rand.New(rand.NewPCG(q.Seed, number))
			var f faulty
			for ok := false; !ok; number++ {
				f, ok = keepFaulty(pick(rng), q.Seed, number)
			}
			all = append(all, f.diagnose(q.Draws, rng))
			p.tell(len(all), of)
		}
	}
	for i := range faults {
		keep(i, q.Tanks, func(*rand.Rand) []fault { return faults[i : i+1] })
	}
	keep(100, twice*q.Tanks, func(*rand.Rand) []fault { return nil })
	keep(101, twice*q.Tanks, pair)
	return all
}

// pair draws two faults that can be told apart and come together.
func pair(rng *rand.Rand) []fault {
	for {
		a, b := &faults[rng.IntN(len(faults))], &faults[rng.IntN(len(faults))]
		if !a.free && !b.free && a.group() != b.group() {
			return []fault{*a, *b}
		}
	}
}

// group numbers faults of which one undoes the other's set-up.
func (f *fault) group() int {
	for g, names := range [][]string{
		{"acidic-water", "low-alkalinity", "ammonia-overdose"},
		{"cold-water", "hot-water"},
		{"chlorine", "low-phosphate"},
		{"medication", "low-oxygen", "filter-interrupted", "media-washed"},
		{"no-ammonia-source", "nitrite-backlog", "mismatched-seed"},
	} {
		if slices.Contains(names, f.cause) {
			return g
		}
	}
	return -1 - slices.IndexFunc(faults, func(x fault) bool { return x.cause == f.cause })
}

// diagnose asks twice what slows the tank.
func (f *faulty) diagnose(draws int, rng *rand.Rand) Found {
	r := Found{Causes: f.causes, Visible: f.visible, Without: f.without, Done: f.done}
	soon, later := f.visible+5, f.visible+5+between(rng, 5, 15)
	switch {
	case len(f.causes) == 0:
		soon, later = between(rng, 0.3, 0.6)*f.done, between(rng, 0.6, 0.95)*f.done
	case f.done > soon:
		later = min(later, soon+0.9*(f.done-soon))
	}
	r.Soon, r.Later = f.asked(soon, draws), f.asked(later, draws)
	return r
}

// asked is the diagnosis on a day, from what had been told by then.
func (w *wild) asked(now float64, draws int) Told {
	full, assumed := model.Complete(w.upTo(now), unit.Days(now))
	p := fit.FitPlan(model.NewPlan(full, unit.Days(now)), assumed, fit.Hypothesis{}, draws)
	d := diagnose.Of(p, outlook.Of(p))
	return Told{now, d.Verdict, d.Causes}
}
