package diagnose

import (
	"fmt"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// notes are what the log shows beside the causes, in plain words.
func (s *study) notes(d *Diagnosis) (out []string) {
	if _, says := s.begun(); says != "" && d.Verdict != Ready && d.Unjudged == "" {
		out = append(out, says)
	}
	if day, ok := s.lost(); ok {
		out = append(out, fmt.Sprintf("Animals died on day %d: find out why before others go in; sick animals need a vet", s.no(day)))
	}
	if n := s.out.DoseNow; n > 0 && (d.Verdict == Slow || d.Verdict == Stalled) {
		out = append(out, fmt.Sprintf("Ammonia is clear and none was dosed since: bacteria go hungry, so dose %.2g mg/L now", float64(n.Ion(unit.Ammonia))))
	}
	return out
}

// lost is the day of the last losses of two weeks.
func (s *study) lost() (day float64, ok bool) {
	for _, e := range s.events(model.Losses) {
		if d := float64(e.Day); d >= s.now-14 {
			day, ok = d, true
		}
	}
	return day, ok
}
