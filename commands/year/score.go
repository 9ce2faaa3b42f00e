package year

import (
	"math"

	"ripen/store"
)

// horizon is the last day that outlooks and the truth tell of; what is later counts as that
// day, so that slow tanks are not left out.
const horizon = 180

// levelShares are the parts of 0 to 1 that each of store.Quantiles stands for: it reaches
// half way to its neighbours.
var levelShares = func() (w [7]float64) {
	from := 0.0
	for i, q := range store.Quantiles {
		upto := 1.0
		if i+1 < len(store.Quantiles) {
			upto = (q + store.Quantiles[i+1]) / 2
		}
		w[i], from = upto-from, upto
	}
	return w
}()

// crps is the continuous ranked probability score, in days, of a forecast of which seven
// quantiles are known: twice the pinball loss, meaned over the levels (Laio & Tamea 2007,
// Hydrol. Earth Syst. Sci. 11:1267; Gneiting & Raftery 2007, J. Am. Stat. Assoc. 102:359,
// section 6.1). Less is better; of a certain forecast it is how many days that is off. Where
// the truth lies within it comes out some 10 % too small, as seven levels are few, but it is
// best for the right quantiles, which is what a comparison needs.
func crps(done [7]float64, truth float64) (s float64) {
	for i, level := range store.Quantiles {
		off := truth - min(done[i], horizon)
		s += levelShares[i] * 2 * max(level*off, (level-1)*off)
	}
	return s
}

// intervalScore is that of the 80 % range (Gneiting & Raftery 2007, equation 43): its width,
// and ten times by how much it misses.
func intervalScore(done [7]float64, truth float64) float64 {
	low, high := min(done[1], horizon), min(done[5], horizon)
	return high - low + 10*max(low-truth, 0, truth-high)
}

// held says whether the 80 % range holds the truth.
func held(done [7]float64, truth float64) bool {
	return min(done[1], horizon) <= truth && truth <= min(done[5], horizon)
}

// meanOf returns the mean and its standard error, which one alone has not (NaN).
func meanOf(xs []float64) (m, se float64) {
	n := float64(len(xs))
	for _, x := range xs {
		m += x / n
	}
	for _, x := range xs {
		se += (x - m) * (x - m)
	}
	return m, math.Sqrt(se / (n - 1) / n)
}
