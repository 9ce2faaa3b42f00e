package model

// Current returns the set-up as it stands at Now: that of day 0 with all changes,
// what was added or lost, and the last temperature read. PH and KH are the last
// that were told, not those of the water, which move by themselves.
func (p *Plan) Current() Setup { return p.conds[len(p.conds)-1].Setup }
