package fit

import (
	"math"

	"ripen/engine/model"
)

// watch adds up what the sights on a run's way tell.
type watch struct {
	b              *problem
	l              lens
	at, from, upto int // the next sight; where another share of each counts; up to which
	share, bound   float64
	like, inc      float64 // log-likelihood of those before from, and from there on
}

// begin looks at sights from at on, without bound.
func (w *watch) begin(b *problem, x *z, at, from, upto int) {
	*w = watch{b: b, l: b.lens(x), at: at, from: from, upto: upto, bound: math.Inf(-1)}
}

// see takes in a reading. It says whether like + share·inc can still reach the bound.
func (w *watch) see(reading int, r *model.Run) bool {
	if w.at >= w.upto || w.b.sights[w.at].reading != reading {
		return true
	}
	l := w.b.sights[w.at].logLike(r.State.Pools(), &w.l)
	if w.at < w.from {
		w.like += l
	} else {
		w.inc += l
	}
	w.at++
	return math.IsInf(w.bound, -1) || w.like+w.share*w.inc+w.b.hope(w.at, w.from, w.upto, w.share) >= w.bound
}

// hope is the most that the sights at..upto-1 can add to like + share·inc.
func (b *problem) hope(at, from, upto int, share float64) float64 {
	mid := max(at, from)
	return b.most[mid] - b.most[at] + share*(b.most[upto]-b.most[mid])
}
