package diagnose

import (
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// plain is the chance that a weighed condition is at work: that of a material
// delay, unless the log shows plainly what happened, or leaves open whether it
// did. Chances of what is plain are common practice, no source.
func (s *study) plain(w weighed, ref []float64) float64 {
	switch w.name {
	case "low-alkalinity":
		if s.out.Crash != "" { // a reading shows it
			return max(w.chance, 0.85)
		}
		if s.acidFirst() { // the little hardness of acid water is part of its acid
			return 0.85 * w.chance
		}
		if !s.knowsKH() { // a hardness that nobody measured is a doubt, not a finding
			return 0.6 * w.chance
		}
	case "ammonia-overdose":
		if s.overdosed() {
			return max(w.chance, 0.8)
		}
	case "medication":
		return s.setback(w, model.Medicine)
	case "filter-interrupted":
		return s.setback(w, model.Outage)
	case "media-washed":
		return s.setback(w, model.Cleaned)
	case "mismatched-seed": // hardly any of it can have lived, and the tank is late
		if s.seedMatch() < 0.4 && quantile(s.done, 0.5) > quantile(ref, 0.5)+2 {
			return max(w.chance, 0.6)
		}
	case "no-ammonia-source":
		if s.c.Setup.Method == model.Planted { // which is not meant to be dosed
			return w.chance
		}
		if len(s.events(model.Dose)) == 0 {
			return s.noted() * max(w.chance, 0.9)
		}
		return s.noted() * max(w.chance, 0.6)
	case "nitrite-backlog": // every nitrite stage would be shorter without its nitrite
		if s.overdosed() || s.out.Crash != "" { // which is what the nitrite came from, or why it stays
			return 0.6 * s.backlog()
		}
		return s.backlog()
	}
	return w.chance
}

// setback is the chance of a harm that was logged: even once the tank is over it,
// it was at work for some weeks.
func (s *study) setback(w weighed, kind model.EventKind) float64 {
	const felt = 21 // days
	harm := func(e model.Event) bool {
		switch {
		case float64(e.Day) < max(s.now-felt, 3): // before the third day there was little to lose
			return false
		case kind == model.Medicine:
			return e.Hours == 0 || e.Hours >= 24
		case kind == model.Outage:
			return e.Hours == 0 || e.Hours >= 6
		}
		return e.Harsh
	}
	if slices.ContainsFunc(s.events(kind), harm) {
		return max(w.chance, 0.5)
	}
	return w.chance
}

// overdosed says whether the log shows beyond a slip that much more than the target
// was given: nearly three times as much dosed twice, or once with a reading as high, or so
// much food that two readings pile up.
func (s *study) overdosed() bool {
	if s.fedTooMuch() {
		return true
	}
	most, n := 2.8*float64(s.c.Setup.Target), 0
	for _, e := range s.events(model.Dose) {
		if float64(e.N) > most {
			n++
		}
	}
	high, _ := s.highest(unit.Ammonia)
	return n >= 2 || n == 1 && high >= 5
}

// knowsKH says whether the alkalinity was stated or read.
func (s *study) knowsKH() bool { return s.c.Setup.Given.KH || s.water().khDay >= 0 }

// acidFirst says whether the water was acid to begin with, of some hardness, and has not become
// more so.
func (s *study) acidFirst() bool {
	set := &s.c.Setup
	return set.Given.PH && set.PH < 6.7 && set.KH >= unit.DKH(1.5).CaCO3() && s.lowestPH() > set.PH-0.3
}
