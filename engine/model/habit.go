package model

import (
	"math"
	"slices"

	"ripen/engine/unit"
)

// Habit is how the keeper is assumed to go on after now.
type Habit struct {
	Dose     unit.MgN   // total ammonia added whenever it is clear, 0 for none
	Prove    bool       // once ammonia and nitrite are both clear, the full target is dosed to try the tank
	Salt     bool       // the dose is an ammonium salt
	Every    float64    // at most one dose in so many days
	Look     float64    // days between looks at the tank, 1 to 7: a dose is given on seeing it clear
	Change   float64    // water change, share of the volume, 0 for none
	Interval float64    // days between water changes
	Treated  Treated    // the new water's treatment
	Refresh  bool       // half the water is changed when most of its alkalinity is used up
	Heed     float64    // 0..1: how far the log shows that this is seen; Doubt.Notice counts for the rest
	Feed     unit.Grams // food logged meal by meal, g per day, 0 for none
}

// holdNO2 is the nitrite above which keepers hold back the next dose: about
// 5 mg/L as NO2, where charts end. Common practice, no source.
const holdNO2 unit.MgN = 1.6

// habit reads the keeper's habit off the log up to now.
func habit(c *Case, now float64) Habit {
	var h Habit
	var doses, feeds int
	var fed, firstFeed, lastChange, firstChange float64
	changes := 0
	var animals unit.Grams // put in since the start
	for _, e := range c.Events {
		d := float64(e.Day)
		if d > now {
			break
		}
		switch e.Kind {
		case Dose:
			if e.Perhaps {
				continue
			}
			doses++
			if !e.Assumed && e.N > 0 {
				h.Dose, h.Salt = e.N, e.Salt
			}
		case Stocked:
			animals += e.Mass
		case Losses:
			animals = max(animals-e.Mass, 0)
		case FeedOnce:
			if d < now-21 {
				continue
			}
			if feeds++; feeds == 1 {
				firstFeed = d
			}
			fed += float64(e.Mass)
		case WaterChange:
			if d < now-28 || e.Fraction <= 0 {
				continue
			}
			h.Treated = e.Treated
			if changes > 0 && d < lastChange+1 { // one change in parts
				h.Change = 1 - (1-h.Change)*(1-e.Fraction)
				continue
			}
			if changes++; changes == 1 {
				firstChange = d
			}
			lastChange, h.Change = d, e.Fraction
		}
	}
	// The last logged dose is kept up, but not one that overshot by far.
	h.Every, h.Look = 1, rhythm(c, now)
	// Tanks that start on soil or plants are proved by doses once they are clear.
	m := c.Setup.Method
	dosed := m == Dosed || m == Seeded || m == DarkStart || m == Planted
	if h.Dose == 0 && dosed || h.Dose > 2*c.Setup.Target || dosed && h.Dose < c.Setup.Target/4 {
		h.Dose = c.Setup.Target
	}
	h.Prove = m != FishIn
	if m == Planted {
		h.Every = 3
	}
	if !dosed && doses < 2 {
		h.Dose = 0
	}
	if animals > 0 { // nobody doses onto animals
		h.Dose, h.Prove = 0, false
	}
	if changes >= 2 {
		h.Interval = max((lastChange-firstChange)/float64(changes-1), (now-firstChange)/float64(changes))
	}
	if changes < 2 || h.Interval > 10 {
		h.Change = 0
	}
	h.Refresh, h.Heed = refreshes(c, now), heed(c, now)
	if feeds >= 2 {
		h.Feed = unit.Grams(fed / max(now-firstFeed, 1))
	}
	return h
}

// usedUp is the share of the stated alkalinity below which keepers are assumed
// to change water. Common practice, no source.
const usedUp = 0.5

// refreshes says whether the keeper may be assumed to keep the alkalinity up:
// not when a reading has shown that it is used up and no water was changed nor
// buffer added after it.
func refreshes(c *Case, now float64) bool {
	low := -1.0
	for _, r := range c.Readings {
		if r.KH != nil && float64(r.Day) <= now {
			low = -1
			if *r.KH < usedUp*c.Setup.KH {
				low = float64(r.Day)
			}
		}
	}
	if low < 0 {
		return true
	}
	for _, e := range c.Events {
		if d := float64(e.Day); d >= low && d <= now && (e.Kind == WaterChange || e.Kind == Buffer) {
			return true
		}
	}
	return false
}

// Keepers who test the hardness, or who brought it up as it fell, see it go sooner than those who
// may not know of it. By how much is our own judgement, no source.
const heedsTested, heedsRaised = 0.4, 0.7

// heed says how far the log shows that the keeper has an eye on the hardness.
func heed(c *Case, now float64) float64 {
	var days []float64 // of tests
	low := math.Inf(1) // first day on which one was low
	for _, r := range c.Readings {
		if d := float64(r.Day); r.KH != nil && d <= now {
			if len(days) == 0 || d >= days[len(days)-1]+1 {
				days = append(days, d)
			}
			if *r.KH < usedUp*c.Setup.KH {
				low = min(low, d)
			}
		}
	}
	for _, e := range c.Events {
		if d := float64(e.Day); d <= now && (e.Kind == Buffer || e.Kind == WaterChange && d >= low) {
			return heedsRaised
		}
	}
	if len(days) >= 2 {
		return heedsTested
	}
	return 0
}

// untold is how many days lie between the looks of keepers who have told nothing
// yet: every day or every second. Common practice, no source.
const untold = 1.5

// rhythm is how many days lie between the keeper's looks at the tank, by the
// readings and doses of the log: the geometric mean of the gaps, one gap of
// untold taken in, which is all there is while little was told. Who notes no doses looks
// more often than the log tells.
func rhythm(c *Case, now float64) float64 {
	var days []float64
	for _, r := range c.Readings {
		days = append(days, float64(r.Day))
	}
	for _, e := range c.Events {
		if e.Kind == Dose && !e.Assumed {
			days = append(days, float64(e.Day))
		}
	}
	most := 7.
	if len(days)-len(c.Readings) <= 1 { // doses go without a note, so not every look is one told
		most = silentEvery
	}
	slices.Sort(days)
	sum, gaps, last := math.Log(untold), 1.0, 0.0
	for _, d := range days {
		if gap := d - last; gap >= 0.75 && d <= now { // less is the same look
			sum += math.Log(gap)
			gaps++
			last = d
		}
	}
	return min(max(math.Exp(sum/gaps), 1), most)
}
