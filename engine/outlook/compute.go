package outlook

import (
	"fmt"
	"math"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/kit"
	"ripen/engine/model"
	"ripen/engine/par"
	"ripen/engine/unit"

	"gonum.org/v1/gonum/stat/distuv"
)

// Courses runs every draw of the posterior until it is done, at least to day
// until, and returns one course for each. keep, if not nil, is called for each
// draw at each whole day, from several goroutines.
func Courses(p *fit.Posterior, until float64, keep func(draw, day int, q model.Pools)) []model.Course {
	return courses(p, until, nil, nil, keep)
}

// courses is Courses under a doubt for each draw, and from what stands, unless they are nil.
func courses(p *fit.Posterior, until float64, s *Standing, doubt func(draw int) model.Doubt, keep func(draw, day int, q model.Pools)) []model.Course {
	out := make([]model.Course, len(p.Draws))
	model.Each(len(p.Draws), func(on *model.Lane) func(int) {
		run := on.Run()
		var past model.Past
		way := -1
		return func(i int) {
			if w := p.Way(i); w != way {
				past.Turn(p.Stands(i))
				way = w
			}
			p.Resume(i, run)
			run.Share(&past)
			if s != nil {
				run.To(s.now, nil)
				s.Put(run, i)
			}
			if doubt != nil {
				run.Suppose(doubt(i))
			}
			var k func(int, model.Pools)
			if keep != nil {
				k = func(day int, q model.Pools) { keep(i, day, q) }
			}
			out[i] = run.Finish(until, k)
		}
	})
	return out
}

// Of projects a fitted tank.
func Of(p *fit.Posterior) Outlook {
	p = Shown(p)
	now := p.Plan.Now
	next := math.Min(math.Floor(now)+gap(&p.Plan.Case, now), p.Plan.End())
	at := make([]model.Pools, len(p.Draws))
	stood, crash := Stands(p), crashed(&p.Plan.Case, now)
	courses := courses(p, next, stood, Doubted, func(draw, day int, q model.Pools) {
		if day == int(next) {
			at[draw] = q
		}
	})
	o := Outlook{Day: now, Horizon: p.Plan.End(), Readings: p.Readings, ESS: p.ESS, Assumed: p.Assumed, KeepUp: keepUp(p.Plan), PassedOnce: passedOnce(p.Plan), DoseNow: doseNow(p.Plan)}

	done := foretold(p, courses)
	slices.Sort(done)
	o.Done = quantiles(done)
	o.ChanceDoneOn = func(day float64) float64 { return share(done, day) }
	o.ChanceBy = map[int]float64{}
	for _, d := range []int{7, 14, 30, 60} {
		o.ChanceBy[d] = share(done, now+float64(d))
	}
	o.ChanceNotWithin = 1 - share(done, p.Plan.End())
	o.Stage, o.Again = stage(p, courses)
	if stood != nil {
		o.Again = o.Again || o.Stage != stood.what.String() && o.Stage != unit.Ammonia.String()
		o.Stage = stood.what.String()
		o.Stands = stood.says(crash, now)
		o.Assumed = append(slices.Clone(o.Assumed), o.Stands)
	}
	o.Crash = Crash(&p.Plan.Case, unit.Days(now))
	if o.Against = against(p); (o.Against != "" || o.Crash != "") && o.Stage == "ready" {
		o.Stage = "proving"
	}
	o.Milestones = milestones(courses)
	o.Next = NextReading{Day: next,
		Ammonia: seen(p, at, unit.Ammonia), Nitrite: seen(p, at, unit.Nitrite), Nitrate: seen(p, at, unit.Nitrate)}
	o.Course = course(p, stood, o.Done, now)
	o.Fit, o.Odd = Quality(p)
	if set := &p.Plan.Case.Setup; p.Plan.Rationed() {
		o.Rationed = true
		text := "done means that the filter carries the food or animals you told of with ammonia and nitrite both below 0.25 mg/L, since a tank with animals is never dosed to try it"
		if set.Rationed() {
			text += "; target: holds it to a dose instead"
		}
		o.Assumed = append(slices.Clone(o.Assumed), text)
	} else if set.Method == model.FishIn && !set.Given.Target {
		o.Assumed = append(slices.Clone(o.Assumed), "done means that the filter carries a day's ammonia of a stock that grows, 0.5 to 1 mg/L, since a tank with animals is never dosed to try it; target: sets it to a fixed value")
	}
	if o.Untold = nothingGiven(p.Plan); o.Untold {
		more := ""
		if firstDose(p.Plan) != nil { // the assumed one
			more = " else"
		}
		o.Assumed = append(slices.Clone(o.Assumed), fmt.Sprintf("nothing%s that bacteria live on was given in %.0f days, since no ammonia, food or animals were told; if there were any, note them with /log at: as what:dose, what:feed or what:stock, or say method:fish-in with /tank edit, and ask again", more, now))
	} else if first := firstDose(p.Plan); first != nil && first.Assumed && untilRead(p.Plan) >= idle {
		o.Assumed = append(slices.Clone(o.Assumed), "that it went in then; all days move with it, so if it was later, note it with /log what:dose at: its day")
	}
	return o
}

