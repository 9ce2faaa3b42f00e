package model

import (
	"slices"

	"ripen/engine/unit"
)

// Readings of a tank do not err independently: what the model lacks today it lacks
// tomorrow too. A value therefore tells only the share of an independent reading that the
// time since the last one is of the time for which a misfit lasts, and a log's likelihood
// comes down to as many independent readings as it holds (a composite likelihood, as Varin,
// Reid & Firth 2011, Stat. Sin. 21:5-42, and for models that are not quite true Miller &
// Dunson 2019, J. Am. Stat. Assoc. 114:1113-1125).

// lasting is for how many days, about, a misfit lasts: a doubling of nitrite oxidisers, and
// for nitrate, which stays until water is changed, a week and a half. Our judgement, no source.
var lasting = [3]float64{unit.Ammonia: 3, unit.Nitrite: 3, unit.Nitrate: 10}

const (
	// steady is for which share of the time that the same has been read a misfit lasts, where
	// that is longer: the hundredth nought in a row tells less than the tenth. Our judgement, no source.
	steady = 0.4
	// often is at which share of a misfit's time the same value is looked at again; sooner it is
	// passed by, and the next one tells for both.
	often = 1. / 6
	// leastTold is what another value tells however soon.
	leastTold = 0.1
)

// Told returns the share of an independent reading that a value of a species is worth where
// one was read so many days before, and has read the same for so many days, 0 if not: from
// a tenth to 1 if not, above 0 if so.
func Told(sp unit.Species, since, same float64) float64 {
	if same > 0 {
		return min(since/max(lasting[sp], steady*same), 1)
	}
	return min(max(since/lasting[sp], leastTold), 1)
}

// tale is what has been read of one species.
type tale struct {
	species    unit.Species
	any        bool
	seen       Seen
	kit        Kit
	from, last float64 // days since when it reads that, and when it was looked at last
}

// next returns what the next value tells, 0 where it is passed by.
func (t *tale) next(day float64, seen Seen, kit Kit) (tells float64) {
	since, same := day-t.last, day-t.from
	switch {
	case !t.any:
		tells = 1
	case seen != t.seen || kit != t.kit:
		tells = Told(t.species, since, 0)
	case since < often*max(lasting[t.species], steady*same):
		return 0
	default:
		t.last = day
		return Told(t.species, since, same)
	}
	t.any, t.seen, t.kit, t.from, t.last = true, seen, kit, day, day
	return tells
}

// listen works out what each reading tells, and which need not be stopped for.
func (p *Plan) listen() {
	p.tells = make([][3]float64, len(p.Case.Readings))
	tales := [3]tale{{species: unit.Ammonia}, {species: unit.Nitrite}, {species: unit.Nitrate}}
	seg := 0
	for k := range p.stops {
		st := &p.stops[k]
		if st.kind == stopSegment {
			seg = st.i
		}
		if st.kind != stopReading {
			continue
		}
		r := &p.Case.Readings[st.i]
		st.calm = !r.corrects() && (r.Ammonia == nil || !p.conds[seg].rots())
		st.quiet = !r.corrects()
		for sp := range tales {
			if seen := r.Of(unit.Species(sp)); seen != nil {
				p.tells[st.i][sp] = tales[sp].next(st.day, *seen, r.Kit)
				st.quiet = st.quiet && p.tells[st.i][sp] == 0
			}
		}
	}
}

// Tells returns the share of an independent reading that each value of reading i tells, by
// species; 0 where there is none, or where it is passed by since it was read before.
func (p *Plan) Tells(i int) [3]float64 { return p.tells[i] }

// Independent returns the plan for readings that err independently however close in time:
// each value tells as much.
func (p *Plan) Independent() *Plan {
	q := *p
	q.stops, q.tells = slices.Clone(p.stops), make([][3]float64, len(p.tells))
	for k := range q.stops {
		q.stops[k].quiet = false
	}
	for i := range q.tells {
		for sp := range q.tells[i] {
			if p.Case.Readings[i].Of(unit.Species(sp)) != nil {
				q.tells[i][sp] = 1
			}
		}
	}
	return &q
}
