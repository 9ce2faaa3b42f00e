package diagnose

import (
	"fmt"

	"ripen/engine/model"
	"ripen/engine/unit"
)

// seedWords says what a seed lost on its way, from the least that it left.
func (s *study) seedWords(e *model.Event, say func(string, ...any)) {
	const worth = 0.95
	par := model.Central()
	r := s.post.Plan.Start(&par)
	r.To(float64(e.Day), nil)
	l, water := r.Survival(e), r.Setup()
	day := s.c.DayOf(e.Day)
	if l.PH < worth {
		say("seed of day %d came from pH %.1f into pH %.1f, which leaves %s of its bacteria", day, e.DonorPH, water.PH, share(l.PH))
	}
	if l.Temp < worth {
		say("seed of day %d came from %s into %s, which leaves %s", day, degrees(e.DonorTemp), degrees(water.Temp), share(l.Temp))
	}
	if l.Salinity < worth && e.DonorSalinity != nil {
		say("seed of day %d came from %.2g into %.2g g/kg salt, which leaves %s", day, *e.DonorSalinity, water.Salinity, share(l.Salinity))
	}
	if l.Air < worth {
		say("seed of day %d was out of water for %.0f h, which leaves %s", day, e.Hours, share(l.Air))
	}
}

// backlogWords says how much nitrite stands, and what to do about it. The reruns show
// that taking it out seldom shortens the wait, and then that is said.
func (s *study) backlogWords(days float64, animals bool, say func(string, ...any)) Fix {
	v, day := s.last(unit.Nitrite)
	say("nitrite at %.2g mg/L%s on day %d, the end of most charts", v, s.open(unit.Nitrite, day), s.no(day))
	change := fmt.Sprintf("change about %.0f%% of the water in all, no more than half at once%s, to bring nitrite near 2 mg/L", percent(1-2/max(v, 2.5)), s.treated())
	less, doNot := "", "do not lose patience: nitrite goes on its own once what eats it has grown"
	switch s.supply() {
	case "dosing ammonia":
		less, doNot = "halve the ammonia doses", "do not go on dosing in full while nitrite is off the chart"
	case "feeding":
		less, doNot = "feed half as much", "do not go on feeding in full while nitrite is off the chart"
	}
	fix := Fix{Do: change + joined(", and ", less, " until it falls"), DoNot: doNot, Settle: "nitrite of a sample diluted one to four with pure water"}
	if s.treated() != "" {
		fix.Cautions = []string{CautionChlorine}
	}
	switch {
	case animals:
		fix.Do, fix.DoNot = "ask /safe how much water to change for the animals", "do not feed more than a little"
	case days < 1:
		fix.Do = joined("", less, " until nitrite falls, and ") + "wait; if you want to see it on the chart again, " + change + ", which hardly shortens the wait"
	}
	return fix
}

// treated is what new water needs before it goes in, in words; "" where none holds chlorine.
func (s *study) treated() string {
	if s.post.Plan.Current().Source > model.Chloraminated {
		return ""
	}
	return " and treated against chlorine"
}

// open is what to say behind a value that was read on a day where its chart ends.
func (s *study) open(sp unit.Species, day float64) string {
	for _, r := range s.c.Readings {
		if x := r.Of(sp); x != nil && float64(r.Day) == day && x.Over {
			return " or more"
		}
	}
	return ""
}

// openNow is the same of ammoniaNow.
func (s *study) openNow() string {
	_, day := s.last(unit.Ammonia)
	return s.open(unit.Ammonia, day)
}

// ammoniaNow is the last reading of ammonia with what was dosed after it, mg/L as ion;
// -1 if it was never read.
func (s *study) ammoniaNow() float64 {
	v, day := s.last(unit.Ammonia)
	if v < 0 {
		return v
	}
	for _, e := range s.events(model.Dose) {
		if float64(e.Day) > day {
			v += float64(e.N.Ion(unit.Ammonia))
		}
	}
	return v
}

// byNow adds what is likely left of a hardness that was told or read, where that is less.
func (s *study) byNow(told unit.MgCaCO3) string {
	if left := s.kh(); left < told-unit.DKH(0.25).CaCO3() {
		return fmt.Sprintf(", and likely about %.1f by now", float64(left.DKH()))
	}
	return ""
}

// afterLoss says what to do where bacteria were lost.
func (s *study) afterLoss() string {
	if s.animals() {
		return "feed little and go by /safe until ammonia and nitrite are down; mature media from a healthy tank shorten that"
	}
	return "go on as with a new tank until ammonia and nitrite clear again; mature media from a healthy tank shorten that"
}

// animals says whether animals are in now.
func (s *study) animals() bool { return s.c.Animals(unit.Days(s.now)) }

// degrees prints a temperature in both units, since the engine does not know the
// keeper's.
func degrees(t unit.Celsius) string {
	return fmt.Sprintf("%.0f °C (%.0f °F)", float64(t), 32+1.8*float64(t))
}

// steps is a difference of temperatures in both units.
func steps(t float64) string { return fmt.Sprintf("%.0f °C (%.0f °F)", t, 1.8*t) }

// joined puts words around a part, "" where there is none.
func joined(before, part, after string) string {
	if part == "" {
		return ""
	}
	return before + part + after
}

// share is a part of what there was, in percent.
func share(x float64) string {
	if x < 0.01 {
		return "hardly any"
	}
	return fmt.Sprintf("about %.0f%%", 100*x)
}

// supply is what the keeper gives that becomes ammonia, in words; "" where it comes by itself.
func (s *study) supply() string {
	switch m := s.c.Setup.Method; {
	case s.animals() || m == model.Food:
		return "feeding"
	case m == model.Dosed || m == model.Seeded || len(s.events(model.Dose)) > 0:
		return "dosing ammonia"
	}
	return ""
}
