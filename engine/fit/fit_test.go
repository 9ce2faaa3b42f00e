package fit

import (
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"testing"

	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// setup is a dosed 60 L tank with everything stated.
func setup() model.Setup {
	s := model.Setup{Volume: 60, PH: 7.5, KH: unit.DKH(6).CaCO3(), Temp: 25, Media: model.Sponge, MediaVolume: 0.6,
		Flow: model.Normal, Conditioner: true}
	s.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true, Flow: true, Source: true, Conditioner: true}
	return model.Typical(s)
}

// told is the log of a tank that runs as par says: dosed when clear, read every
// second day up to day n by a liquid kit with biases, by rng.
func told(par *model.Params, n int, bias [3]float64, rng *rand.Rand) model.Case {
	c := model.Case{Setup: setup()}
	c.Events = append(c.Events, model.Event{Kind: model.Dose, N: c.Setup.Target})
	for d := 1; d <= n; d++ {
		r := model.NewPlan(c, unit.Days(d)).Start(par)
		r.To(float64(d), nil)
		q := r.State.Pools()
		if d%2 == 0 {
			look := func(sp unit.Species) *model.Seen {
				ch := kit.For(model.Liquid, sp)
				v := (view(q, sp)*bias[sp]+ch.Floor)*math.Exp(ch.Sigma*rng.NormFloat64()) - ch.Floor
				step, _ := ch.Nearest(v)
				return &model.Seen{Low: step, High: step}
			}
			c.Readings = append(c.Readings, model.Reading{Day: unit.Days(d),
				Ammonia: look(unit.Ammonia), Nitrite: look(unit.Nitrite), Nitrate: look(unit.Nitrate)})
		}
		if q.N(unit.Ammonia) < model.ClearTAN {
			c.Events = append(c.Events, model.Event{Day: unit.Days(d), Seq: 1, Kind: model.Dose, N: c.Setup.Target})
		}
	}
	return c
}

func ordinary() model.Params {
	p := model.Central()
	p.Seed = [model.Guilds]float64{model.AOB: 0.008, model.AOA: 0.008, model.CMX: 0.005, model.NOB: 0.008}
	return p
}

var noBias = [3]float64{1, 1, 1}

// TestSameWhateverTheCores: the posterior is the same, bit for bit, on one core
// and on many, and on a second run.
func TestSameWhateverTheCores(t *testing.T) {
	par := ordinary()
	c := told(&par, 14, noBias, rand.New(rand.NewPCG(1, 1)))
	many := Fit(c, 14, Hypothesis{}, 512)
	before := runtime.GOMAXPROCS(1)
	defer runtime.GOMAXPROCS(before)
	one := Fit(c, 14, Hypothesis{}, 512)
	if !slices.Equal(one.Scores, many.Scores) || one.Evidence != many.Evidence {
		t.Error("the draws differ between one core and many")
	}
	if n := len(Fit(c, 14, Hypothesis{}, Draws).Draws); n < 2000 {
		t.Errorf("%d draws, want 2000 at least", n)
	}
}

// aobPrior is about how the seed of AOB alone varies a priori.
var aobPrior = logNormal{0.016, 1.6}

// TestRecovers: seeds and growth that made the readings lie within the central
// 98 % of the posterior, and the readings, long enough to see the slow tank's nitrite, narrow the prior.
func TestRecovers(t *testing.T) {
	if testing.Short() {
		t.Skip("fits several tanks in full")
	}
	prior := PriorFor(&model.Setup{Given: model.Given{PH: true, KH: true, MediaVolume: true}})
	for k, truth := range []model.Params{ordinary(), slow(), quick()} {
		c := told(&truth, 30, noBias, rand.New(rand.NewPCG(uint64(k), 7)))
		p := Fit(c, 30, Hypothesis{}, Draws)
		for _, u := range []struct {
			name   string
			of     func(*model.Params) float64
			prior  logNormal
			shrink float64
		}{
			{"AOB seed", func(p *model.Params) float64 { return p.Seed[model.AOB] }, aobPrior, 1},
			{"NOB seed", func(p *model.Params) float64 { return p.Seed[model.NOB] }, prior.SeedNOB, 0.9},
			{"growth of ammonia oxidisers", func(p *model.Params) float64 { return p.GrowA }, prior.GrowA, 1.05},
			{"growth of nitrite oxidisers", func(p *model.Params) float64 { return p.GrowN }, prior.GrowN, 1.05},
		} {
			var x []float64
			var mean, sq float64
			for i := range p.Draws {
				v := math.Log(u.of(&p.Draws[i]))
				x = append(x, v)
				mean += v / float64(len(p.Draws))
			}
			for _, v := range x {
				sq += (v - mean) * (v - mean) / float64(len(x))
			}
			slices.Sort(x)
			want := math.Log(u.of(&truth))
			lo, hi := x[len(x)/100], x[len(x)*99/100]
			t.Logf("tank %d, %s: true %.2f, posterior %.2f to %.2f, sd %.2f of %.2f", k, u.name, want, lo, hi, math.Sqrt(sq), u.prior.sd)
			if want < lo || want > hi {
				t.Errorf("tank %d, %s: the true %.2f lies outside %.2f to %.2f", k, u.name, want, lo, hi)
			}
			if sd := math.Sqrt(sq); sd > u.shrink*u.prior.sd {
				t.Errorf("tank %d, %s: sd %.2f, prior %.2f: the readings taught nothing", k, u.name, sd, u.prior.sd)
			}
		}
	}
}

