package fit

import "ripen/engine/model"

// Seeds are the unknowns of what a tank began with, as indices of Scores: ammonia
// oxidisers, nitrite oxidisers. Packages that pool tanks read them.
var Seeds = [2]int{seedAO, seedNOB}

// Pick returns a posterior of the draws with these indices, in that order; one may
// come several times.
func (p *Posterior) Pick(draws []int) *Posterior {
	t := *p
	n := len(draws)
	t.Draws, t.Scores, t.at, t.of = make([]model.Params, n), make([]z, n), make([]int, n), make([]int, n)
	for i, j := range draws {
		t.Draws[i], t.Scores[i] = p.Draws[j], p.Scores[j]
		t.at[i], t.of[i] = p.run(j), p.before(j)
	}
	return &t
}
