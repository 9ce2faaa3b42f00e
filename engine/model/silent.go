package model

import (
	"slices"

	"ripen/engine/unit"
)

// Keepers who note no doses, or the first alone, mostly still give them: whenever ammonia
// reads clear, and every few days until a day before they read again. Nothing is supposed
// of who reads each day: a dose that is gone by the next test would show that the tank is done,
// and for that there must be a note. All of it is common practice, no source.
const (
	silentEvery = 3.  // days between looks that are followed by a dose
	silentFor   = 21. // days after a reading for which somebody who tells nothing is taken to be there
)

// silentDoses are the doses that such a keeper may have given up to now to a tank that was
// given ammonia once, for no more than one of which there is a note.
func silentDoses(c *Case, now unit.Days) (es []Event) {
	n := c.Setup.Target
	noted := 0
	for _, e := range c.Events {
		switch {
		case e.Day > now:
		case e.Kind == Stocked: // nobody doses onto animals
			return nil
		case e.Kind == Dose && !e.Assumed:
			noted++
			if e.N >= c.Setup.Target/4 && e.N <= 2*c.Setup.Target {
				n = e.N
			}
		}
	}
	if noted > 1 {
		return nil
	}
	for i := range c.Readings {
		r := &c.Readings[i]
		if r.Day > now || r.Ammonia == nil || r.Ammonia.lowN(unit.Ammonia) >= float64(ClearTAN)*1.01 || !givenBy(c.Events, r.Day) {
			continue
		}
		end := min(now, r.Day+silentFor)
		if next := slices.IndexFunc(c.Readings[i+1:], func(r Reading) bool { return r.Ammonia != nil }); next >= 0 {
			end = min(end, c.Readings[i+1+next].Day-1)
		}
		// A dose that a rise has shown is the one of that gap.
		if slices.ContainsFunc(c.Events, func(e Event) bool { return e.Kind == Dose && e.Assumed && e.Day > r.Day && e.Day <= end+1 }) {
			continue
		}
		for d := r.Day + 0.01; d <= end; d += silentEvery { // the test comes first
			es = append(es, Event{Kind: Dose, N: n, Assumed: true, Perhaps: true, Day: d, Seq: -1})
		}
	}
	return es
}

// givenBy says whether ammonia was dosed by a day.
func givenBy(es []Event, day unit.Days) bool {
	return slices.ContainsFunc(es, func(e Event) bool { return e.Kind == Dose && !e.Perhaps && e.Day <= day })
}