// firstDose is the first dose on record or assumed, nil without one.
func firstDose(p *model.Plan) *model.Event {
	for i, e := range p.Case.Events {
		if e.Kind == model.Dose && !e.Perhaps && float64(e.Day) <= p.Now {
			return &p.Case.Events[i]
		}
	}
	return nil
}

// untilRead is how many days passed before ammonia was first read; 0 if it was not.
func untilRead(p *model.Plan) float64 {
	for _, r := range p.Case.Readings {
		if r.Ammonia != nil && float64(r.Day) <= p.Now {
			return float64(r.Day)
		}
	}
	return 0
}

// idle is how many days a tank may go without ammonia before that is said: a keeper who
// has yet to begin does so within them. Common practice, no source.
const idle = 14

// nothingGiven holds if a tank that is dosed to start it has stood for long without
// any ammonia, food or animals on record, also none that its readings show. A first dose that
// is assumed though nothing was read is none on record.
func nothingGiven(p *model.Plan) bool {
	m := p.Case.Setup.Method
	if p.Now < idle || m != model.Dosed && m != model.Seeded || p.Case.Setup.Start.N(unit.Ammonia) > 0 {
		return false
	}
	for _, e := range p.Case.Events {
		switch e.Kind {
		case model.Dose, model.FeedOnce, model.Stocked:
			if float64(e.Day) <= p.Now && !e.Perhaps && (!e.Assumed || anyRead(p)) {
				return false
			}
		}
	}
	return true
}

// anyRead says whether ammonia was read up to now.
func anyRead(p *model.Plan) bool {
	return slices.ContainsFunc(p.Case.Readings, func(r model.Reading) bool { return r.Ammonia != nil && float64(r.Day) <= p.Now })
}

// What no fitted tank foresees of the days still to come. It takes full effect
// from three readings on, as before them the spread of the prior covers it in
// part. Sizes were found on simulated tanks that follow other laws than the
// model's; see study.Truth.
const (
	// drift is the spread of the days still to come, on the log scale: keepers,
	// seasons and bacteria do not go on just as the readings so far say.
	drift = 0.65
	// coldDrift is the same before any reading.
	coldDrift = 0.2
	// misjudged is how far, on the log scale, what a challenge leaves strays from
	// the best draw's: as far as readings do in package fit.
	misjudged = 0.30
	// beyond is the share of tanks that do what no draw knows of. All that is known of
	// such a tank is its age, which is an even share of the whole (Gott 1993,
	// Nature 363:315-319): as likely as not it takes as long again. Since no tank is
	// done at once, its age is counted from young days before its start.
	beyond, young = 0.20, 10
)

// even is the share of i in a sequence that fills 0..1 evenly, another one for
// each irrational step.
func even(i int, step float64) float64 { return math.Mod((float64(i)+0.5)*step, 1) }

// Doubted is what an outlook supposes for draw i: a challenge that ends a little
// other; a keeper who looks at the tank between somewhat less often than the log
// tells and nearly daily, since not every look leads to a dose, but not all is logged
// either and many look more often near the end; and who sees sooner or later, or
// never, that its hardness is used up.
func Doubted(i int) model.Doubt {
	return model.Doubt{
		Trial:     math.Exp(misjudged * distuv.UnitNormal.Quantile(even(i, math.Sqrt(3)))),
		Diligence: 1.2*even(i, math.Phi) - 0.3,
		Notice:    even(i, math.Sqrt(6)),
	}
}

// unforeseen stretches or shortens what is left of draw i's days by drift, or, for a
// share beyond of the draws, goes by the tank's age alone.
func unforeseen(i int, done, now float64, readings int, s strays) float64 {
	told := min(float64(readings)/3, 1)
	if done <= now {
		return done
	}
	if share := even(i, math.Sqrt(11)); share < told*s.beyond {
		return (now+young)*told*s.beyond/share - young
	}
	if math.IsInf(done, 1) {
		return done
	}
	spread := coldDrift + (s.drift-coldDrift)*told
	return now + (done-now)*math.Exp(spread*distuv.UnitNormal.Quantile(even(i, math.Sqrt2)))
}

// gap is how many days to the next reading: the usual gap so far, 1 to 3.
func gap(c *model.Case, now float64) float64 {
	var days []float64
	last := 0.0
	for _, r := range c.Readings {
		if d := float64(r.Day); d <= now && d > last+0.3 {
			days = append(days, d-last)
			last = d
		}
	}
	if len(days) == 0 {
		return 2
	}
	slices.Sort(days)
	return min(max(math.Round(days[len(days)/2]), 1), 3)
}

func milestones(cs []model.Course) []Milestone {
	get := []struct {
		name string
		of   func(*model.Course) float64
	}{
		{"ammonia-clear", func(c *model.Course) float64 { return c.AmmoniaClear }},
		{"nitrite-peak", func(c *model.Course) float64 { return c.NitritePeak }},
		{"nitrite-clear", func(c *model.Course) float64 { return c.NitriteClear }},
	}
	var out []Milestone
	for _, g := range get {
		var days []float64
		for i := range cs {
			d := g.of(&cs[i])
			if math.IsNaN(d) {
				d = math.Inf(1)
			}
			days = append(days, d)
		}
		slices.Sort(days)
		out = append(out, Milestone{g.name, quantiles(days)})
	}
	return out
}