func slow() model.Params {
	p := ordinary()
	p.Seed[model.AOB], p.Seed[model.NOB], p.GrowN = 0.002, 0.001, 0.85
	return p
}

func quick() model.Params {
	p := ordinary()
	p.Seed[model.AOB], p.Seed[model.NOB], p.GrowA = 0.04, 0.05, 1.2
	return p
}

// TestOneAbsurdReading: a single wrong reading moves the median AOB seed by
// less than the posterior's own spread, and is reported as odd.
func TestOneAbsurdReading(t *testing.T) {
	if testing.Short() {
		t.Skip("fits several tanks in full")
	}
	par := ordinary()
	c := told(&par, 20, noBias, rand.New(rand.NewPCG(3, 1)))
	clean := Fit(c, 20, Hypothesis{}, Draws)
	i := slices.IndexFunc(c.Readings, func(r model.Reading) bool { return r.Day == 16 })
	bad := c
	bad.Readings = slices.Clone(c.Readings)
	bad.Readings[i].Ammonia = &model.Seen{Low: 8, High: 8}
	wrong := Fit(bad, 20, Hypothesis{}, Draws)
	seed := func(p *Posterior) (mid, spread float64) {
		var x []float64
		for i := range p.Draws {
			x = append(x, math.Log(p.Draws[i].Seed[model.AOB]))
		}
		slices.Sort(x)
		return x[len(x)/2], x[len(x)*84/100] - x[len(x)*16/100]
	}
	a, s := seed(clean)
	b, _ := seed(wrong)
	t.Logf("median log seed %.2f, with the absurd reading %.2f, spread %.2f", a, b, s)
	if math.Abs(a-b) > s {
		t.Errorf("one absurd reading moves the median from %.2f to %.2f, spread %.2f", a, b, s)
	}
	if !slices.ContainsFunc(wrong.Odd, func(o Odd) bool { return o.Reading == i && o.Species == unit.Ammonia && o.Over }) {
		t.Errorf("the absurd reading is not among the odd ones: %+v", wrong.Odd)
	}
	if len(clean.Odd) > 2 {
		t.Errorf("odd readings in a clean log: %+v", clean.Odd)
	}
}

// TestEvidence: the marginal likelihood prefers what happened, on the mean of
// several logs of one tank. A tank that lost most of its bacteria unlogged is
// better explained with an unseen event; a tank that lost none is not.
func TestEvidence(t *testing.T) {
	if testing.Short() {
		t.Skip("fits several tanks in full")
	}
	ratio := func(kill float64) float64 {
		const logs = 5
		sum := 0.0
		for seed := range uint64(logs) {
			par := ordinary()
			par.Unseen = model.Unseen{Day: 7.5, Kill: kill}
			c := told(&par, 18, noBias, rand.New(rand.NewPCG(seed, 5)))
			sum += Fit(c, 18, Hypothesis{Unseen: true, To: 18}, 1024).Evidence - Fit(c, 18, Hypothesis{}, 1024).Evidence
		}
		return sum / logs
	}
	lost, kept := ratio(0.97), ratio(0)
	t.Logf("mean log evidence ratio for an unseen loss: %.1f when there was one, %.1f when not", lost, kept)
	if lost < 2 || kept > 0 {
		t.Errorf("mean log evidence ratios %.1f with a loss and %.1f without; want above 2 and below 0", lost, kept)
	}
}
