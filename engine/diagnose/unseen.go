package diagnose

import (
	"cmp"
	"math"

	"ripen/engine/chem"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// unseenDraws is how many draws each supposed event is fitted with.
const unseenDraws = 640

// suspect is an event that nobody logged, with its chance before the readings
// are looked at. Chances are common practice, no source.
type suspect struct {
	name  string
	prior float64
	hyp   fit.Hypothesis
	// undo takes the event out of a draw, so that its cost can be seen.
	undo func(*model.Params)
	day  float64     // of the log entry that raises the suspicion, or -1
	plan *model.Plan // what the log should have said; nil for as it is
}

// found is a suspect weighed against the readings.
type found struct {
	suspect
	chance, cost float64
	onset, loss  float64 // means over the draws
}

func noLoss(p *model.Params) { p.Unseen = model.Unseen{} }

// suspects lists what may have happened beyond the log.
func (s *study) suspects() []suspect {
	var out []suspect
	any := fit.Hypothesis{Unseen: true, From: 0, To: s.now}
	tap := s.c.Setup.Source <= model.Chloraminated
	if tap {
		n := 0
		changes := s.events(model.WaterChange)
		for i := len(changes) - 1; i >= 0 && n < 2; i-- {
			e := changes[i]
			d := float64(e.Day)
			if d > s.now-1 { // too fresh to show
				continue
			}
			p := 0.06
			if e.Treated == model.Yes {
				p = 0.03
			}
			out = append(out, suspect{name: "chlorine", prior: p, hyp: fit.Hypothesis{Unseen: true, From: d, To: d + 0.1}, undo: noLoss, day: d})
			n++
		}
		if plan, last := s.neverTreated(); plan != nil {
			p := 0.12
			if s.c.Setup.Given.Conditioner {
				p = 0.05
			}
			out = append(out, suspect{name: "chlorine", prior: p, plan: plan, day: last})
		}
		p := 0.04
		if !s.c.Setup.Conditioner { // any change that nobody wrote down did it
			p = 0.25
		}
		out = append(out, suspect{name: "chlorine", prior: p, hyp: any, undo: noLoss, day: -1})
	}
	for _, e := range s.events(model.Cleaned) {
		if d := float64(e.Day); !e.Harsh && d < s.now-1 { // perhaps less gently than was told
			out = append(out, suspect{name: "media-washed", prior: 0.12, hyp: fit.Hypothesis{Unseen: true, From: d, To: d + 0.1}, undo: noLoss, day: d})
		}
	}
	out = append(out,
		suspect{name: "filter-interrupted", prior: 0.07, hyp: any, undo: noLoss, day: -1},
		suspect{name: "media-washed", prior: 0.06, hyp: any, undo: noLoss, day: -1},
		suspect{name: "medication", prior: 0.03, hyp: any, undo: noLoss, day: -1})
	p := 0.05
	if len(s.events(model.Conditioned)) > 0 {
		p = 0.12
	}
	out = append(out, suspect{name: "test-artefact", prior: p, hyp: fit.Hypothesis{Bound: true}, day: -1})
	if s.c.Setup.Method == model.Dosed || s.c.Setup.Method == model.Seeded {
		p := 0.003
		if s.c.Setup.Source >= model.RO {
			p = 0.3
		}
		out = append(out, suspect{name: "low-phosphate", prior: p, hyp: fit.Hypothesis{Phosphate: true}, undo: func(p *model.Params) { p.Phos = 1 }, day: -1})
	}
	return out
}

// unseen weighs every suspect by how much better the readings are explained
// with it than without: chance = prior·ratio / (1 - all priors + sum of those).
func (s *study) unseen() []found {
	if s.post.Readings < 4 || s.now < 4 {
		return nil
	}
	base := fit.FitPlan(s.post.Plan, nil, fit.Hypothesis{}, unseenDraws)
	type question struct {
		plan *model.Plan
		hyp  fit.Hypothesis
	}
	fits := map[question]*fit.Posterior{}
	fitted := func(x *suspect) *fit.Posterior {
		q := question{cmp.Or(x.plan, s.post.Plan), x.hyp}
		if fits[q] == nil {
			fits[q] = fit.FitPlan(q.plan, nil, q.hyp, unseenDraws)
		}
		return fits[q]
	}
	var out []found
	rest, sum := 1.0, 0.0
	for _, x := range s.suspects() {
		f := found{suspect: x, chance: x.prior * math.Exp(min(fitted(&x).Evidence-base.Evidence, 50))}
		rest -= x.prior
		sum += f.chance
		out = append(out, f)
	}
	total := max(rest, 0.05) + sum
	for i := range out {
		f := &out[i]
		f.chance /= total
		if f.chance < 0.04 {
			continue
		}
		p := fitted(&f.suspect).Thin(fewDraws)
		switch {
		case f.plan != nil: // as the log says, against as it should have said
			f.cost = max(mean(doneDays(p))-mean(s.asTold(p)), 0)
		case f.undo == nil: // the delay is only apparent: the tank is nearer than the readings say
			f.cost = max(mean(s.done)-mean(doneDays(p)), 0)
		default:
			f.cost, f.onset, f.loss = cost(p, f.undo)
		}
	}
	return merge(out)
}

// asTold runs draws of another plan under the log as it was told.
func (s *study) asTold(p *fit.Posterior) []float64 {
	q := *p
	q.Plan = model.NewPlan(s.c, unit.Days(s.now))
	return doneDays(&q)
}

// neverTreated is the plan in which no water was conditioned unless that was told
// of the change, and the day of the last such change; nil if there is none.
func (s *study) neverTreated() (plan *model.Plan, last float64) {
	c := clone(s.c)
	for i := range c.Events {
		e := &c.Events[i]
		if e.Kind == model.WaterChange && e.Treated == model.AsHabit && float64(e.Day) < s.now-1 && c.Setup.Conditioner {
			e.Treated, last = model.No, float64(e.Day)
			plan = s.post.Plan
		}
	}
	if plan == nil {
		return nil, 0
	}
	return model.NewPlan(c, unit.Days(s.now)), last
}

// cost compares the done days of draws with and without their event.
func cost(p *fit.Posterior, undo func(*model.Params)) (days, onset, loss float64) {
	n := float64(len(p.Draws))
	for i := range p.Draws {
		onset += p.Draws[i].Unseen.Day / n
		loss += p.Draws[i].Unseen.Kill / n
	}
	if undo == nil {
		return 0, onset, loss
	}
	with := doneDays(p)
	q := *p
	q.Plan = model.NewPlan(p.Plan.Case, unit.Days(p.Plan.Now)) // begun anew, without what happened
	q.Draws = append([]model.Params(nil), p.Draws...)
	for i := range q.Draws {
		undo(&q.Draws[i])
	}
	for i, d := range doneDays(&q) {
		days += (with[i] - d) / n
	}
	return days, onset, loss
}

// merge adds up the chances of suspects of one name, keeping the likelier's
// particulars.
func merge(in []found) []found {
	var out []found
next:
	for _, f := range in {
		for i := range out {
			if out[i].name == f.name {
				c := out[i].chance + f.chance
				if f.chance > out[i].chance {
					out[i] = f
				}
				out[i].chance = c
				continue next
			}
		}
		out = append(out, f)
	}
	return out
}

// verdict compares the tank with others of its set-up that have no fault.
func (s *study) verdict(ref []float64) string {
	if s.out.Stage == "ready" {
		return Ready
	}
	late := quantile(ref, 0.8)
	p50 := quantile(s.done, 0.5)
	still := s.standstill()
	switch {
	case s.now >= 7 && (still > 0.6 || s.out.ChanceNotWithin > 0.6) && p50 > late:
		return Stalled
	case p50 > late && p50 > quantile(ref, 0.5)+2:
		return Slow
	}
	return OnTrack
}

// standstill is the chance that the guild that limits the tank now has not
// grown by a tenth over the last week.
func (s *study) standstill() float64 {
	if s.now < 7 {
		return 0
	}
	still := 0.0
	n := 0.0
	for i := 0; i < len(s.post.Draws); i += 2 {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(s.now-7, nil)
		before := r.Capacity()
		r.To(s.now, nil)
		after := r.Capacity()
		k := 0
		if after[1] < after[0] {
			k = 1
		}
		if after[k] < 1.1*before[k] && s.done[i] > s.now+5 {
			still++
		}
		n++
	}
	return still / n
}

// reference returns the done days of tanks of the same set-up without a fault
// and without readings: what can be put right is put right.
func (s *study) reference() []float64 {
	set := s.c.Setup
	set.Conditioner = true
	if set.PH < 7.1 {
		set.PH = goodPH
	}
	set.KH = max(set.KH, goodKH)
	set.Temp = min(max(set.Temp, 24), goodTempHot)
	set.Flow = max(set.Flow, model.Normal)
	if s.litresOfMedia() < float64(set.Volume)/400 {
		set.Media, set.MediaVolume = model.Sponge, set.Volume/60
	}
	p := fit.Fit(model.Case{Setup: set}, 0, fit.Hypothesis{}, fewDraws)
	return doneDays(p)
}

// delay is how much later than the reference's middle the tank will be.
func (s *study) delay(ref []float64) outlook.Quantiles {
	mid := quantile(ref, 0.5)
	at := func(q float64) *float64 {
		v := quantile(s.done, q)
		if v >= s.post.Plan.End() {
			return nil
		}
		v = math.Round((v-mid)*10) / 10
		return &v
	}
	return outlook.Quantiles{P10: at(0.1), P50: at(0.5), P90: at(0.9)}
}

// bicarbonate is the sodium bicarbonate, g, that raises v litres by a.
func bicarbonate(a unit.MgCaCO3, v unit.Litres) float64 {
	return float64(a) * float64(v) * chem.BicarbonatePerAlk / 1000
}

func mean(x []float64) (m float64) {
	for _, v := range x {
		m += v / float64(len(x))
	}
	return m
}
