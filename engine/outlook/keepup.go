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
		every := "day"
		if days := math.Round(h.Interval); days > 1 {
			every = fmt.Sprintf("%.0f days", days)
		}
		s += fmt.Sprintf(", changing %.0f%% of the water every %s", 100*h.Change, every)
	} else if h.Refresh {
		s += ", and change water when its hardness is used up"
	}
	return s
}

// freshTest is how old a test may be, days, to say what is due now; common practice, no source.
const freshTest = 3

// leastKH is the hardness below which nothing is dosed; common practice, no source.
var leastKH = unit.DKH(2).CaCO3()

// doseNow is the dose that the keeper's habit gives now: the last test was clear of ammonia
// and not full of nitrite, the hardness is not known to be low, and nothing was dosed after it. A tank that doses do not start is
// never told to.
func doseNow(p *model.Plan) unit.MgN {
	c, now := &p.Case, unit.Days(p.Now)
	if m := c.Setup.Method; p.Habit.Dose == 0 || m != model.Dosed && m != model.Seeded || c.Animals(now) {
		return 0
	}
	if crashed(&p.Case, p.Now).goesOn(p.Now) {
		return 0
	}
	ammonia, nitrite, day, soft := -1.0, -1.0, unit.Days(0), false
	for _, r := range c.Readings {
		if r.Day > now {
			break
		}
		if r.Ammonia != nil {
			ammonia, day = r.Ammonia.Ion(unit.Ammonia), r.Day
		}
		if r.Nitrite != nil {
			nitrite = r.Nitrite.Ion(unit.Nitrite)
		}
		if r.KH != nil {
			soft = *r.KH < leastKH
		}
	}
	if soft || ammonia < 0 || ammonia >= 0.25 || nitrite >= 4.5 || now-day > freshTest {
		return 0
	}
	for _, e := range c.Events {
		if e.Kind == model.Dose && !e.Perhaps && e.Day >= day && e.Day <= now {
			return 0
		}
	}
	if nitrite >= 0 && nitrite < 0.25 {
		return max(p.Habit.Dose, c.Setup.Target)
	}
	return p.Habit.Dose
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
