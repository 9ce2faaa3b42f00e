package model

import "math"

// assimilate lets measured pH, KH, oxygen and chlorine correct the state: they
// are read on the tank itself, so they outweigh what was foreseen.
func (r *Run) assimilate(x *Reading) {
	if !x.corrects() {
		return
	}
	s := &r.State
	h := hydrogen(s.Alk, s.acid, r.k.kw)
	if x.KH != nil {
		s.Alk = alkAt(h, s.Alk+0.8*(float64(x.KH.Meq())-s.Alk), r.k.kw)
		if x.PH == nil {
			s.acid = acidFor(h, s.Alk, r.k.kw)
		}
	}
	if x.PH != nil {
		s.acid = acidFor(math.Pow(h, 0.3)*math.Pow(10, -0.7**x.PH), s.Alk, r.k.kw) // seven tenths of the way in pH
	}
	if x.Oxygen != nil {
		s.O2 = max(*x.Oxygen, 0.05)
		s.demand = max(r.k.kla*(r.k.satO2-s.O2), 0)
	}
	if x.Chlorine != nil {
		s.Cl = max(*x.Chlorine, 0)
	}
}

// corrects says whether the reading tells anything that outweighs what was foreseen.
func (x *Reading) corrects() bool {
	return x.PH != nil || x.KH != nil || x.Oxygen != nil || x.Chlorine != nil
}

// retell takes a pH and a KH that were told to hold from now on for measured.
func (r *Run) retell(c *condition) {
	var x Reading
	if c.retold.PH {
		x.PH = &c.PH
	}
	if c.retold.KH {
		x.KH = &c.KH
	}
	r.assimilate(&x)
}
