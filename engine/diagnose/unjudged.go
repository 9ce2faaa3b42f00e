package diagnose

import (
	"fmt"
	"math"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// Days of a log that tell too little to call a tank late. Common practice, no source.
const (
	silentFor = 14 // nothing was told for so long
	lateFirst = 10 // the first that was told came so late
	watched   = 10 // and has been followed for no longer than this
)

// told returns the days on which anything was told first and last, besides the set-up; first
// is past all days, and last 0, if nothing was.
func (s *study) told() (first, last float64) {
	first = math.Inf(1)
	note := func(d unit.Days) {
		if day := float64(d); day <= s.now {
			first, last = min(first, day), max(last, day)
		}
	}
	for _, r := range s.c.Readings {
		note(r.Day)
	}
	for _, ch := range s.c.Changes {
		note(ch.Day)
	}
	for _, e := range s.c.Events {
		if !e.Assumed {
			note(e.Day)
		}
	}
	return first, last
}

// silent says whether nothing was told for so long that nobody knows what was done.
func (s *study) silent() bool {
	_, last := s.told()
	return s.now-last >= silentFor
}

// unjudged is why it can't be said whether the tank is late, "" if it can: time that passed
// untold is no fault of the tank.
func (s *study) unjudged() string {
	first, last := s.told()
	const test = "Test ammonia and nitrite and tell me with /reading, note with /log at: what was dosed or fed, and ask again"
	switch {
	case s.silent() && math.IsInf(first, 1):
		return "nothing was told of it so far. " + test
	case s.silent():
		return fmt.Sprintf("nothing was told of it for %.0f days. %s", s.now-last, test)
	case !s.tested() && s.now >= silentFor:
		return fmt.Sprintf("neither ammonia nor nitrite was tested in its %.0f days. Test both and tell me with /reading, then ask again", math.Floor(s.now))
	case s.out.Against != "" && s.out.ChanceDoneOn(s.now) > 0.5:
		return fmt.Sprintf("its last test shows %s, where by all before it should be clear. Test again in a day: if it shows the same, bacteria were lost, or more went in than was told", s.out.Against)
	case s.vanishes():
		return "ammonia reads 0 a day after it was dosed, and no nitrite or nitrate came of it. Test right after a dose, to see that it arrives and that the kit shows it"
	case s.startsUntold() && first >= lateFirst && first <= s.now && s.now-first < watched:
		return fmt.Sprintf("nothing was told of its first %.0f days, so also not when ammonia first went in. Note that with /log what:dose at: its day, test every two or three days, and ask again", math.Floor(first))
	}
	return ""
}

// tested says whether ammonia or nitrite was read by now.
func (s *study) tested() bool {
	a, _ := s.last(unit.Ammonia)
	n, _ := s.last(unit.Nitrite)
	return a >= 0 || n >= 0
}

// begun is the day on which a tank that is dosed got its first ammonia, by its log, and what is
// told of that; where nobody told, but the first that was told came late, the day of that. Time
// before it is no delay.
func (s *study) begun() (day float64, says string) {
	const told = 3 // days from which on it is worth telling
	if m := s.c.Setup.Method; m != model.Dosed && m != model.Seeded || s.animals() {
		return 0, ""
	}
	if first, _ := s.told(); s.startsUntold() {
		if first < lateFirst || first > s.now {
			return 0, ""
		}
		return first, fmt.Sprintf("Nothing was told of its first %.0f days, so it is compared from then on", math.Floor(first))
	}
	day = s.now
	for _, e := range s.c.Events {
		if e.Kind == model.Dose && !e.Perhaps || e.Kind == model.FeedOnce || e.Kind == model.Seed && !e.Assumed {
			day = min(day, float64(e.Day))
		}
	}
	for _, r := range s.c.Readings {
		if r.Ammonia != nil && r.Ammonia.Ion(unit.Ammonia) >= clearIon || r.Nitrite != nil && r.Nitrite.Ion(unit.Nitrite) >= clearIon {
			day = min(day, float64(r.Day))
		}
	}
	if day < told {
		return 0, ""
	}
	return day, fmt.Sprintf("Its first ammonia went in on day %d, so it is compared from then on", s.no(day))
}

// startsUntold says whether the first ammonia of a tank that is dosed is only assumed.
func (s *study) startsUntold() bool {
	if m := s.c.Setup.Method; m != model.Dosed && m != model.Seeded {
		return false
	}
	for _, e := range s.c.Events {
		if e.Kind == model.Dose && !e.Perhaps && float64(e.Day) <= s.now {
			return e.Assumed
		}
	}
	return true
}

// judge takes a verdict back that rests on time alone: unless the set-up is at fault, a tank
// that nobody told of is not called late.
func (d *Diagnosis) judge(s *study) {
	why := s.unjudged()
	if why == "" || d.Verdict == Ready {
		return
	}
	for _, name := range []string{"acidic-water", "low-alkalinity", "cold-water", "hot-water", "low-oxygen", "little-surface"} {
		if i := d.index(name); i >= 0 && d.Verdict != OnTrack && d.Causes[i].Chance >= 0.5 && d.Causes[i].DaysCost >= 2 {
			d.Verdict = Slow
			d.Notes = append(d.Notes, "This is what its set-up comes to: "+why)
			return
		}
	}
	d.Verdict, d.Unjudged, d.Delay = OnTrack, why, outlook.Quantiles{}
}

// vanishes says whether at least two doses left neither ammonia nor nitrite a day later
// in a tank that has shown nothing yet, nitrate neither: a dose that was none, or a kit that is
// blind.
func (s *study) vanishes() bool {
	gone, nitrate := 0, false
	for _, r := range s.c.Readings {
		if float64(r.Day) > s.now {
			break
		}
		nitrate = nitrate || r.Nitrate != nil
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
	return gone >= 2 && nitrate && !s.planted() && s.c.Setup.Method == model.Dosed && len(s.events(model.Seed)) == 0
}
