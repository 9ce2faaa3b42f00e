package commands

import (
	"math"

	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/store"
)

// generalPrior names what the engine believes of any tank before the club's own told it more.
const generalPrior = "general"

// keep keeps an outlook as it was given, so that it can be held against what came.
func (c *call) keep(t store.Tank, o outlook.Outlook) error {
	x := store.Outlook{Tank: t.ID, Asked: c.spec.Name, Own: c.Member == t.Member, At: c.At, Day: o.Day, Stage: o.Stage, Readings: o.Readings,
		Engine: c.book.version, Prior: generalPrior}
	if c.prior.Level != pool.None {
		x.Prior = c.prior.Version
	}
	for i, q := range store.Quantiles {
		x.Done[i] = o.DoneBy(q)
	}
	d := &x.Done
	for i, told := range map[int]*float64{1: o.Done.P10, 3: o.Done.P50, 5: o.Done.P90} { // as they were shown
		if d[i] = math.Inf(1); told != nil {
			d[i] = *told
		}
	}
	d[0], d[2], d[4], d[6] = min(d[0], d[1]), min(max(d[2], d[1]), d[3]), min(max(d[4], d[3]), d[5]), max(d[6], d[5])
	return storeError(c.book.store.KeepOutlook(c.ctx, x), t.Name)
}
