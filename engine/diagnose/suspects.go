package diagnose

import (
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
