package model

import (
	"fmt"
	"hash/fnv"
	"io"
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
				p.Case.Events[s.i].hash(h)
			case stopReading:
				p.Case.Readings[s.i].hash(h)
			}
			next++
		}
		keys[i] = h.Sum64()
	}
	return keys
}

// hash writes the event's values, not its addresses. What was added to Event later
// is written only where it is told, so that the keys of other logs stay what they were.
func (e *Event) hash(w io.Writer) {
	fmt.Fprintf(w, "{%v %v %v %v %v %v %v %v %v %v %v %v %v %v %v}", e.Seq, e.Day, e.Kind, e.N, e.Salt, e.Mass, e.Fraction,
		e.Alk, e.Volume, e.Hours, e.DonorPH, e.Plants, e.Treated, e.Assumed, e.Harsh)
	if e.DonorTemp != 0 {
		fmt.Fprint(w, "from ", float64(e.DonorTemp), " C")
	}
	if e.DonorSalinity != nil {
		fmt.Fprint(w, "from ", *e.DonorSalinity, " g/kg")
	}
	if e.Kept != 0 || e.Content != 0 {
		fmt.Fprint(w, "kept ", int(e.Kept), " content ", int(e.Content))
	}
	if e.Perhaps {
		fmt.Fprint(w, "perhaps")
	}
}

// hash writes the reading's values, not its addresses.
func (r *Reading) hash(w io.Writer) {
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
