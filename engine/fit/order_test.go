package fit

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// busy is a log with several entries on its days, each list by day and Seq.
func busy() model.Case {
	truth := ordinary()
	c := told(&truth, 12, noBias, rand.New(rand.NewPCG(4, 31)))
	for i := range c.Readings {
		c.Readings[i].Seq = 2
	}
	for _, d := range []unit.Days{4, 8} {
		c.Events = append(c.Events, model.Event{Day: d, Seq: 3, Kind: model.WaterChange, Fraction: 0.4},
			model.Event{Day: d, Seq: 4, Kind: model.Dose, N: 1})
	}
	slices.SortStableFunc(c.Events, byMoment)
	return c
}

func byMoment(a, b model.Event) int {
	if a.Day != b.Day {
		return int(math.Copysign(1, float64(a.Day-b.Day)))
	}
	return a.Seq - b.Seq
}

// likes are the log-likelihoods of some draws of the prior.
func likes(c model.Case, now unit.Days) (out [40]float64) {
	full, _ := model.Complete(c, now)
	d := NewDensity(model.NewPlan(full, now), Hypothesis{})
	rng := rand.New(rand.NewPCG(5, 5))
	for i := range out {
		var x Scores
		for j := range x {
			x[j] = rng.NormFloat64()
		}
		out[i], _ = d.LogLike(&x, math.Inf(-1))
	}
	return out
}

// TestOrderWithinADay: how events are listed within a day means nothing, since
// Seq tells their order, nor does it matter whether what was read at one moment
// is told as one reading or several.
func TestOrderWithinADay(t *testing.T) {
	const now = 12
	c := busy()
	want := likes(c, now)
	same := func(what string, c model.Case) {
		for i, got := range likes(c, now) {
			if math.Abs(got-want[i]) > 1e-9*math.Abs(want[i]) {
				t.Errorf("%s: log-likelihood %.6f, want %.6f", what, got, want[i])
				return
			}
		}
	}

	back := c
	back.Events = slices.Clone(c.Events)
	slices.Reverse(back.Events)
	slices.SortStableFunc(back.Events, func(a, b model.Event) int { return byMoment(model.Event{Day: a.Day}, model.Event{Day: b.Day}) })
	if slices.Equal(back.Events, c.Events) {
		t.Fatal("the events are in order still")
	}
	same("events of a day listed backwards", back)

	for seq := range 2 { // told at one moment, one after the other
		apart := c
		apart.Readings = nil
		for _, r := range c.Readings {
			a, b := r, r
			a.Nitrite, b.Ammonia, b.Nitrate, b.Seq = nil, nil, nil, r.Seq
			a.Seq, b.Seq = 10*r.Seq, 10*r.Seq+seq
			apart.Readings = append(apart.Readings, a, b)
		}
		apart.Events = slices.Clone(c.Events)
		for i := range apart.Events {
			apart.Events[i].Seq *= 10
		}
		same([]string{"told at one moment", "told one after the other"}[seq], apart)
	}

	late := c // a dose before the reading of its day instead of after is another log
	late.Events = slices.Clone(c.Events)
	for i := range late.Events {
		late.Events[i].Seq = 0
	}
	if likes(late, now) == want {
		t.Error("doses before the readings of a day are taken for doses after them")
	}
}

// TestToldTwice: a value told a second time at the same moment tells nothing, be it one
// or all of them, and another value told then a tenth of what it would by itself.
func TestToldTwice(t *testing.T) {
	const days = 14
	truth := ordinary()
	c := told(&truth, days, noBias, rand.New(rand.NewPCG(4, 42)))
	once := likes(c, days)
	twice, again := c, c
	twice.Readings = nil
	for _, r := range c.Readings {
		twice.Readings = append(twice.Readings, r, r)
	}
	again.Readings = slices.Insert(slices.Clone(c.Readings), 3, c.Readings[3])
	if likes(twice, days) != once || likes(again, days) != once {
		t.Error("what is told twice tells more")
	}

	other := c
	r := model.Reading{Day: c.Readings[3].Day, Nitrite: &model.Seen{Low: 3, High: 3}}
	other.Readings = slices.Insert(slices.Clone(c.Readings), 4, r)
	alone := c // its logarithms of probability, by itself
	alone.Readings = []model.Reading{r}
	want := likes(alone, days)
	for i, got := range likes(other, days) {
		// Alone, a run makes fewer stops, so other steps.
		if d := got - once[i]; math.Abs(d-0.1*want[i]) > 1e-3*math.Abs(want[i]) {
			t.Fatalf("another value at the same moment adds %.6f to a log-likelihood of %.3f, want a tenth of %.6f", d, once[i], want[i])
		}
	}
}

// TestMissingValues: with a kit for one species alone, or a gap of a fortnight
// between two readings, truths lie within the central 98 % of the posterior
// nearly always (all but three of forty allowed), spreads are no smaller than
// with everything read (a tenth is left to chance).
func TestMissingValues(t *testing.T) {
	if testing.Short() {
		t.Skip("fits several logs")
	}
	const days, n, tanks = 16, 512, 8
	keep := func(c model.Case, want func(i int, sp unit.Species) bool) model.Case {
		c.Readings = slices.Clone(c.Readings)
		for i := range c.Readings {
			r := &c.Readings[i]
			for sp, x := range [...]**model.Seen{&r.Ammonia, &r.Nitrite, &r.Nitrate} {
				if !want(i, unit.Species(sp)) {
					*x = nil
				}
			}
		}
		return c
	}
	for _, x := range []struct {
		what string
		want func(i int, sp unit.Species) bool
	}{
		{"only ammonia", func(_ int, sp unit.Species) bool { return sp == unit.Ammonia }},
		{"only nitrite", func(_ int, sp unit.Species) bool { return sp == unit.Nitrite }},
		{"a fortnight without", func(i int, _ unit.Species) bool { return i == 0 || i == 7 }},
	} {
		out, ratio := 0, 0.0
		for k := range uint64(tanks) {
			truth := some(rand.New(rand.NewPCG(k, 51)))
			c := told(&truth, days, noBias, rand.New(rand.NewPCG(k, 52)))
			whole, p := Fit(c, days, Hypothesis{}, n), Fit(keep(c, x.want), days, Hypothesis{}, n)
			for _, u := range toldAbout {
				a, b := logs(whole, u.of), logs(p, u.of)
				ratio += math.Log(b.sd/a.sd) / float64(tanks*len(toldAbout))
				if !b.holds(math.Log(u.of(&truth)), 0.98) {
					out++
					t.Logf("tank %d, %s: the %s lies outside", k, x.what, u.name)
				}
			}
			if !done(p).holds(doneDay(p.Plan, &truth), 0.98) {
				out++
				t.Logf("tank %d, %s: the done day lies outside", k, x.what)
			}
		}
		t.Logf("%s: %d of %d truths outside 98 %%, spreads %.2f times those with everything read", x.what, out, tanks*(len(toldAbout)+1), math.Exp(ratio))
		if out > 3 {
			t.Errorf("%s: %d truths lie outside the central 98 %%", x.what, out)
		}
		if math.Exp(ratio) < 0.9 {
			t.Errorf("%s: spreads %.2f times those with everything read, want no less", x.what, math.Exp(ratio))
		}
	}
}
