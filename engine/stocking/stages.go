package stocking

import (
	"math"

	"ripen/engine/unit"
)

// wait takes the herd to the first day, now to a week ahead, that the water is
// within the limits with Chance, no ammonia being dosed. It returns false if there
// is none, with the herd at now.
func (h *herd) wait() bool {
	ahead := *h
	ahead.runs = append(ahead.runs[:0:0], h.runs...)
	for range between + 1 {
		t := make(trial, len(ahead.runs))
		for i := range t {
			t[i] = ahead.level(&ahead.runs[i])
		}
		if t.chance() >= Chance {
			*h = ahead
			h.firstDay = h.day
			return true
		}
		ahead.advance(1, false)
	}
	return false
}

// The least that is worth a step, as a share of what is wanted or of what the
// filter carries, whichever is less; and how finely a step is found.
const (
	leastStep = 0.1
	halvings  = 6
)

// stages finds the steps: each the largest that the prudent share of the capacity
// then allows and that keeps all levels so far, and for two weeks on, within the
// limits with Chance. A week in which nothing can go in is left out. Each
// takes what it can, so a smaller first step might leave room for a little more in all.
func (h *herd) stages(wanted Load) (steps []Step, staged *Peaks) {
	left := 1.0 // share of wanted
	var last trial
	for range mostWeeks {
		if wanted.Feed <= 0 || left <= 0 {
			break
		}
		share, t := h.most(wanted, left)
		if share > 0 {
			more := wanted.part(share)
			c, plan := h.with(more)
			h.c = c
			for i := range h.runs {
				h.runs[i].Follow(plan)
			}
			h.total = h.total.plus(more)
			steps = append(steps, Step{Day: h.day, Add: more, Total: h.total, Chance: t.chance()})
			last = t
			if left -= share; left < 1e-9 {
				break
			}
		}
		h.advance(between, len(steps) > 0)
	}
	if last == nil {
		return nil, nil
	}
	return steps, last.peaks()
}

// most is the largest share of what is wanted that may go in at the herd's day, at
// most left, with its trial; 0 if it is not worth a step.
func (h *herd) most(wanted Load, left float64) (float64, trial) {
	room := float64((h.carries() - h.total.Feed) / wanted.Feed)
	top := min(left, round(room, wanted.Animals))
	least := leastStep * min(1, float64(h.carries()/wanted.Feed))
	if top <= 0 || top < min(least, left) {
		return 0, nil
	}
	if t := h.try(wanted.part(top)); t.chance() >= Chance {
		return top, t
	}
	var best float64
	var kept trial
	low, high := 0.0, top
	for range halvings {
		mid := round((low+high)/2, wanted.Animals)
		if mid <= low || mid >= high {
			break
		}
		if t := h.try(wanted.part(mid)); t.chance() >= Chance {
			low, best, kept = mid, mid, t
		} else {
			high = mid
		}
	}
	if best < min(least, left) {
		return 0, nil
	}
	return best, kept
}

// round lowers a share so that it makes a mass of two digits, as is told.
func round(share float64, of unit.Grams) float64 {
	mass := share * float64(of)
	if !(mass > 0) {
		return 0
	}
	k := math.Pow10(1 - int(math.Floor(math.Log10(mass))))
	return math.Floor(mass*k+1e-9) / k / float64(of)
}
