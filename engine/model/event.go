package model

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// lose takes away a share of all guilds; what is lost rots.
func (r *Run) lose(share float64) {
	for i := range r.State.B {
		d := r.State.B[i] * share
		r.State.B[i] -= d
		r.State.Org += d
	}
}

// event applies a logged event.
func (r *Run) event(e *Event) {
	s := &r.State
	vol := max(float64(r.plan.conds[r.seg].Volume), 0.1)
	switch e.Kind {
	case Dose:
		if e.Perhaps && !(r.p.Silent && s.TAN < float64(ClearTAN) && s.NO2 < float64(holdNO2)) {
			return
		}
		r.dose(float64(e.N)*r.p.Dose, e.Salt)
	case FeedOnce:
		n := FoodN * float64(e.Mass) / vol * r.p.Source
		s.Org += n
		r.Ledger.In += n
	case WaterChange:
		r.changeWater(e.Fraction, e.Treated)
	case Buffer:
		s.Alk += float64(e.Alk.Meq()) // CO2 stays, so pH follows
	case Seed:
		r.seed(e, vol)
	case Culture:
		r.culture(e.Content)
	case NitriteRemoved:
		out := e.Fraction * s.NO2
		s.NO2 -= out
		r.Ledger.Out += out
	case Cleaned:
		share := 0.25
		if e.Harsh || e.Treated == No {
			share = 0.6
		}
		if e.Fraction > 0 {
			share *= e.Fraction
		}
		r.lose(1 - math.Pow(1-share, r.p.Harm))
	}
}

// dose adds ammonia; a solution brings its alkalinity along, a salt does not.
func (r *Run) dose(n float64, salt bool) {
	r.State.TAN += n
	r.Ledger.In += n
	if !salt {
		r.State.Alk += n / unit.MolarN
	}
	r.jump()
}

// changeWater replaces a share of the water by the source's.
func (r *Run) changeWater(f float64, treated Treated) {
	s, c := &r.State, &r.plan.conds[r.seg]
	out := f * (s.TAN + s.NO2 + s.NO3)
	s.TAN *= 1 - f
	s.NO2 *= 1 - f
	s.NO3 *= 1 - f
	s.NO3 += f * r.p.TapNO3
	r.Ledger.Out += out
	r.Ledger.In += f * r.p.TapNO3
	// New water has the set-up's alkalinity; RO and rain are taken as made up to
	// what the member keeps, since nobody runs a tank on water without any.
	s.Alk += f * (float64(c.KH.Meq())*r.p.AlkRatio - s.Alk)
	if treated == No || treated == AsHabit && !c.Conditioner {
		switch c.Source {
		case Chlorinated:
			s.Cl += f * tapChlorine
		case Chloraminated:
			s.Cl += f * tapChlorine
			n := f * tapChlorine * chem.AmmoniaNPerChloramine
			s.TAN += n
			r.Ledger.In += n
		}
	}
	r.jump()
	if s.Cl > 0 {
		r.h = min(r.h, 0.01)
	}
}

// tapChlorine is the residual in tap water, mg Cl2/L: 0.5 to 1 (common
// practice, no source; water companies keep 0.5 typically, below 1 surely).
const tapChlorine = 0.8
