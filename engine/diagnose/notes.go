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
		out = append(out, fmt.Sprintf("Animals died on day %.0f: find out why before others go in; sick animals need a vet", day))
	}
	if s.vanishes() {
		out = append(out, "Ammonia reads 0 a day after it was dosed, and no nitrite or nitrate came of it: test right after a dose, to see that it arrives and that the kit shows it")
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

// vanishes says whether at least two doses left neither ammonia nor nitrite a day later
// in a tank that has shown nothing yet: a dose that was none, or a kit that is blind.
func (s *study) vanishes() bool {
	gone := 0
	for _, r := range s.c.Readings {
		if float64(r.Day) > s.now {
			break
		}
		if r.Ammonia == nil || r.Nitrite == nil {
			continue
		}
		if r.Ammonia.Ion(unit.Ammonia) >= clearIon || r.Nitrite.Ion(unit.Nitrite) >= clearIon || r.Nitrate != nil && r.Nitrate.Ion(unit.Nitrate) > 5 {
			return false
		}
		for _, e := range s.events(model.Dose) {
			if after := float64(r.Day - e.Day); after > 0 && after < 1.5 && e.N >= unit.MgIon(0.8).N(unit.Ammonia) {
				gone++
			}
		}
	}
	return gone >= 2 && !s.planted() && len(s.events(model.Seed)) == 0
}
