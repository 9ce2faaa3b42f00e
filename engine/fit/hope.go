package fit

import (
	"math"
	"sync"
)

// hope is the most log-likelihood that a sight and those after it, up to the last one that counts in
// full, brought any draw of the last generation; its last element, after that sight, is nil.
// Readings could bring far more, were a tank just as they have it day after day; as no draw comes
// near that, runs that will not be accepted can be stopped days earlier.
type hope []float64

// Draws to come may do better than all of the last generation by better. Of those that would be
// accepted less than one in a thousand does so by more, and is lost.
const better = 0.25

// enoughToHope is how many draws accepted tell what may be hoped for.
const enoughToHope = 64

// hopes returns, by sight, the most that those from it to upto-1 can add to like + share·inc,
// of which inc begins at sight from, the first that c.hope does not know.
func (c *cloud) hopes(from, upto int, share float64) []float64 {
	most := c.b.most
	out := make([]float64, upto+1)
	for i := range out {
		out[i] = share * (most[upto] - most[max(i, from)])
		if i < from {
			out[i] += min(most[from]-most[i], c.hope[i]+better)
		}
	}
	return out
}

// grow takes in the sights from..upto-1, which brought best at most.
func (c *cloud) grow(from, upto int, best float64) {
	h := make(hope, upto+1)
	for i := range h {
		if i < from {
			h[i] = c.hope[i] + best
		} else {
			h[i] = c.b.most[upto] - c.b.most[i]
		}
	}
	c.hope = h
}

// rest makes room for what a chain finds of the sights before from.
func (w *worker) rest(from int) {
	if cap(w.best) < from {
		w.best, w.room = make([]float64, from), make([]float64, from)
	}
	w.best, w.room = w.best[:from], w.room[:from]
	for i := range w.best {
		w.best[i] = math.Inf(-1)
	}
}

// gathered is the hope of a new generation.
type gathered struct {
	mu   sync.Mutex
	hope hope
	of   int // so many draws
}

// add takes in what one of its chains found.
func (g *gathered) add(best []float64, accepted int) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.of += accepted; g.hope == nil {
		g.hope = make(hope, len(best)+1)
		for i := range best {
			g.hope[i] = math.Inf(-1)
		}
	}
	for i, v := range best {
		g.hope[i] = max(g.hope[i], v)
	}
}
