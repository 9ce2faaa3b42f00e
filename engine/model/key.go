package model

import (
	"fmt"
	"hash/fnv"
)

// Keys returns one number for each of the days, in ascending order, that stands
// for everything of the plan up to and including that day: set-up, changes,
// events and readings. Two plans with the same key behave alike until then.
// What lies after, and Now itself, do not count.
func (p *Plan) Keys(days []float64) []uint64 {
	h := fnv.New64a()
	fmt.Fprint(h, p.start)
	keys := make([]uint64, len(days))
	next := 0
	for i, d := range days {
		for next < len(p.stops) && p.stops[next].day <= d {
			s := p.stops[next]
			fmt.Fprint(h, s.day, s.kind)
			switch s.kind {
			case stopSegment:
				fmt.Fprint(h, p.conds[s.i])
			case stopEvent:
				fmt.Fprint(h, p.Case.Events[s.i])
			case stopReading:
				p.Case.Readings[s.i].hash(h)
			}
			next++
		}
		keys[i] = h.Sum64()
	}
	return keys
}

// hash writes the reading's values, not its addresses.
func (r *Reading) hash(w interface{ Write([]byte) (int, error) }) {
	fmt.Fprint(w, r.Day, r.Kit)
	for _, s := range [...]*Seen{r.Ammonia, r.Nitrite, r.Nitrate} {
		if s != nil {
			fmt.Fprint(w, *s)
		} else {
			fmt.Fprint(w, "-")
		}
	}
	for _, v := range [...]*float64{r.PH, (*float64)(r.KH), (*float64)(r.Temp), r.Chlorine, r.Oxygen} {
		if v != nil {
			fmt.Fprint(w, *v, ";")
		} else {
			fmt.Fprint(w, "-")
		}
	}
}
