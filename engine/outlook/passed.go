package outlook

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// passedOnce says whether the last test of ammonia and nitrite was clear of both within a day or so
// of a whole dose that was noted: the challenge, passed once by the member's own tests.
func passedOnce(p *model.Plan) bool {
	c := &p.Case
	var last *model.Reading
	for i := range c.Readings {
		if r := &c.Readings[i]; float64(r.Day) <= p.Now && r.Ammonia != nil && r.Nitrite != nil {
			last = r
		}
	}
	if last == nil || last.Ammonia.Ion(unit.Ammonia) >= clearIon || last.Nitrite.Ion(unit.Nitrite) >= clearIon {
		return false
	}
	for i := range c.Events {
		e := &c.Events[i]
		since := float64(last.Day - e.Day)
		if e.Kind == model.Dose && !e.Perhaps && !e.Assumed && e.N >= whole*c.Setup.Target && since >= 0.5 && since <= aboutADay {
			return true
		}
	}
	return false
}

const (
	clearIon  = 0.25 // mg/L, below which a test is clear
	whole     = 0.9  // of the target, as doses are measured
	aboutADay = 1.25 // days; common practice, no source
)
