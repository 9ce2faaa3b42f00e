package fit

import (
	"math"
	"math/rand/v2"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// Density is the posterior that Fit samples, laid open so that the sampler can
// be checked from outside: what a draw means, how likely it makes the readings,
// and what readings a tank of that kind would give.
type Density struct {
	b     *problem
	hopes []float64 // by sight, the most that it and those after it can bring
}

// Scores is one draw of all unknowns, each a standard normal a priori.
type Scores = z

// names of the unknowns, by index of Scores.
var names = [dims]string{
	seedAO: "seed AO", seedNOB: "seed NOB", ratioAOA: "ratio AOA", ratioCMX: "ratio comammox",
	growA: "growth AO", growN: "growth NOB", halfA: "half-saturation AO", halfN: "half-saturation NOB", decay: "decay", area: "area", source: "source", plant: "plants",
	phOffset: "pH offset", alkRatio: "alkalinity", phMin: "pH limit", freeNH3: "free NH3",
	biasNH: "bias NH4", biasNO2: "bias NO2", biasNO3: "bias NO3", tapNO3: "tap NO3", harm: "harm",
	chlorine: "chlorine", gift: "gift", dose: "dose", unseenDay: "unseen day", unseenKill: "unseen loss",
	nitrateLoss: "NO3 loss", ask: "ask", rise: "rise", special: "special", silent: "silent keeper",
}

// Name returns the name of unknown i, an index of Scores.
func Name(i int) string { return names[i] }

// NewDensity lays open the posterior of a plan under a hypothesis. Its readings
// are those of the plan's case up to the plan's now.
func NewDensity(plan *model.Plan, h Hypothesis) *Density {
	d := &Density{b: newProblem(plan, h)}
	most := d.b.most
	for _, m := range most {
		d.hopes = append(d.hopes, most[len(most)-1]-m)
	}
	return d
}

// Active lists the unknowns that the readings can tell something about; Fit
// leaves the others at their prior.
func (d *Density) Active() []int { return d.b.active }

// Params returns the parameters that scores stand for.
func (d *Density) Params(x *Scores) (p model.Params) {
	d.b.params(x, &p)
	return p
}

// LogLike returns the log-likelihood of all readings given scores, and whether
// it reached atLeast; where it did not, the value is only known to lie below.
func (d *Density) LogLike(x *Scores, atLeast float64) (float64, bool) {
	n := len(d.b.sights)
	if n == 0 {
		return 0, atLeast <= 0
	}
	p := d.Params(x)
	var run model.Run
	run.Reset(d.b.plan, &p)
	var w watch
	w.begin(d.b, d.b.lens(x), 0, 0, n)
	w.share, w.bound, w.hopes = 1, atLeast, d.hopes
	ok := run.To(d.b.day(n-1), w.see)
	return w.inc, ok
}

// Read draws what a member would note of the pools with a kit, from the very
// distribution whose probabilities make up the likelihood: the kit's bias, its
// error widened by the misfit, the chart, and the blunders. Of its equally
// likely slots a blunder may hit one that the chart lacks; then nothing is
// noted (nil), which tells the fit nothing, as it should. Meters have no chart,
// so that the bins of their readings overlap: they cannot be drawn this way.
func (d *Density) Read(q model.Pools, k model.Kit, x *Scores, rng *rand.Rand) (seen [3]*model.Seen) {
	for sp := range seen {
		c := kit.For(k, unit.Species(sp))
		e, u, slot := rng.NormFloat64(), rng.Float64(), int(rng.Float64()/blunderProb)
		v := view(q, unit.Species(sp))
		if sp == int(unit.Ammonia) {
			v += d.b.bound(x)
		}
		v *= math.Exp(d.b.prior.Bias[sp] * x[biasNH+sp])
		step, _ := c.Nearest((v+c.Floor)*math.Exp(e*math.Hypot(c.Sigma, misfit[sp])) - c.Floor)
		if u < blunder {
			if slot >= len(c.Steps) {
				continue
			}
			step = c.Steps[slot]
		}
		seen[sp] = &model.Seen{Low: step, High: step}
	}
	return seen
}
