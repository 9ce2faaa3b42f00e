package pool

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// drawn are tanks that are done, whose true scores are normal with that mean and spread, read
// with errors as fits of 15 readings have them.
func drawn(n int, seed uint64, band Band, mean, sd float64) (all []Tank) {
	rng := rand.New(rand.NewPCG(seed, 0))
	for range n {
		t := Tank{Band: band, Done: true}
		for k := range t.Mean {
			x, e2 := mean+sd*rng.NormFloat64(), 0.1+0.5*rng.Float64()
			y := x + math.Sqrt(misfit*e2)*rng.NormFloat64()
			t.Var[k] = 1 / (1 + 1/e2) // under the general prior
			t.Mean[k] = t.Var[k] * y / e2
		}
		all = append(all, t)
	}
	return all
}

var tap, well = Band{"6.8 to 7.6", "0"}, Band{"above 7.6", "2"}

// What a tank's readings alone say comes back from its posterior.
func TestAlone(t *testing.T) {
	got := Tank{Mean: [2]float64{0.8}, Var: [2]float64{0.4}}.alone(0) // N(0, 1) times N(y, e2)
	if e2 := 1 / (1/0.4 - 1); math.Abs(got.e2-misfit*e2) > 1e-12 || math.Abs(got.y-0.8/0.4*e2) > 1e-12 {
		t.Errorf("alone it says %+v", got)
	}
}

// A club that differs is found, and what was learnt of it foretells better.
func TestLearnFindsTheClub(t *testing.T) {
	p := Learn(drawn(100, 1, tap, 0.8, 0.4))
	if p.Level != Club || p.Gain < 0.3 || p.Version == "" {
		t.Fatalf("learnt %+v", p)
	}
	for _, n := range p.Club {
		if math.Abs(n.Mean-0.8) > 0.2 || n.SD < 0.25 || n.SD > 0.6 {
			t.Errorf("learnt %+v, want about 0.8 and 0.4", n)
		}
	}
}

// A club like any other is left to the general prior, or what is learnt is close to it: of
// 60 such clubs the mean gain on tanks to come is not below nothing by more than a hair.
func TestLearnLeavesOthersAlone(t *testing.T) {
	used, gain := 0, 0.0
	for seed := range uint64(60) {
		p := Learn(drawn(20, 100+seed, tap, 0, 1))
		if p.Level == None {
			continue
		}
		used++
		for _, t := range drawn(200, 1000+seed, tap, 0, 1) {
			for k := range t.Mean {
				s := t.alone(k)
				gain += (logNormal(s.y, p.Club[k].Mean, p.Club[k].SD*p.Club[k].SD+s.e2) - logNormal(s.y, 0, 1+s.e2)) / 200 / 60
			}
		}
	}
	if used > 6 || gain < -0.01 {
		t.Errorf("used in %d of 60, for %.3f nats a tank", used, gain)
	}
}

// Two bands that differ are kept apart, and a band of one tank is drawn to the club.
func TestLearnBands(t *testing.T) {
	few := Band{"below 6.8", "3"}
	tanks := slices.Concat(drawn(25, 3, tap, -0.7, 0.4), drawn(25, 4, well, 0.9, 0.4), drawn(1, 5, few, 0, 0.4))
	p := Learn(tanks)
	if p.Level != ByBand || len(p.Bands) != 3 {
		t.Fatalf("learnt %+v", p)
	}
	of := map[Band]BandPrior{}
	for _, b := range p.Bands {
		of[b.Band] = b
	}
	a, b, c := of[tap].Scores[0].Mean, of[well].Scores[0].Mean, of[few].Scores[0].Mean
	if a > -0.2 || b < 0.4 || math.Abs(c-p.Club[0].Mean) > 0.3 {
		t.Errorf("bands are at %.2f and %.2f, the small one at %.2f, the club at %.2f", a, b, c, p.Club[0].Mean)
	}
	set := model.Setup{PH: 8, Source: model.Well}
	if got, ok := p.For(&set); !ok || got != of[well].Scores {
		t.Errorf("for hard well water it is %v", got)
	}
	set = model.Setup{PH: 8, Source: model.RO}
	if got, ok := p.For(&set); !ok || got != p.Club {
		t.Errorf("for a band without tanks it is %v", got)
	}
}

func TestLearnNeedsSome(t *testing.T) {
	if p := Learn(drawn(Least-1, 1, tap, 2, 0.2)); p.Level != None || p.Version != "" || p.Tanks != Least-1 {
		t.Errorf("of few it learnt %+v", p)
	}
}

// Tanks that are not done yet count as soon as enough are: where those alone are the quick
// ones of a club like any other, what is learnt does not lean to them.
func TestLearnFromTanksOnTheirWay(t *testing.T) {
	all := drawn(60, 9, tap, 0, 1)
	var quick []Tank
	for i := range all {
		if all[i].Done = all[i].alone(0).y > 0.3; all[i].Done {
			quick = append(quick, all[i])
		}
	}
	if p := Learn(quick); p.Club[0].Mean < 0.5 {
		t.Fatalf("the quick ones alone teach %+v; the test tells nothing", p)
	}
	if p := Learn(all); p.Level != None || math.Abs(p.Club[0].Mean) > 0.25 || p.Tanks != 60 || p.Done != len(quick) {
		t.Errorf("with the others it learnt %+v", p)
	}
	for i := range all {
		all[i].Done = i < Least-1
	}
	if p := Learn(all); p.Level != None || p.Club != [2]Normal{} {
		t.Errorf("with too few that are done it learnt %+v", p)
	}
}

