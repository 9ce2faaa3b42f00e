package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/fit"
	"ripen/engine/outlook"
)

// ranked is among how many draws of a posterior a truth is ranked.
const ranked = 63

// doneDay names the one quantity that is no unknown: the day on which the tank
// is done.
const doneDay = "done day"

// Progress is told how many of the tanks are done; nil asks for silence.
type Progress func(done, of int)

func (p Progress) tell(done, of int) {
	if p != nil {
		p(done, of)
	}
}

// Calibrate draws tanks from the prior, lets the model keep and read them, fits
// each with so many draws, and ranks the true value of each unknown, and the
// true done day, among 63 draws taken evenly from the posterior. draws must be
// 64 or more. The log is fitted as it is, without what model.Complete would
// infer from it, since that is no part of the density.
func Calibrate(tanks, draws int, seed uint64, p Progress) []Ranks {
	var truth fit.Scores
	all := make([]Ranks, len(truth)+1)
	for i := range truth {
		all[i] = Ranks{Name: fit.Name(i), Draws: ranked}
	}
	all[len(truth)] = Ranks{Name: doneDay, Draws: ranked}
	for tank := range tanks {
		rng := rand.New(rand.NewPCG(seed, uint64(tank)))
		k := keepTank(rng)
		post := fit.FitPlan(k.plan, nil, k.hyp, draws).Thin(ranked)
		d := fit.NewDensity(k.plan, k.hyp)
		for _, i := range d.Active() {
			below := 0
			for j := range post.Scores {
				if post.Scores[j][i] < k.truth[i] {
					below++
				}
			}
			all[i].Rank = append(all[i].Rank, below)
		}
		done := &all[len(truth)]
		done.Rank = append(done.Rank, doneRank(&k, d, post, rng))
		p.tell(tank+1, tanks)
	}
	var out []Ranks
	for _, r := range all {
		if len(r.Rank) > 0 {
			out = append(out, r)
		}
	}
	return out
}

// doneRank ranks the true done day. Days past the horizon are alike: among them
// the rank is drawn.
func doneRank(k *kept, d *fit.Density, post *fit.Posterior, rng *rand.Rand) int {
	par := d.Params(&k.truth)
	truth := k.plan.Start(&par).Finish(0, nil).Done
	below, like := 0, 0
	for _, c := range outlook.Courses(post, 0, nil) {
		switch {
		case c.Done < truth:
			below++
		case c.Done == truth || math.IsInf(c.Done, 1) && math.IsInf(truth, 1):
			like++
		}
	}
	return below + rng.IntN(like+1)
}
