package post

import (
	"cmp"
	"slices"
)

// newestSet keeps, of readings under several days, dates, weekdays or times,
// the newest; without a clear order all of them are doubtful.
func (r *reader) newestSet(xs []reading) []reading {
	var sets []*mark // distinct, in the order of the post
	today := false
	for i := range xs {
		if m := xs[i].sense.mark; m != nil && !slices.ContainsFunc(sets, func(s *mark) bool { return sameTime(s, m) }) {
			sets = append(sets, m)
		}
		today = today || xs[i].sense.rank > 0.35
	}
	if len(sets) == 0 {
		return xs
	}
	newest, ok := sets[0], true
	if len(sets) > 1 {
		newest, ok = latest(sets)
	}
	if !ok {
		return r.unordered(xs, sets)
	}
	stale := today && (len(sets) > 1 || r.clash(xs, newest)) || looksBack(xs)
	var out []reading
	for i := range xs {
		if m := xs[i].sense.mark; m != nil && (stale || !sameTime(m, newest)) {
			r.leave(&xs[i], leftOld)
			continue
		}
		out = append(out, xs[i])
	}
	return out
}

func sameTime(a, b *mark) bool { return a.class == b.class && a.key == b.key }

// looksBack reports whether all readings under a day are told in the past tense,
// "on day 3 ammonia was 4", beside others of the present.
func looksBack(xs []reading) bool {
	back, now := false, false
	for i := range xs {
		switch s := &xs[i].sense; {
		case s.mark == nil:
			now = now || !s.was
		case s.was && s.mark.class == markDay && s.mark.on:
			back = true
		default:
			return false
		}
	}
	return back && now
}

// clash reports whether a test was read under m and again today.
func (r *reader) clash(xs []reading, m *mark) bool {
	for i := range xs {
		if xs[i].sense.mark == nil || !sameTime(xs[i].sense.mark, m) {
			continue
		}
		for j := range xs {
			if xs[j].kind == xs[i].kind && xs[j].sense.mark == nil && xs[j].sense.rank > 0.35 {
				return true
			}
		}
	}
	return false
}

// unordered makes the readings of several times doubtful.
func (r *reader) unordered(xs []reading, sets []*mark) []reading {
	names := make([]string, 0, 4)
	for _, m := range sets[:min(len(sets), 4)] {
		names = append(names, m.name)
	}
	out, dated := split(xs, func(x *reading) bool { return x.sense.mark == nil })
	past := !slices.ContainsFunc(dated, func(x reading) bool { return !x.sense.was && !x.sense.beside() })
	if past && slices.ContainsFunc(out, func(x reading) bool { return x.sense.run >= 3 }) {
		for i := range dated {
			r.leave(&dated[i], leftOld)
		}
		return out
	}
	r.doubtAll(dated, "the post gives readings of several times ("+inWords(names)+") and it is not clear which is the newest; send the newest alone")
	return out
}

// split parts readings by a test.
func split(xs []reading, ok func(*reading) bool) (yes, no []reading) {
	for i := range xs {
		if ok(&xs[i]) {
			yes = append(yes, xs[i])
		} else {
			no = append(no, xs[i])
		}
	}
	return yes, no
}

// latest finds the newest of several marks. It is clear for days; for dates
// when one of them can be read one way only (3/15), when both ways of reading
// 3/1 agree, or when the row goes on over the new year; for
// weekdays when the row goes one way within a week.
func latest(sets []*mark) (*mark, bool) {
	for _, m := range sets {
		if m.class != sets[0].class {
			return nil, false
		}
	}
	switch sets[0].class {
	case markRow:
		return nil, false
	case markClock: // told in their order, perhaps over night
		return sets[len(sets)-1], true
	case markDate:
		return latestDate(sets)
	case markWeekday:
		return latestWeekday(sets)
	case markMonthDay:
		return latestMonthDay(sets)
	}
	return slices.MaxFunc(sets, func(a, b *mark) int { return cmp.Compare(a.key, b.key) }), true
}

func latestDate(sets []*mark) (*mark, bool) {
	a := slices.MaxFunc(sets, func(a, b *mark) int { return cmp.Compare(a.key, b.key) })
	b := slices.MaxFunc(sets, func(a, b *mark) int { return cmp.Compare(a.alt, b.alt) })
	first, last := sets[0], sets[len(sets)-1]
	if first.key < 1300 && last.key < 1300 && first.key >= 1200 && last.key < 200 {
		return last, true // December to January
	}
	month, day := false, false
	for _, m := range sets {
		month, day = month || m.order == 'm', day || m.order == 'd'
	}
	switch {
	case month && !day:
		return a, true
	case day && !month:
		return b, true
	}
	return a, a == b
}

func latestWeekday(sets []*mark) (*mark, bool) {
	ahead, back := 0, 0
	for i := 1; i < len(sets); i++ {
		d := int(sets[i].key - sets[i-1].key)
		ahead += (d + 7) % 7
		back += (7 - d) % 7
	}
	switch {
	case ahead < 7 && (back >= 7 || ahead <= 4):
		return sets[len(sets)-1], true
	case back < 7 && ahead >= 7:
		return sets[0], true
	}
	return nil, false
}

// latestMonthDay is the last of a row that goes on, perhaps into the next month,
// or the first of one that goes back.
func latestMonthDay(sets []*mark) (*mark, bool) {
	falls, rises := 0, 0
	for i := 1; i < len(sets); i++ {
		if sets[i].key < sets[i-1].key {
			falls++
		} else {
			rises++
		}
	}
	switch {
	case falls == 0, falls == 1 && rises > 0 && sets[len(sets)-1].key < sets[0].key:
		return sets[len(sets)-1], true
	case rises == 0 && len(sets) > 2:
		return sets[0], true
	}
	return nil, false
}

// day returns the day of the cycle that the chosen readings belong to: their
// own, else the only one that the post names apart from older readings.
func (r *reader) day() *float64 {
	for i := range r.chosen {
		if m := r.chosen[i].sense.mark; m != nil && m.class == markDay && m.alt == 0 {
			return &m.key
		}
	}
	var day *mark
	for _, m := range r.marks {
		if m.class != markDay || m.alt != 0 || m.done || slices.ContainsFunc(r.all, func(x reading) bool { return x.sense.mark == m }) {
			continue
		}
		switch {
		case day == nil || day.ahead && !m.ahead:
			day = m
		case day.key != m.key && (day.ahead || !m.ahead):
			return nil
		}
	}
	if day == nil {
		return nil
	}
	return &day.key
}
