package fit

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"

	"ripen/engine/par"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"
)

// spread fills xs with a quasi-random sample of standard normals: points that fill the unit cube
// evenly, moved by the same random step around it (Cranley & Patterson 1976, SIAM J. Numer. Anal.
// 13:904-914), put through the normal's quantiles.
func spread(xs []z, seed uint64) {
	rng := rand.New(rand.NewPCG(seed, 1))
	var moved z
	for d := range moved {
		moved[d] = rng.Float64()
	}
	points := even.first(len(xs))
	par.Each(len(xs), func() func(int) {
		return func(i int) {
			for d, v := range points.RawRowView(i) {
				_, v = math.Modf(v + moved[d])
				xs[i][d] = distuv.UnitNormal.Quantile(max(v, 0x1p-53))
			}
		}
	})
}

// even are points of an Owen-scrambled Halton sequence, always the same, which take longer to make
// than to move. Every second point of the sequence lies in the same half of the first dimension, whose
// base is two. In blocks that double they therefore come in random order: the first 2^k are as
// even as before, and every second of them is as any half would be.
var even halton

type halton struct {
	mu     sync.Mutex
	points *mat.Dense
}

// first returns the first n, or more.
func (h *halton) first(n int) *mat.Dense {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.points == nil || h.points.RawMatrix().Rows < n {
		rows := Draws
		for rows < n {
			rows *= 2
		}
		h.points = mat.NewDense(rows, dims, nil)
		src := rand.NewPCG(1, 2)
		samplemv.Halton{Kind: samplemv.Owen, Q: shares{}, Src: src}.Sample(h.points)
		for from, upto := 0, 64; from < rows; from, upto = upto, 2*upto {
			block := h.points.Slice(from, upto, 0, dims).(*mat.Dense)
			block.PermuteRows(rand.New(src).Perm(upto-from), false)
		}
	}
	return h.points
}

// shares is the quantile function of independent numbers spread evenly over 0..1.
type shares struct{}

func (shares) Quantile(x, p []float64) []float64 {
	if x == nil {
		return slices.Clone(p)
	}
	copy(x, p)
	return x
}