// seen is what kits will likely show of one species, their error included.
func seen(p *fit.Posterior, at []model.Pools, sp unit.Species) Quantiles {
	c := kit.For(p.Plan.Case.LastKit(unit.Days(p.Plan.Now)), sp)
	v := make([]float64, len(at))
	for i := range at {
		noise := c.Sigma * distuv.UnitNormal.Quantile(even(i, math.Sqrt(10)))
		k := p.Kit(i)
		v[i] = max((k.Shows(at[i], sp)+c.Floor)*math.Exp(noise)-c.Floor, 0)
	}
	slices.Sort(v)
	return quantilesTo(v, 0.01)
}

// course is the daily projection for a chart, from a few hundred draws.
func course(p *fit.Posterior, s *Standing, done Quantiles, now float64) []Point {
	end := now + 7
	switch {
	case done.P90 != nil:
		end = max(end, min(*done.P90+3, now+60))
	case done.P50 != nil:
		end = max(end, min(*done.P50+14, now+60))
	default:
		end = now + 45
	}
	last := int(min(math.Ceil(end), p.Plan.End()))
	few := p.Thin(256)
	n := len(few.Draws)
	shown := make([][3]float64, n*(last+1))
	model.Each(n, func(on *model.Lane) func(int) {
		run := on.Run()
		return func(i int) {
			k := few.Kit(i)
			keep := func(day int, q model.Pools) {
				for sp := range shown[day*n+i] {
					shown[day*n+i][sp] = k.Shows(q, unit.Species(sp))
				}
			}
			if past := few.Pools(i); past != nil {
				few.Resume(i, run)
				for day := range int(run.Day) {
					keep(day+1, past[day])
				}
			} else {
				run.Reset(few.Plan, &few.Draws[i])
			}
			if s != nil {
				run.Watch(math.Floor(now), keep)
				run.To(now, nil)
				s.Put(run, i)
			}
			run.Watch(float64(last), keep)
		}
	})
	out := make([]Point, last)
	par.Each(last, func() func(int) {
		v := make([]float64, n)
		return func(k int) {
			day := k + 1
			of := func(sp unit.Species) (Quantiles, Half) {
				for i := range n {
					v[i] = shown[day*n+i][sp]
				}
				slices.Sort(v)
				return quantilesTo(v, 0.01), Half{v[n/4], v[3*n/4]}
			}
			p := &out[k]
			p.Day = float64(day)
			p.Ammonia, p.AmmoniaHalf = of(unit.Ammonia)
			p.Nitrite, p.NitriteHalf = of(unit.Nitrite)
			p.Nitrate, p.NitrateHalf = of(unit.Nitrate)
		}
	})
	return out
}

// Quality grades the fit by the share of values looked at that neither a draw nor hardness that was
// used up explains, as in [Outlook], and names them.
func Quality(p *fit.Posterior) (grade string, odd []string) {
	if p.Readings == 0 {
		return "none", nil
	}
	values := 0
	for i := range p.Plan.Case.Readings {
		for _, told := range p.Plan.Tells(i) {
			if told > 0 {
				values++
			}
		}
	}
	crash, left := crashed(&p.Plan.Case, p.Plan.Now), 0 // odd readings that nothing explains
	for _, x := range p.Odd {
		r := &p.Plan.Case.Readings[x.Reading]
		if crash.explains(x, r) {
			continue
		}
		left++
		s := r.Of(x.Species)
		than := "lower"
		if x.Over {
			than = "higher"
		}
		odd = append(odd, fmt.Sprintf("%s %g on day %d is %s than the rest of the log explains", x.Species, s.Low, p.Plan.Case.DayOf(r.Day), than))
	}
	n := float64(left)
	switch {
	case n >= 3 && n > 0.3*float64(values):
		return "poor", odd
	case n >= 2 && n > 0.12*float64(values), Stands(p) != nil && !crash.goesOn(p.Plan.Now):
		return "strained", odd
	}
	return "good", odd
}

// quantiles of sorted days, to a tenth; nil where past the horizon.
func quantiles(x []float64) Quantiles { return quantilesTo(x, 0.1) }

func quantilesTo(x []float64, grain float64) Quantiles {
	at := func(q float64) *float64 {
		v := x[min(int(q*float64(len(x))), len(x)-1)]
		if math.IsInf(v, 0) || math.IsNaN(v) {
			return nil
		}
		v = math.Round(v/grain) * grain
		v = math.Round(v*1e6) / 1e6
		return &v
	}
	return Quantiles{at(0.1), at(0.5), at(0.9)}
}

// share of sorted x at or below v, to a thousandth.
func share(x []float64, v float64) float64 {
	i, _ := slices.BinarySearchFunc(x, v, func(a, b float64) int {
		if a <= b {
			return -1
		}
		return 1
	})
	return math.Round(1000*float64(i)/float64(len(x))) / 1000
}
