package model

import "ripen/engine/unit"

// Most of those who let food rot put no more in while ammonia reads tooMuch, mg/L, or more,
// and go on when it reads less; few note either. Common practice, no source.
const tooMuch unit.MgIon = 4

// rots holds if food rots in the tank, told of as so much a day.
func (c *condition) rots() bool { return c.Method == Food && c.Feed > 0 }

// High says whether total ammonia was read at 4 mg/L or more, from where on food is held
// off; a reading without ammonia is not high.
func (x *Reading) High() bool {
	return x.Ammonia != nil && x.Ammonia.Ion(unit.Ammonia) >= float64(tooMuch)
}

// holdOff stops the food, or begins with it again, if the keeper is one who does.
func (r *Run) holdOff(high bool) {
	if high == r.heldOff || !r.p.HoldsOff {
		return
	}
	r.heldOff, r.laid = high, false
	r.k.holdOff(high)
}

// holdOff sets what food gives off.
func (k *kin) holdOff(high bool) {
	k.fedTAN, k.fedOrg = k.firstTAN, k.firstOrg
	if high {
		k.fedTAN, k.fedOrg = 0, 0
	}
}
