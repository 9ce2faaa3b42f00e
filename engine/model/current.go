package model

// Current returns the set-up as it stands at Now: that of day 0 with all changes,
// what was added or lost, and the last temperature read. PH and KH are the last
// that were told, not those of the water, which move by themselves.
func (p *Plan) Current() Setup { return p.conds[len(p.conds)-1].Setup }

// Setup returns the same as it stands at the run's day.
func (r *Run) Setup() Setup { return r.plan.conds[r.seg].Setup }
