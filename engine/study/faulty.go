package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// faulty is a tank that was kept twice, with faults and without.
type faulty struct {
	wild
	causes  []string // none for a sound tank
	visible float64  // the day from which the two differ
	without float64  // the day on which it was done without the faults
}

// keepFaulty keeps a tank with faults, whose luck follows from seed and number,
// and its twin without; ok is false when the faults cost too little or show too
// late for it to be called a faulty tank.
func keepFaulty(fs []fault, seed, number uint64) (f faulty, ok bool) {
	twin := keepOne(fs, false, horizon, seed, number)
	if twin.late || twin.done < 8 {
		return f, false
	}
	if len(fs) == 0 {
		return faulty{wild: twin.wild, without: twin.done}, true
	}
	k := keepOne(fs, true, twin.done, seed, number)
	f = faulty{wild: k.wild, without: twin.done, visible: math.NaN()}
	free := false
	for _, x := range fs {
		f.causes = append(f.causes, x.cause)
		free = free || x.free
	}
	shows := fs[0].shows
	if shows == nil {
		shows = func(_ *keeper, a, b levels) bool { return differ(a, b) }
	}
	for d := 1; d < len(k.keeper.diary) && math.IsNaN(f.visible); d++ {
		if shows(k.keeper, k.on(d-1), twin.on(d-1)) && shows(k.keeper, k.on(d), twin.on(d)) {
			f.visible = float64(d + 1)
		}
	}
	if free {
		return f, !math.IsNaN(f.visible)
	}
	return f, k.done-twin.done >= max(4, 0.2*twin.done) && f.visible+6 < k.done
}

// differ says whether two tanks would read differently.
func differ(a, b levels) bool {
	far := func(x, y float64) bool { return math.Abs(x-y) > max(0.6, 0.5*max(x, y)) }
	return far(a.ammonia, b.ammonia) || far(a.nitrite, b.nitrite)
}

// one is a tank kept once.
type one struct {
	wild
	keeper *keeper
}

// on is how the tank stood on a day, or would have stood once done: clear.
func (o *one) on(day int) levels {
	if d := o.keeper.diary; day < len(d) {
		return d[day]
	}
	return levels{}
}

// keepOne keeps a tank that faults can come to, with them or without; within is
// when it would be done without.
func keepOne(fs []fault, with bool, within float64, seed, number uint64) one {
	rng := rand.New(rand.NewPCG(seed, number))
	chance := rand.New(rand.NewPCG(seed^0x9e3779b97f4a7c15, number)) // of faults, so that the twin's luck stays alike
	k := &keeper{rng: rng, facts: soundFacts(rng)}
	for _, f := range fs {
		if f.needs != nil {
			f.needs(&k.facts, chance)
		}
	}
	if !with {
		fs = nil
	}
	for _, f := range fs {
		if f.facts != nil {
			f.facts(&k.facts, chance)
		}
	}
	p := dig(&k.facts, rng)
	k.tank = p
	s := stated(&k.facts, rng)
	for _, f := range fs {
		if f.told != nil {
			f.told(&s, &k.facts, chance)
		}
	}
	if s.Source >= model.RO && !s.Given.KH { // who makes water up knows its hardness
		s.KH, s.Given.KH = k.facts.set.KH, true
	}
	k.told.Setup = model.Typical(s)
	k.settle()
	var all []func(day float64)
	for _, f := range fs {
		if f.acts != nil {
			k.each = nil
			f.acts(k, p, within, chance)
			if k.each != nil {
				all = append(all, k.each)
			}
		}
	}
	k.each = func(day float64) {
		for _, do := range all {
			do(day)
		}
	}
	return one{k.keep(0), k}
}

// soundFacts draws a set-up in which nothing is wrong.
func soundFacts(rng *rand.Rand) facts {
	f := someFacts(rng)
	s := &f.set
	s.PH, s.Temp = between(rng, 7.2, 8.2), unit.Celsius(between(rng, 24, 28))
	s.KH = unit.DKH(max(4.5+3*(s.PH-7)+1.5*rng.NormFloat64(), 5)).CaCO3()
	s.Flow = model.Normal + model.Flow(rng.IntN(2))
	s.Plants = model.Plants(rng.IntN(2))
	if s.Method == model.Planted {
		s.Method = model.Dosed
	}
	if s.Method != model.FishIn {
		f.target, s.Target, s.Given.Target = float64(unit.MgIon(2).N(unit.Ammonia)), 0, false
	}
	return f
}
