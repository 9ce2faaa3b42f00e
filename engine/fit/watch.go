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
	hopes          []float64 // by sight, the most that like + share·inc may still grow by
	like, inc      float64   // log-likelihood of those before from, and from there on
	passed         []float64 // room for what like was before each sight, or none
}

// begin looks through a lens at sights from at on, without bound.
func (w *watch) begin(b *problem, l lens, at, from, upto int) {
	*w = watch{b: b, l: l, at: at, from: from, upto: upto, bound: math.Inf(-1)}
}

// see takes in a reading. It says whether like + share·inc can still reach the bound.
func (w *watch) see(reading int, r *model.Run) bool {
	if w.at >= w.upto || w.b.sights[w.at].reading != reading {
		return true
	}
	l := w.b.sights[w.at].logLike(r.State.Pools(), &w.l)
	if w.at < w.from {
		if w.at < len(w.passed) {
			w.passed[w.at] = w.like
		}
		w.like += l
	} else {
		w.inc += l
	}
	w.at++
	return math.IsInf(w.bound, -1) || w.like+w.share*w.inc+w.hopes[w.at] >= w.bound
}
