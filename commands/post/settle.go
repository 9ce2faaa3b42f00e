package post

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"ripen/engine/unit"
)

// settle chooses the newest reading of each test, checks it, and keeps the
// rest as doubts or as left out.
func (r *reader) settle() {
	xs := r.unread(r.sift(r.all))
	xs = r.oneTank(xs)
	xs = r.amend(xs)
	xs = r.newestSet(xs)
	xs = r.current(xs)
	xs = r.fromList(xs)
	dashes := 0
	for i := range xs {
		if xs[i].amt.dash {
			dashes++
		}
	}
	for k := Ammonia; k < other; k++ {
		r.settleKind(k, xs, dashes > 1)
	}
	r.left()
	r.result.Day, r.result.Date = r.day(), r.date()
	r.inOrder()
}

// sift drops what is no reading of ours or of now.
func (r *reader) sift(in []reading) (out []reading) {
	for i := range in {
		x := &in[i]
		vague := x.label != nil && x.label.vague != "" && !(x.kind == Chlorine && x.amt.isZero())
		if x.kind == other || x.amt.word == untested {
			continue
		}
		reason := x.sense.left
		if reason == "" && x.kind == Ammonia {
			reason = x.sense.dose
		}
		if reason == "" && x.kind == Temp {
			reason = x.sense.temp
		} else if reason == "" {
			reason = x.sense.habit
		}
		switch {
		case reason != "":
			r.leave(x, reason)
		case vague:
			r.doubtReading(x, x.label.vague)
		case x.sense.either && x.kind == Ammonia:
			r.doubtReading(x, "it can be a dose or a reading; write the reading in a sentence of its own")
		default:
			out = append(out, *x)
		}
	}
	return out
}

// oneTank makes everything doubtful when the post gives readings of two tanks.
func (r *reader) oneTank(xs []reading) []reading {
	var first, second *reading
	all := slices.Clone(xs)
	for i := range r.loose {
		if a := r.loose[i].amt; len(xs) > 0 && a.word == notWord && !a.count && (a.unit == ppm || a.unit == noUnit) {
			all = append(all, r.loose[i])
		}
	}
	for i := range all {
		switch {
		case all[i].sense.tank == nil:
		case first == nil:
			first = &all[i]
		case second == nil && all[i].sense.tank.key != first.sense.tank.key:
			second = &all[i]
		}
	}
	if second == nil {
		return xs
	}
	r.doubtAll(xs, "the post gives readings of more than one tank ("+first.sense.tank.name+", "+second.sense.tank.name+"); send one tank's readings at a time")
	return nil
}

// current drops older readings when newer ones are there; when all are old,
// the newest of them are doubtful.
func (r *reader) current(xs []reading) []reading {
	oneDay := !slices.ContainsFunc(xs, func(x reading) bool { // "on Saturday", as the post's only day
		return x.sense.mark == nil || x.sense.mark.class != markWeekday || !sameTime(x.sense.mark, xs[0].sense.mark)
	})
	now, old := split(xs, func(x *reading) bool {
		return !x.sense.old && !(x.sense.mark != nil && x.sense.mark.past && !oneDay) && !(x.sense.was && x.sense.rank < 0)
	})
	newest := math.Inf(-1)
	for i := range old {
		newest = max(newest, old[i].sense.rank)
	}
	last, older := split(old, func(x *reading) bool { return len(now) == 0 && x.sense.rank == newest })
	for i := range older {
		r.leave(&older[i], leftOld)
	}
	r.doubtAll(last, "it was not read now; give the day it was read, as in /reading at:2026-03-01, or write today's value")
	return now
}

