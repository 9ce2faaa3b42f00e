package study

import (
	"fmt"
	"math/rand/v2"

	"ripen/engine/model"
)

// methods are those of the five tanks, one each.
var methods = [...]struct {
	method model.Method
	name   string
}{
	{model.Dosed, "dosed"}, {model.Food, "food"}, {model.Seeded, "seeded"}, {model.Planted, "planted"}, {model.FishIn, "fish-in"},
}

// Compared is what Walk found.
type Compared struct {
	Walking
	Seed     uint64
	Tanks    []string  // what each tank is
	Accepted []float64 // by tank, the share of the walks' steps that succeeded
	All      []Agreement
}

// OK says whether everything agrees.
func (c *Compared) OK() bool {
	for i := range c.All {
		if !c.All[i].OK() {
			return false
		}
	}
	return len(c.All) > 0
}

// Walk compares the fit with plain random walks on five tanks drawn from the
// prior and kept by the model: of each method the first that was kept for at
// least a fortnight and read at least eight times.
func (how Walking) Walk(seed uint64, p Progress) Compared {
	out := Compared{Walking: how, Seed: seed}
	for i, m := range methods {
		k := firstKept(seed, func(k *kept) bool {
			return k.plan.Case.Setup.Method == m.method && k.plan.Now >= 14 && len(k.plan.Case.Readings) >= 8
		})
		c := &k.plan.Case
		out.Tanks = append(out.Tanks, fmt.Sprintf("%s: %.0f days, %d readings, %.0f C, pH %.1f", m.name, k.plan.Now, len(c.Readings), float64(c.Setup.Temp), c.Setup.PH))
		all, accepted := how.compare(m.name, &k, rand.New(rand.NewPCG(seed, uint64(i)+1<<33)))
		out.All, out.Accepted = append(out.All, all...), append(out.Accepted, accepted)
		p.tell(i+1, len(methods))
	}
	return out
}

// firstKept keeps tanks until one is as wanted.
func firstKept(seed uint64, wanted func(*kept) bool) kept {
	for tank := uint64(0); ; tank++ {
		k := keepTank(rand.New(rand.NewPCG(seed, tank)))
		if wanted(&k) {
			return k
		}
	}
}
