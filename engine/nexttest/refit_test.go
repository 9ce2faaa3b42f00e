package nexttest

import (
	"math"
	"math/rand/v2"
	"testing"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// TestRefits: what a reading is expected to tell is what it tells. Draws of a
// fitted tank stand for the true one, each is read on the best day with a noisy
// kit, and the log with that reading is fitted anew: on average the entropy of
// the done day has shrunk by what was expected. The tank has animals, so that
// nobody doses it in the days between.
func TestRefits(t *testing.T) {
	if testing.Short() {
		t.Skip("fits many tanks")
	}
	c := read([]float64{2, 5, 8, 11}, func(s *model.Setup) {
		s.Method, s.KH, s.Feed, s.Given.Feed = model.FishIn, unit.DKH(12).CaCO3(), 1, true
	})
	const now, draws, truths = 11.5, 512, 32
	p := outlook.Shown(fit.Fit(c, now, fit.Hypothesis{}, draws))
	a := Of(p)
	if a.Best == nil {
		t.Fatalf("nothing tells anything: %+v", a)
	}
	// Without what no fit foresees, which a later fit counts from a later day.
	g := newGain(finished(p), now, a.Horizon)
	rnd := rand.New(rand.NewPCG(7, 7))
	at := map[string]int{Ammonia: 0, Nitrite: 1, Nitrate: 2}[a.Best.What]
	sp := species[at]
	chart := kit.For(model.Liquid, sp)
	days := []float64{now}
	for d := math.Floor(now) + 1; d <= a.Best.Day; d++ {
		days = append(days, d)
	}
	views := ahead(p, days)[len(days)-1][at]
	expected := senses[at].of(p, g, views, a.Best.Day)
	left := 0.0
	for k := range truths {
		i := k * draws / truths
		err := math.Hypot(chart.Sigma, 0.3) // of the kit, and of the model as package fit has it
		v, top := chart.Nearest((views[i]+chart.Floor)*math.Exp(err*rnd.NormFloat64()) - chart.Floor)
		x := c
		r := model.Reading{Day: unit.Days(a.Best.Day)}
		*[...]**model.Seen{&r.Ammonia, &r.Nitrite, &r.Nitrate}[at] = &model.Seen{Low: v, High: v, Over: top}
		x.Readings = append(append([]model.Reading(nil), c.Readings...), r)
		q := fit.Fit(x, unit.Days(a.Best.Day), fit.Hypothesis{}, draws)
		left += g.surprise(finished(q)) / truths
	}
	told := g.entropy() - left
	t.Logf("%s on day %g told %.2f bits on average, expected %.2f of %.2f", a.Best.What, a.Best.Day, told, expected.Bits, g.entropy())
	// Of 32 tanks the mean is good to about 0.1 bits; 96 told 0.58 of 0.56 expected.
	if math.Abs(told-expected.Bits) > 0.25 {
		t.Errorf("told %.2f bits, expected %.2f", told, expected.Bits)
	}
}

// finished are the done days of the draws taken at their word.
func finished(p *fit.Posterior) []float64 {
	cs := outlook.Courses(p, 0, nil)
	done := make([]float64, len(cs))
	for i := range cs {
		done[i] = cs[i].Done
	}
	return done
}

// surprise is the entropy of done days in the stretches of g.
func (g *gain) surprise(done []float64) float64 {
	var edges [bins]float64 // the latest day of each stretch
	for i, d := range g.done {
		edges[g.bin[i]] = max(edges[g.bin[i]], d)
	}
	var count [bins]float64
	for _, d := range done {
		b := 0
		for b < bins-1 && min(max(d, g.now), 180) > edges[b] {
			b++
		}
		count[b] += 1 / float64(len(done))
	}
	return entropy(count[:])
}