// settleKind chooses among the readings of one test.
func (r *reader) settleKind(k Kind, xs []reading, dashed bool) {
	var c []reading
	for i := range xs {
		if xs[i].kind == k {
			c = append(c, xs[i])
		}
	}
	if slices.ContainsFunc(c, func(x reading) bool { return !x.sense.was }) {
		c = r.keep(c, func(x *reading) bool { return !x.sense.was || x.sense.anew(&c[0].sense) })
	}
	plain, odd := split(c, func(x *reading) bool { return x.sense.doubt == "" && x.amt.unit != dropsKit })
	newest := func(x *reading) bool {
		return !slices.ContainsFunc(plain, func(p reading) bool { return p.sense.rank > x.sense.rank-0.05 })
	}
	if len(plain) > 0 && !slices.ContainsFunc(odd, func(x reading) bool { return newest(&x) }) { // a question, a "not", a count of drops beside a plain reading
		for i := range odd {
			r.leave(&odd[i], cmp.Or(odd[i].sense.doubt, leftDrops))
		}
		c = plain
	}
	top := math.Inf(-1)
	for i := range c {
		top = max(top, c[i].sense.rank)
	}
	c = r.keep(c, func(x *reading) bool { return x.sense.rank > top-0.05 })
	if len(c) == 0 {
		return
	}
	r.chosen = append(r.chosen, c...)
	var found []Found
	for i := range c {
		f, reason := r.value(&c[i], dashed)
		if c[i].doubt != "" {
			reason = c[i].doubt
		}
		if c[i].sense.doubt != "" {
			reason = c[i].sense.doubt
		}
		if reason != "" {
			r.doubtReading(&c[i], reason)
			continue
		}
		found = append(found, f)
	}
	if len(found) < len(c) {
		return
	}
	for i := range found {
		if !alike(found[0], found[i]) {
			r.doubtReading(&c[0], "the post also gives "+r.src.quote(c[i].from, c[i].to)+" for it; write just the value that holds now")
			return
		}
	}
	r.result.Found = append(r.result.Found, found[0])
}

// keep leaves out the readings that ok rejects, as older.
func (r *reader) keep(c []reading, ok func(*reading) bool) []reading {
	kept, older := split(c, ok)
	for i := range older {
		r.leave(&older[i], leftOld)
	}
	return kept
}

// alike reports whether two readings of one test say the same, the second
// perhaps in another unit.
func alike(a, b Found) bool {
	tol := 1e-9
	if a.AsN != b.AsN && a.Kind <= Nitrate { // on both scales
		c := unit.Species(a.Kind).IonPerN()
		if b.AsN {
			c = 1 / c
		}
		a.Low, a.High, a.AsN = a.Low*c, a.High*c, b.AsN
		tol = 0.05 * a.High
	}
	switch a.Kind {
	case Temp:
		tol = 0.6
	case KH:
		tol = 0.05 + 0.06*a.Low
	}
	return a.Over == b.Over && math.Abs(a.Low-b.Low) <= tol && math.Abs(a.High-b.High) <= tol && a.AsN == b.AsN
}

// left asks about amounts in ppm without a name when the post has nothing else,
// and else tells that they were left out.
func (r *reader) left() {
	some := len(r.result.Found) > 0 || len(r.result.Doubtful) > 0
	for i := range r.loose {
		x := &r.loose[i]
		switch {
		case some && r.strange(x):
			r.doubt(x.from, x.to, "it does not say which test it is; write the name with it, as in ammonia 0.5, or leave it out")
		case x.amt.unit != ppm || x.sense.left != "" || x.sense.dose != "":
		case some:
			r.leave(x, "it does not say which test it is")
		default:
			r.doubt(x.from, x.to, "it does not say which test it is; write the name with it, as in ammonia 0.5")
		}
	}
}

// inOrder puts doubts in the order of the post and drops repeats.
func (r *reader) inOrder() {
	type placed struct {
		d  Doubt
		at int
	}
	var ds []placed
	for i, d := range r.result.Doubtful {
		ds = append(ds, placed{d, r.doubtAt[i]})
	}
	slices.SortStableFunc(ds, func(a, b placed) int { return cmp.Compare(a.at, b.at) })
	r.result.Doubtful = nil
	for _, p := range ds {
		if !slices.Contains(r.result.Doubtful, p.d) {
			r.result.Doubtful = append(r.result.Doubtful, p.d)
		}
	}
}

// inWords joins names for a reason.
func inWords(names []string) string { return strings.Join(names, ", ") }
