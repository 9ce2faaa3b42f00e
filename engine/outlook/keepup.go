package outlook

import (
	"fmt"
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// keepUp says in plain words how the keeper is assumed to go on.
func keepUp(p *model.Plan) string {
	h := p.Habit
	s := "you go on as now"
	if h.Dose > 0 {
		give := "dosing"
		if !everDosed(p) { // and would only to see what the tank does with it
			give = "trying"
		}
		s += fmt.Sprintf(", %s %.2g mg/L ammonia whenever it is clear", give, float64(h.Dose.Ion(unit.Ammonia)))
		if look := math.Round(h.Look); look > 1 {
			s += fmt.Sprintf(" when you look, every day to every %.0f days", look)
		}
	}
	if target := p.Case.Setup.Target; h.Prove && h.Dose < target {
		s += fmt.Sprintf(", trying %.2g mg/L ammonia once ammonia and nitrite are both clear", float64(target.Ion(unit.Ammonia)))
	}
	if grams, usual := daily(p); grams > 0 {
		s += fmt.Sprintf(", feeding about %.2g g a day", float64(grams))
		if usual {
			s += " as is usual"
		}
	}
	if h.Change > 0 {
		s += fmt.Sprintf(", changing %.0f%% of the water every %.0f days", 100*h.Change, h.Interval)
	} else if h.Refresh {
		s += ", and change water when its hardness is used up"
	}
	return s
}

// everDosed says whether the tank is one that doses start, or was dosed by its log.
func everDosed(p *model.Plan) bool {
	if m := p.Case.Setup.Method; m == model.Dosed || m == model.Seeded {
		return true
	}
	return slices.ContainsFunc(p.Case.Events, func(e model.Event) bool {
		return e.Kind == model.Dose && !e.Assumed && float64(e.Day) <= p.Now
	})
}

// daily is the food that the tank gets each day, 0 where none is counted on or where nobody
// knows of how many animals; usual says that it was not told.
func daily(p *model.Plan) (grams unit.Grams, usual bool) {
	if p.Habit.Feed > 0 {
		return p.Habit.Feed, false
	}
	now, start := p.Current(), &p.Case.Setup
	switch {
	case p.Rationed():
		return now.Feed, false
	case now.Method == model.Food, now.Method == model.FishIn && start.Given.Feed:
		return now.Feed, !start.Given.Feed
	}
	return 0, false
}