// The order of tanks does not matter, and one tank less makes another version.
func TestLearnDeterministic(t *testing.T) {
	tanks := drawn(30, 1, tap, 0.8, 0.4)
	p := Learn(tanks)
	slices.Reverse(tanks)
	if q := Learn(tanks); !reflect.DeepEqual(p, q) {
		t.Errorf("turned round it learnt %+v, before %+v", q, p)
	}
	if q := Learn(tanks[1:]); q.Version == p.Version {
		t.Errorf("without one it is still %s", q.Version)
	}
}

// Leaving one out by sums is the same as pooling the others anew.
func TestLeaveOneOut(t *testing.T) {
	tanks := drawn(10, 2, tap, 0.5, 0.5)
	want := 0.0
	for j, tank := range tanks {
		rest := slices.Delete(slices.Clone(tanks), j, j+1)
		for k := range 2 {
			d, own := club(rest, k), tank.alone(k)
			want += (logNormal(own.y, d.Mean, d.SD*d.SD+own.e2) - logNormal(own.y, 0, 1+own.e2)) / 10
		}
	}
	if got, _ := leaveOneOut(tanks, Club); math.Abs(got-want) > 1e-9 {
		t.Errorf("by sums %g, anew %g", got, want)
	}
}

// simulated is a tank of the model whose nitrifiers begin at those scores, read and fitted.
func simulated(i int, mean, sd float64) *fit.Posterior {
	rng := rand.New(rand.NewPCG(7, uint64(i)))
	c := model.Case{Setup: model.Setup{Volume: 60, PH: 7.6, KH: unit.DKH(6).CaCO3(), Temp: 26, Media: model.Sponge, MediaVolume: 1,
		Flow: model.Normal, Conditioner: true, Target: unit.MgIon(2).N(unit.Ammonia)}}
	c.Setup.Given = model.Given{PH: true, KH: true, Temp: true, Media: true, MediaVolume: true}
	for _, day := range []unit.Days{0.1, 8, 14, 20} {
		c.Events = append(c.Events, model.Event{Kind: model.Dose, Day: day, Seq: int(day), N: c.Setup.Target})
	}
	const last = 24
	plan := model.NewPlan(c, last)
	d := fit.NewDensity(plan, fit.Hypothesis{})
	var x fit.Scores
	for k := range x {
		x[k] = 0.3 * rng.NormFloat64() // little else differs, so that the seeds are what is learnt
	}
	for _, k := range fit.Seeds {
		x[k] = mean + sd*rng.NormFloat64()
	}
	params := d.Params(&x)
	var run model.Run
	run.Reset(plan, &params)
	for day := 2.5; day < last; day += 2 {
		run.To(day, nil)
		seen := d.Read(run.State.Pools(), model.Liquid, &x, rng)
		c.Readings = append(c.Readings, model.Reading{Day: unit.Days(day), Seq: 100, Ammonia: seen[0], Nitrite: seen[1]})
	}
	return fit.Fit(c, last, fit.Hypothesis{}, 512)
}

// From readings to what the club has in common: tanks of the model that begin with more
// than the general prior has, but for their number.
func TestLearnFromReadings(t *testing.T) {
	var tanks []Tank
	for i := range 12 {
		tanks = append(tanks, Of(simulated(i, 1, 0.3)))
		tanks[i].Done = true
	}
	p := Learn(tanks)
	if p.Level == None || p.Club[0].Mean < 0.4 || p.Club[0].SD > 0.95 {
		t.Errorf("learnt %+v", p)
	}
}

// A posterior under what was learnt is that under the general prior times the ratio of
// both: for a normal one, normal again.
func TestApply(t *testing.T) {
	post := fit.Fit(model.Case{Setup: model.Setup{Volume: 60, PH: 7.6, KH: 100, Temp: 25, MediaVolume: 1, Target: 1.5}}, 0, fit.Hypothesis{}, fit.Draws)
	p := Prior{Level: Club, Club: [2]Normal{{0.8, 0.5}, {-0.5, 0.7}}}
	got := Of(p.Apply(post)) // before any reading the posterior is the prior
	for k, n := range p.Club {
		if math.Abs(got.Mean[k]-n.Mean) > 0.1 || math.Abs(math.Sqrt(got.Var[k])-n.SD) > 0.1 {
			t.Errorf("score %d is %.2f ± %.2f, want %+v", k, got.Mean[k], math.Sqrt(got.Var[k]), n)
		}
	}
	if q := (Prior{}).Apply(post); q != post {
		t.Error("a prior that holds nothing changes the posterior")
	}
	far := Prior{Level: Club, Club: [2]Normal{{6, 0.1}, {6, 0.1}}}.Apply(post)
	if len(far.Draws) != fit.Draws || far.ESS < enough*fit.Draws*0.9 {
		t.Errorf("of what no draw comes near %.0f draws are left", far.ESS)
	}
}

func TestSystematic(t *testing.T) {
	if got := fmt.Sprint(systematic([]float64{0.5, 0, 0.25, 0.25})); got != "[0 0 2 3]" {
		t.Errorf("took %s", got)
	}
}
