package study

import (
	"math"
	"math/rand/v2"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"

	"gonum.org/v1/gonum/stat"
)

// Slack is by how much a mean or a quantile of the fit may differ from that of
// the walk beyond chance, in standard deviations of the posterior. With an
// error of that size an 80 % interval of a normal posterior holds the truth
// 79.5 % of the time.
const Slack = 0.15

// Chance is how many standard errors of a difference are laid to chance.
const Chance = 3

// Walking is how fits are compared with walks, tank by tank. Walks and Fits
// must be 2 or more.
type Walking struct {
	Walks, Steps int // so many random walks of so many steps, after a quarter more to warm up
	Thin         int // every so-manieth state is kept
	Fits, Draws  int // the mean of so many fits of so many draws each
}

// Agreement compares one quantity of one tank between the walks and the fits:
// an unknown, in scores, or the done day, in days and at most the horizon.
type Agreement struct {
	Tank      string
	Name      string
	SD        float64 // standard deviation of the posterior, by the walks
	walk, fit moments
	walkErr   moments // standard errors of walk
	oneFit    moments // standard deviations among the fits
	fits      float64 // how many
}

// Off returns by how much the fits differ from the walks, and by how much they
// may, in standard deviations of the posterior: in the mean and in the 10, 50
// and 90 % points.
func (a *Agreement) Off() (off, may [4]float64) {
	if a.SD == 0 { // all of the posterior is past the horizon
		if a.fit != a.walk {
			off[0] = math.Inf(1)
		}
		return off, may
	}
	for i := range off {
		off[i] = (a.fit[i] - a.walk[i]) / a.SD
		may[i] = Slack + Chance*math.Hypot(a.walkErr[i], a.oneFit[i]/math.Sqrt(a.fits))/a.SD
	}
	return off, may
}

// OK says whether all four agree.
func (a *Agreement) OK() bool {
	off, may := a.Off()
	for i := range off {
		if math.Abs(off[i]) > may[i] {
			return false
		}
	}
	return true
}

// batchesPerWalk is in how many pieces each walk is cut for its standard errors.
const batchesPerWalk = 5

// compare walks over the posterior of a kept tank, fits it, and compares its
// active unknowns and its done day. It returns the share of steps that
// succeeded as well.
func (how Walking) compare(tank string, k *kept, rng *rand.Rand) (out []Agreement, accepted float64) {
	d := fit.NewDensity(k.plan, k.hyp)
	states, accepted := walks(d, how, rng)
	posts := make([]*fit.Posterior, how.Fits)
	for i := range posts { // another number of draws makes all its chance another
		posts[i] = fit.FitPlan(k.plan, nil, k.hyp, how.Draws+i)
	}
	agree := func(name string, walked []float64, fitted func(*fit.Posterior) []float64) {
		a := Agreement{Tank: tank, Name: name, SD: stat.StdDev(walked, nil), fits: float64(how.Fits)}
		a.walk, a.walkErr = batched(walked, how.Walks*batchesPerWalk)
		var each []moments
		for _, p := range posts {
			each = append(each, momentsOf(fitted(p)))
		}
		a.fit, a.oneFit = varied(each)
		out = append(out, a)
	}
	for _, u := range d.Active() {
		agree(fit.Name(u), column(states, u), func(p *fit.Posterior) []float64 { return column(p.Scores, u) })
	}
	agree(doneDay, doneDays(k.plan, d, states), func(p *fit.Posterior) []float64 {
		v := make([]float64, len(p.Draws))
		for i, c := range outlook.Courses(p, 0, nil) {
			v[i] = min(c.Done, p.Plan.End())
		}
		return v
	})
	return out, accepted
}

// column is one unknown of many draws.
func column(xs []fit.Scores, unknown int) []float64 {
	v := make([]float64, len(xs))
	for i := range xs {
		v[i] = xs[i][unknown]
	}
	return v
}

// doneDays is the done day of each of many draws, at most the horizon.
func doneDays(plan *model.Plan, d *fit.Density, xs []fit.Scores) []float64 {
	v := make([]float64, len(xs))
	for i := range xs {
		par := d.Params(&xs[i])
		v[i] = min(plan.Start(&par).Finish(0, nil).Done, plan.End())
	}
	return v
}
