package model

import (
	"fmt"
	"slices"

	"ripen/engine/chem"
	"ripen/engine/unit"
)

// tankCO2 is the carbon dioxide of an ordinary tank, mol/L: 4 mg/L.
const tankCO2 = 4e-3 / chem.MolarCO2

// Typical fills what the member left out of a set-up with typical values;
// Given keeps telling which facts were stated. All values are common practice,
// no source; for pH and alkalinity see Setup.Water.
func Typical(s Setup) Setup {
	if !s.Given.Source {
		s.Source = Chlorinated
	}
	if !s.Given.Temp {
		s.Temp = 25
	}
	w := s.Water()
	s.PH, s.KH = w.PH, w.KH
	if !s.Given.Media {
		s.Media = Sponge
	}
	if !s.Given.MediaVolume {
		s.MediaVolume = s.Volume / 100
		if s.Media == NoMedia {
			s.MediaVolume = 0
		}
	}
	if !s.Given.Flow {
		s.Flow = Normal
	}
	if !s.Given.Conditioner {
		s.Conditioner = s.Source <= Chloraminated
	}
	if s.Target <= 0 {
		s.Target = unit.MgIon(2).N(unit.Ammonia)
	}
	if s.Method == FishIn && s.Given.Stock && !s.Given.Feed {
		s.Feed = unit.Grams(RationAt(s.Temp)) * s.Stock
	}
	if !s.Given.Feed && (s.Method == Food || s.Method == FishIn) && !(s.Method == FishIn && s.Given.Stock) {
		perLitre := 0.02 // pinches until ammonia shows: 1 mg N/L/d
		if s.Method == FishIn {
			perLitre = 0.005 * RationAt(s.Temp) / Ration // for a few animals
			s.Stock = unit.Grams(0.25 * float64(s.Volume))
		}
		s.Feed = unit.Grams(perLitre * float64(s.Volume))
	}
	return s
}

// Complete adds to a case what its readings show must have happened though
// nobody logged it: ammonia that rose without a source, and a seeded tank's
// media. It returns the completed copy and says in plain words what was assumed.
func Complete(c Case, now unit.Days) (Case, []string) {
	var said []string
	out := c
	out.Setup = Typical(c.Setup)
	out.Events = append([]Event(nil), c.Events...)
	dosed := c.Setup.Method == Dosed || c.Setup.Method == Seeded

	if c.Setup.Method == Seeded && !hasEvent(c.Events, Seed, now) {
		out.Events = insert(out.Events, Event{Kind: Seed, Assumed: true, Seq: -1})
		said = append(said, "seed media of unknown amount on day 0, since the tank is set up as seeded and none was logged")
	}
	if out.Setup.Method == Food && !c.Setup.Given.Feed && mealByMeal(&out, now) {
		out.Setup.Feed, out.Setup.Given.Feed = 0, true
		said = append(said, "no food but the meals logged")
	}
	if high := func(r Reading) bool { return r.Day <= now && r.High() }; out.Setup.Method == Food && out.Setup.Feed > 0 && slices.ContainsFunc(c.Readings, high) {
		said = append(said, fmt.Sprintf("that no food goes in while ammonia reads %g mg/L or more, as most keepers do", float64(tooMuch)))
	}
	out.Setup.Start = atStart(&c, now)
	for _, sp := range []unit.Species{unit.Ammonia, unit.Nitrite} {
		if v := out.Setup.Start.N(sp); v > 0 {
			said = append(said, fmt.Sprintf("%.2g mg/L %s already in the water on day 0, by the first reading; if the tank ran before that, say so with /tank edit started:", float64(v.Ion(sp)), sp))
		}
	}
	if !dosed {
		return out, said
	}

	// Walk through the ammonia readings; what cannot have been left over or
	// logged in between was dosed.
	left, lastDay := 0.0, unit.Days(0)
	animals := unit.Grams(0)   // nobody doses onto them: then a rise has other reasons
	first, none := true, false // none was there yet
	ev := 0
	events := slices.Clone(out.Events)
	for i := 0; i <= len(c.Readings); i++ {
		var rd *Reading
		if i < len(c.Readings) {
			rd = &c.Readings[i]
			if rd.Day > now || rd.Ammonia == nil {
				continue
			}
		}
		added := 0.0
		for ev < len(events) && events[ev].Day <= now &&
			(rd == nil || events[ev].Day < rd.Day || events[ev].Day == rd.Day && events[ev].Seq <= rd.Seq) {
			switch events[ev].Kind {
			case Dose:
				added += float64(events[ev].N)
			case FeedOnce:
				added += FoodN * float64(events[ev].Mass) / max(float64(c.Setup.Volume), 0.1)
			case Stocked:
				animals += events[ev].Mass
			case Losses:
				animals = max(animals-events[ev].Mass, 0)
			}
			ev++
		}
		if rd == nil {
			if !anyAmmonia(&c, now) && added == 0 {
				e := Event{Kind: Dose, N: out.Setup.Target, Assumed: true, Seq: -1}
				out.Events = insert(out.Events, e)
				said = append(said, fmt.Sprintf("a first dose of %.2g mg/L ammonia on day 0, since none was logged", float64(e.N.Ion(unit.Ammonia))))
			}
			break
		}
		seen := rd.Ammonia.lowN(unit.Ammonia)
		margin := 0.35 + 0.3*(left+added)
		switch {
		case first && added == 0:
			if seen < 0.1 && !shows(rd.Nitrite, unit.Nitrite) {
				lastDay, none = rd.Day, true
				continue // nothing shows that there was ever any
			}
			n := seen
			if rd.Day >= 2 && (!none || shows(rd.Nitrite, unit.Nitrite)) {
				n = max(seen, float64(out.Setup.Target))
			}
			e := Event{Kind: Dose, N: unit.MgN(n), Assumed: true, Day: firstDose(rd, lastDay, none), Seq: -1}
			out.Events = insert(out.Events, e)
			when := "on day 0"
			if e.Day > 0 {
				when = fmt.Sprintf("near day %d", c.DayOf(e.Day))
			}
			said = append(said, fmt.Sprintf("a first dose of about %.2g mg/L ammonia %s, since none was logged", float64(e.N.Ion(unit.Ammonia)), when))
		case animals == 0 && seen > left+added+margin && (seen-left-added < 1.3*float64(out.Setup.Target) || confirmed(c.Readings[i+1:], now, seen)):
			e := Event{Kind: Dose, N: unit.MgN(seen - left - added), Assumed: true,
				Day: rd.Day - min((rd.Day-lastDay)/2, 1), Seq: -1}
			out.Events = insert(out.Events, e)
			said = append(said, fmt.Sprintf("a dose of about %.2g mg/L ammonia near day %d that was not logged, since the reading rose", float64(e.N.Ion(unit.Ammonia)), c.DayOf(e.Day)))
		}
		first = false
		left, lastDay = rd.Ammonia.lowN(unit.Ammonia), rd.Day
	}
	if silent := silentDoses(&out, now); len(silent) > 0 {
		for _, e := range silent {
			out.Events = insert(out.Events, e)
		}
		said = append(said, fmt.Sprintf("that you may have gone on dosing %.2g mg/L ammonia without a note while it read clear, since no more than one dose is noted; note each with /log what:dose and at: to settle that", float64(silent[0].N.Ion(unit.Ammonia))))
	}
	return out, said
}

