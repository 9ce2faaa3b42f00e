package diagnose

import (
	"cmp"
	"math"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

// unseenDraws is how many draws each supposed event is fitted with.
const unseenDraws = 640

// worthNaming is the chance from which a cause is named at all.
const worthNaming = 0.02

// found is a suspect weighed against the readings.
type found struct {
	suspect
	chance, cost float64
	onset, loss  float64 // means over the draws
}

// unseen weighs every suspect by how much better the readings are explained
// with it than without, and the likeliest by pairs as well: the weight of a
// hypothesis is its prior times the ratio of evidence, and the chance of a suspect
// the share of the weights of all hypotheses that hold it.
func (s *study) unseen() []found {
	if s.post.Readings < 2 || s.now < 4 {
		return nil
	}
	t := trials{s: s, fits: map[question]*fit.Posterior{}}
	t.base = t.fit(&suspect{}).Evidence
	var out []found
	total := 1.0
	for _, x := range s.suspects() {
		f := found{suspect: x, chance: t.weight(&x)}
		total += f.chance - x.prior
		out = append(out, f)
	}
	if s.out.Crash != "" {
		total += t.crash(out)
	}
	total = max(total, 0.05)
	for _, p := range pairs(out, total) {
		both, ok := out[p[0]].and(&out[p[1]].suspect)
		if !ok {
			continue
		}
		w := t.weight(&both)
		out[p[0]].chance += w
		out[p[1]].chance += w
		total += w
	}
	for i := range out {
		f := &out[i]
		f.chance /= total
		if f.chance >= worthNaming {
			f.cost, f.onset, f.loss = s.cost(&f.suspect, t.fit(&f.suspect).Thin(fewDraws))
		}
	}
	return merge(out)
}

// pairs lists which suspects are tried together, at most two pairs: those that are
// likely by themselves, whichever of the readings they explain.
func pairs(all []found, total float64) (out [][2]int) {
	const likely, most = 0.1, 2
	for i := range all {
		for j := range i {
			if all[i].name != all[j].name && all[i].chance > likely*total && all[j].chance > likely*total && len(out) < most {
				out = append(out, [2]int{j, i})
			}
		}
	}
	return out
}

// and is the hypothesis that both happened; ok is false when one hypothesis cannot
// hold both.
func (x *suspect) and(y *suspect) (both suspect, ok bool) {
	h, g := x.hyp, y.hyp
	if h.Unseen && g.Unseen || (h.Bound || h.Phosphate) && (g.Bound || g.Phosphate) || x.plan != nil && y.plan != nil {
		return both, false
	}
	if g.Unseen {
		h.Unseen, h.From, h.To = true, g.From, g.To
	}
	h.Bound, h.Phosphate = h.Bound || g.Bound, h.Phosphate || g.Phosphate
	return suspect{prior: x.prior * y.prior, hyp: h, plan: cmp.Or(x.plan, y.plan)}, true
}

// trials fits the readings under one hypothesis after another.
type trials struct {
	s    *study
	base float64 // evidence of the log as it is
	fits map[question]*fit.Posterior
}

// question is a log and a hypothesis.
type question struct {
	plan *model.Plan
	hyp  fit.Hypothesis
}

func (t *trials) fit(x *suspect) *fit.Posterior {
	q := question{cmp.Or(x.plan, t.s.post.Plan), x.hyp}
	if t.fits[q] == nil {
		t.fits[q] = fit.FitPlan(q.plan, nil, q.hyp, unseenDraws)
	}
	return t.fits[q]
}

func (t *trials) weight(x *suspect) float64 {
	lnBayes := min(t.fit(x).Evidence-t.base, 50)
	if x.hyp.Phosphate {
		lnBayes *= t.s.growthSeen()
	}
	return x.prior * math.Exp(lnBayes)
}

// growthSeen is the share that the evidence on slow growth counts for: a few tests show how
// much there is, and only many that it grows too slowly. Common practice, no source.
func (s *study) growthSeen() float64 {
	const enough = 6 // tests
	return min(float64(s.post.Readings)/enough, 1)
}

// crash is the weight of the hypothesis that bacteria stopped because hardness was used up:
// a test shows that, and it explains the readings as well as the best of the losses does,
// which nothing shows. Its prior chance is common practice, no source.
func (t *trials) crash(all []found) float64 {
	const prior = 0.5
	best := 1.0
	for i := range all {
		if x := &all[i]; x.hyp.Unseen {
			best = max(best, x.chance/x.prior)
		}
	}
	return prior * best
}

// cost is what a suspect costs by the draws that were fitted with it, in days, and when
// and how much of the bacteria was lost, in the mean.
func (s *study) cost(x *suspect, p *fit.Posterior) (days, onset, loss float64) {
	for i := range p.Draws {
		onset += p.Draws[i].Unseen.Day / float64(len(p.Draws))
		loss += p.Draws[i].Unseen.Kill / float64(len(p.Draws))
	}
	q := *p
	with := mean(doneDays(p))
	switch {
	case x.plan != nil: // as the log should have said, against as it says
		q.Plan = model.NewPlan(s.c, unit.Days(s.now))
		return max(with-mean(doneDays(&q)), 0), onset, loss
	case x.undo == nil: // the delay is only apparent: the tank is nearer than the readings say
		return max(mean(s.done)-with, 0), onset, loss
	}
	q.Plan = model.NewPlan(p.Plan.Case, unit.Days(p.Plan.Now)) // begun anew, without what happened
	q.Draws = append([]model.Params(nil), p.Draws...)
	for i := range q.Draws {
		x.undo(&q.Draws[i])
	}
	return with - mean(doneDays(&q)), onset, loss
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
