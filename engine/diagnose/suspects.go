package diagnose

import (
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/unit"
)

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
	fast [2]float64  // from and to which day nothing went in, if that is why
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
	for _, span := range s.fasts() {
		p := s.noted() * min(0.01*(span[1]-span[0]), 0.5)
		out = append(out, suspect{name: "no-ammonia-source", prior: p, hyp: fit.Hypothesis{Unseen: true, From: span[0], To: span[1]}, undo: noLoss, day: -1, fast: span})
	}
	p := 0.05
	if len(s.events(model.Conditioned)) > 0 {
		p = 0.12
	}
	out = append(out, suspect{name: "test-artefact", prior: p, hyp: fit.Hypothesis{Bound: true}, day: -1})
	if s.c.Setup.Method == model.Dosed || s.c.Setup.Method == model.Seeded {
		p := 0.003
		if s.c.Setup.Source >= model.RO {
			p = 0.2
		}
		out = append(out, suspect{name: "low-phosphate", prior: p, hyp: fit.Hypothesis{Phosphate: true}, undo: func(p *model.Params) { p.Phos = 1 }, day: -1})
	}
	return out
}

// fasts are the spans of two weeks and more in which, by the log, nothing that becomes
// ammonia went in and none was read, in a tank that lives on what is dosed: bacteria starve. Where ammonia
// or nitrite is read again and never was gone in between, it has been there all along.
func (s *study) fasts() (spans [][2]float64) {
	if m := s.c.Setup.Method; m != model.Dosed && m != model.Seeded {
		return nil
	}
	const long = 14 // common practice, no source
	var fed []float64
	var gone []float64 // read as clear
	read := map[float64]bool{}
	for _, e := range s.c.Events {
		if e.Kind == model.Dose && !e.Perhaps || e.Kind == model.FeedOnce {
			fed = append(fed, float64(e.Day))
		}
		if e.Kind == model.Stocked {
			return nil
		}
	}
	for _, r := range s.c.Readings {
		for _, sp := range []unit.Species{unit.Ammonia, unit.Nitrite} {
			switch x := r.Of(sp); {
			case x == nil:
			case x.Ion(sp) >= 0.4:
				fed, read[float64(r.Day)] = append(fed, float64(r.Day)), true
			case sp == unit.Ammonia:
				gone = append(gone, float64(r.Day))
			}
		}
	}
	slices.Sort(fed)
	cleared := func(from, to float64) bool {
		return slices.ContainsFunc(gone, func(d float64) bool { return d > from && d < to })
	}
	for i := 1; i < len(fed) && fed[i] <= s.now; i++ {
		if fed[i]-fed[i-1] >= long && (!read[fed[i]] || cleared(fed[i-1], fed[i])) {
			spans = append(spans, [2]float64{fed[i-1], fed[i]})
		}
	}
	return spans
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
