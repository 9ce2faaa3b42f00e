package commands

import (
	"slices"

	"ripen/engine/outlook"
	"ripen/store"
)

// generalPrior names what the engine believes of any tank before the club's own told it more.
const generalPrior = "general"

// keep keeps an outlook as it was given, so that it can be held against what came.
func (c *call) keep(t store.Tank, o outlook.Outlook) error {
	x := store.Outlook{Tank: t.ID, Asked: c.spec.Name, Own: c.Member == t.Member, At: c.At, Day: o.Day, Stage: o.Stage, Readings: o.Readings,
		Engine: c.book.version, Prior: generalPrior}
	for i, q := range store.Quantiles {
		x.Done[i] = o.DoneBy(q)
	}
	for i, told := range []*float64{o.Done.P10, o.Done.P50, o.Done.P90} { // as they were shown
		if told != nil {
			x.Done[slices.Index(store.Quantiles[:], []float64{0.1, 0.5, 0.9}[i])] = *told
		}
	}
	slices.Sort(x.Done[:])
	return storeError(c.book.store.KeepOutlook(c.ctx, x), t.Name)
}
