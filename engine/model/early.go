package model

import "math"

// Early is how the guilds of a draw fare at the start of its plan, with 2 mg N/L of ammonia
// and of nitrite: what they oxidise, mg N/L/d, and how fast they grow, 1/d.
type Early struct{ rate, growth [Guilds]float64 }

// Early returns it for a run that was just reset.
func (r *Run) Early() (e Early) {
	const ample = 2.0
	k := &r.k
	s := r.State
	s.TAN, s.NO2, s.B = ample, ample, [Guilds]float64{}
	var v pace
	k.paceOf(&s, &v)
	sA, _, _ := saturation(ample, v.kA, v.rA)
	sO, _, _ := saturation(ample, v.kO, v.rO)
	sC, _, _ := saturation0(ample, v.kC)
	sN, _, _ := saturation0(ample, k.halfN)
	sM, _, _ := saturation0(ample, k.halfM)
	b := &r.State.B
	e.rate = [Guilds]float64{AOB: v.a * sA * b[AOB], AOA: v.o * sO * b[AOA], CMX: v.c * sC * b[CMX], NOB: v.n * sN * b[NOB]}
	e.growth = [Guilds]float64{
		AOB: v.a*sA*v.yA - k.rest[AOB] - k.live[AOB]*sA,
		AOA: v.o*sO*v.yO - k.rest[AOA] - k.live[AOA]*sO,
		CMX: v.c*(sC*v.yC+sM*v.yM) - k.rest[CMX] - k.live[CMX]*sC,
		NOB: v.n*sN*v.yN - k.rest[NOB] - k.live[NOB]*sN,
	}
	return e
}

// Ammonia is how much the ammonia oxidisers would have oxidised after so many days of
// such growth, mg N/L.
func (e *Early) Ammonia(days float64) float64 {
	return e.oxidised(AOB, days) + e.oxidised(AOA, days) + e.oxidised(CMX, days)
}

// Nitrite is the same of nitrite oxidisers.
func (e *Early) Nitrite(days float64) float64 { return e.oxidised(NOB, days) }

func (e *Early) oxidised(i int, days float64) float64 {
	if g := e.growth[i]; math.Abs(g)*days > 1e-4 {
		return e.rate[i] * (math.Exp(g*days) - 1) / g
	}
	return e.rate[i] * days
}

// Reseed gives a run that was just reset the seeds of other parameters, which must be
// the same but for these.
func (r *Run) Reseed(par *Params) {
	s := &r.State
	r.p, r.k.p = par, par
	for i := range s.B {
		s.B[i] = capacityToN(i, par.Seed[i])
	}
	r.Ledger.In = s.Nitrogen()
}