// firstDose is when the dose was given, of which nobody told, that a reading shows: on the
// first day, or within a day of it after others that showed none. Who begins to tell after ten
// days has hardly watched all of it, since a dose that old would be gone in most tanks: then it was some
// days before, more where nitrite shows. Common practice, no source.
func firstDose(r *Reading, last unit.Days, none bool) unit.Days {
	const late = 10
	switch {
	case none:
		return r.Day - min((r.Day-last)/2, 1)
	case r.Day < late:
		return 0
	case shows(r.Nitrite, unit.Nitrite):
		return r.Day - late
	}
	return r.Day - 3
}

// mealByMeal says whether the food that starts a tank is logged as it is given: two meals
// or more, or one that would do for a week. The daily food that is taken where none was
// told would count it twice.
func mealByMeal(c *Case, now unit.Days) bool {
	meals, mass := 0, unit.Grams(0)
	for _, e := range c.Events {
		if e.Kind == FeedOnce && e.Day <= now {
			meals++
			mass += e.Mass
		}
	}
	return meals >= 2 || mass >= 7*c.Setup.Feed
}

// atStart is what the first readings, of the first day and a half, show to have
// been in the water already: nitrite and nitrate that cannot have been made so
// soon, and ammonia that nobody dosed.
func atStart(c *Case, now unit.Days) (p Pools) {
	for i := range c.Readings {
		r := &c.Readings[i]
		if r.Day > min(now, 1.5) {
			break
		}
		for sp, x := range [...]*Seen{r.Ammonia, r.Nitrite, r.Nitrate} {
			if x == nil || p[sp] > 0 || sp == int(unit.Ammonia) && (c.Setup.Method == Dosed || c.Setup.Method == Seeded) {
				continue
			}
			if v := float64(unit.MgIon(x.Ion(unit.Species(sp))).N(unit.Species(sp))); sp == int(unit.Nitrate) || v > 0.14 {
				p[sp] = v
			}
		}
	}
	if p[unit.Nitrite] == 0 {
		p[unit.Nitrate] = 0 // then the new water's own, which is one of the unknowns
	}
	return p
}

// confirmed says whether the next ammonia reading still shows a quarter of what
// was seen; a rise beyond any usual dose that the next reading knows nothing of
// is rather a mistake.
func confirmed(later []Reading, now unit.Days, seen float64) bool {
	for i := range later {
		if r := &later[i]; r.Ammonia != nil && r.Day <= now {
			return r.Ammonia.lowN(unit.Ammonia) > seen/4
		}
	}
	return false
}

// lowN is the lower end of what was seen, mg N/L.
func (x *Seen) lowN(s unit.Species) float64 { return float64(unit.MgIon(x.Ion(s)).N(s)) }

// shows says whether a species was read and is there.
func shows(x *Seen, s unit.Species) bool { return x != nil && x.lowN(s) >= 0.1 }

// anyAmmonia says whether ammonia was read up to now.
func anyAmmonia(c *Case, now unit.Days) bool {
	return slices.ContainsFunc(c.Readings, func(r Reading) bool { return r.Day <= now && r.Ammonia != nil })
}

func hasEvent(es []Event, k EventKind, now unit.Days) bool {
	for _, e := range es {
		if e.Kind == k && e.Day <= now {
			return true
		}
	}
	return false
}

// insert puts e before the first event that is later, or as late with a higher Seq.
func insert(es []Event, e Event) []Event {
	i := 0
	for i < len(es) && (es[i].Day < e.Day || es[i].Day == e.Day && es[i].Seq < e.Seq) {
		i++
	}
	es = append(es, Event{})
	copy(es[i+1:], es[i:])
	es[i] = e
	return es
}
