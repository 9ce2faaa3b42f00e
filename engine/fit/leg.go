package fit

import (
	"math"

	"ripen/engine/model"
)

// legMost is how many visits a leg holds at most.
const legMost = 12

// leg is a stretch of visits that a draw's run went in one go, ahead of what was taken in: that
// costs less than to stop at each, and changes nothing.
type leg struct {
	from, upto int              // visits, none after a renewal
	like       [legMost]float64 // by visit, the log-likelihood of its sights
}

// reach brings all runs to visit v or beyond.
func (c *cloud) reach(v int) {
	b := c.b
	if v >= c.end {
		c.end = c.ahead(v)
	}
	c.behind = c.behind[:0]
	for i, t := range c.twin {
		if t == i && c.leg[i].upto <= v {
			c.behind = append(c.behind, i)
		}
	}
	first, last := b.first(v), b.visits[c.end-1]
	c.each(len(c.behind), func(k int, w *worker) {
		i := c.behind[k]
		w.begin(b, c.lens[i], first, first, last.upto)
		w.leg, w.visit = &c.leg[i], v
		*w.leg = leg{from: v, upto: c.end}
		c.run[i].Ride(w.on)
		c.run[i].To(last.day, w.note)
		c.run[i].Ride(nil)
	})
}

// ahead returns the visit before which runs that begin with visit v stop: they go as far as no renewal
// is likely, since that leaves most of them behind, and no further than twice as far as from the last one.
func (c *cloud) ahead(v int) int {
	b := c.b
	far := 1
	if left := c.scale.ess / float64(len(c.x)); left > enough && left < 1 {
		more := float64(c.since) * math.Log(left/enough) / -math.Log(left) // visits, were each to cost as much
		far = min(max(int(more), 1), max(2*c.since, 2), legMost)
	}
	end := v + 1
	for end < min(v+far, len(b.visits)) && len(b.matters(b.visits[end].day)) == len(c.active) {
		end++
	}
	return end
}

// noted keeps what a sight of a leg tells.
func (w *worker) noted(reading int, r *model.Run) bool {
	if b := w.b; w.at < w.upto && b.sights[w.at].reading == reading {
		if w.at == b.visits[w.visit].upto {
			w.visit++
		}
		w.leg.like[w.visit-w.leg.from] += b.sights[w.at].logLike(r.State.Pools(), &w.l)
		w.at++
	}
	return true
}
