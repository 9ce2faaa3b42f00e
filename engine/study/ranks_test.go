package study

import (
	"math/rand/v2"
	"testing"
)

// TestUniformNotices: over 500 tanks the test of ranks passes a right fit, and
// no fit of which one posterior in ten is three tenths too narrow, or four tenths
// of a standard deviation to one side.
func TestUniformNotices(t *testing.T) {
	ranks := func(shift, narrow float64, seed uint64) []Ranks {
		rng := rand.New(rand.NewPCG(seed, 9))
		all := make([]Ranks, 10)
		for i := range all {
			all[i].Draws = ranked
			for range 500 {
				truth, below := rng.NormFloat64(), 0
				for range ranked {
					if i == 0 && shift+narrow*rng.NormFloat64() < truth || i > 0 && rng.NormFloat64() < truth {
						below++
					}
				}
				all[i].Rank = append(all[i].Rank, below)
			}
		}
		return all
	}
	for seed := range uint64(20) {
		if !Uniform(ranks(0, 1, seed)) {
			t.Errorf("seed %d: ranks of a right fit are called uneven", seed)
		}
		if Uniform(ranks(0, 0.7, seed)) {
			t.Errorf("seed %d: one unknown in ten too narrow by three tenths is not noticed", seed)
		}
		if Uniform(ranks(0.4, 1, seed)) {
			t.Errorf("seed %d: one unknown in ten off by four tenths of a deviation is not noticed", seed)
		}
	}
}
