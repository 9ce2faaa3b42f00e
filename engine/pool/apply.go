package pool

import (
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
)

// For returns the distributions of the two scores for a set-up; false if the general
// prior holds.
func (p Prior) For(s *model.Setup) (scores [2]Normal, ok bool) {
	if p.Level == None {
		return scores, false
	}
	b := BandOf(s)
	for _, x := range p.Bands {
		if x.Band == b {
			return x.Scores, true
		}
	}
	return p.Club, true
}

// Worth is by how many nats p foretells the true scores of a tank better than the general
// prior does.
func (p Prior) Worth(s *model.Setup, truth [2]float64) (nats float64) {
	scores, ok := p.For(s)
	if !ok {
		return 0
	}
	for k, x := range truth {
		nats += logNormal(x, scores[k].Mean, scores[k].SD*scores[k].SD) - logNormal(x, 0, 1)
	}
	return nats
}

// enough is the share of draws that have to be left, in effect, by weighing: below, the
// weights are made milder.
const enough = 0.1

// Apply turns a posterior under the general prior into that under p: draws are taken anew
// by how much likelier p has them than the general prior. It returns the posterior itself
// where p has nothing to say.
func (p Prior) Apply(post *fit.Posterior) *fit.Posterior {
	if p.Level == None {
		return post
	}
	n := len(post.Scores)
	logw := make([]float64, n)
	for i := range logw {
		var x [2]float64
		for k, at := range fit.Seeds {
			x[k] = post.Scores[i][at]
		}
		logw[i] = p.Worth(&post.Plan.Case.Setup, x)
	}
	w, ess := weights(logw, 1)
	for mild := 0.9; ess < enough*float64(n); mild *= 0.9 {
		w, ess = weights(logw, mild)
	}
	q := post.Pick(systematic(w))
	q.ESS = min(q.ESS, ess)
	return q
}

// weights are exp(mild·logw) with a sum of one, and their effective number.
func weights(logw []float64, mild float64) (w []float64, ess float64) {
	top := math.Inf(-1)
	for _, l := range logw {
		top = max(top, mild*l)
	}
	sum, squares := 0.0, 0.0
	w = make([]float64, len(logw))
	for i, l := range logw {
		w[i] = math.Exp(mild*l - top)
		sum += w[i]
		squares += w[i] * w[i]
	}
	for i := range w {
		w[i] /= sum
	}
	return w, sum * sum / squares
}

// systematic takes as many draws as there are weights, evenly along their sum. Nothing of
// it is left to chance.
func systematic(w []float64) []int {
	out := make([]int, len(w))
	j, sum := 0, w[0]
	for i := range out {
		for at := (float64(i) + 0.5) / float64(len(w)); sum < at && j < len(w)-1; {
			j++
			sum += w[j]
		}
		out[i] = j
	}
	return out
}
