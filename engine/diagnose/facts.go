package diagnose

import (
	"cmp"
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/unit"
)

func sortEvents(c *model.Case) {
	slices.SortStableFunc(c.Events, func(a, b model.Event) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), cmp.Compare(a.Seq, b.Seq))
	})
}

// lowestPH is the lowest pH stated or read so far.
func (s *study) lowestPH() float64 {
	low := s.c.Setup.PH
	for _, r := range s.c.Readings {
		if r.PH != nil && float64(r.Day) <= s.now {
			low = min(low, *r.PH)
		}
	}
	return low
}

// acid says whether the water was acid to begin with, or became so for other
// reasons than that its alkalinity was used up.
func (s *study) acid() bool {
	if s.c.Setup.PH < 6.9 {
		return true
	}
	return s.lowestPH() < 6.9 && s.lowestKH() > unit.DKH(2.5).CaCO3()
}

// lowestKH is the lowest alkalinity stated, read, or foreseen up to now.
func (s *study) lowestKH() unit.MgCaCO3 {
	low := s.c.Setup.KH
	for _, r := range s.c.Readings {
		if r.KH != nil && float64(r.Day) <= s.now {
			low = min(low, *r.KH)
		}
	}
	return min(low, s.alkalinity(s.now))
}

// alkalinity is the median draw's alkalinity on a day.
func (s *study) alkalinity(day float64) unit.MgCaCO3 {
	var v []float64
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/32, 1) {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(day, nil)
		v = append(v, r.State.Alk)
	}
	slices.Sort(v)
	return unit.MeqL(v[len(v)/2]).CaCO3()
}

// flow is the filter's flow now.
func (s *study) flow() model.Flow {
	f := s.c.Setup.Flow
	for _, ch := range s.c.Changes {
		if ch.Flow != nil && float64(ch.Day) <= s.now {
			f = *ch.Flow
		}
	}
	return f
}

// litresOfMedia is the volume of media that carry film, now; sand and floss
// count by their area.
func (s *study) litresOfMedia() float64 {
	if s.c.Setup.Media == model.NoMedia {
		v := 0.0
		for _, e := range s.events(model.MediaAdded) {
			v += float64(e.Volume)
		}
		return v
	}
	return float64(s.c.Setup.MediaVolume)
}

// largestDose is the most ammonia dosed within a day, mg N/L, assumed doses
// included.
func (s *study) largestDose() float64 {
	most := 0.0
	for _, d := range s.doses() {
		most = max(most, d)
	}
	return most
}

// doses are the sums of what was dosed day by day up to now, mg N/L, assumed doses
// included.
func (s *study) doses() (sums []float64) {
	from := math.Inf(-1)
	for _, e := range s.c.Events {
		if e.Kind != model.Dose || e.Perhaps || float64(e.Day) > s.now {
			continue
		}
		if float64(e.Day) >= from+1 {
			from = float64(e.Day)
			sums = append(sums, 0)
		}
		sums[len(sums)-1] += float64(e.N)
	}
	return sums
}

// starved says whether hardly any ammonia went in over the last ten days: less
// than a third of the target by the fitted tank, with neither ammonia nor
// nitrite read, and no doses but those noted.
func (s *study) starved() bool {
	from := max(s.now-10, 0)
	if s.now < 4 || s.animals() || s.silent() { // animals are fed, and nothing is dosed onto them
		return false
	}
	shown, tests := 0, 0 // one such reading among others may be a slip
	for _, r := range s.c.Readings {
		if d := float64(r.Day); d < from || d > s.now {
			continue
		}
		if r.Ammonia != nil || r.Nitrite != nil {
			tests++
		}
		if r.Ammonia != nil && r.Ammonia.Ion(unit.Ammonia) >= 0.4 || r.Nitrite != nil && r.Nitrite.Ion(unit.Nitrite) >= 0.4 {
			shown++
		}
	}
	unfed := s.unfed()
	if unfed {
		from = s.now - idleDays
	}
	if !unfed && (shown > 1 || shown == 1 && tests == 1) {
		return false
	}
	set := &s.c.Setup
	if tests == 0 && len(s.events(model.Dose)) > 0 { // what was given may be there still
		return false
	}
	if set.Method == model.Food && !set.Given.Feed && len(s.events(model.FeedOnce)) == 0 {
		return true // no food was told of, and none shows
	}
	var supply, stood []float64 // what went in, and how much ammonia there was then, mg N/L
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/64, 1) {
		if s.post.Draws[i].Silent && s.perhaps() {
			continue
		}
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(from, nil)
		tan := r.State.TAN
		before := r.Ledger.In - r.State.Soil - r.State.Org
		if from == 0 {
			before = r.Ledger.In // what was dosed at the start counts
			before -= r.State.TAN
		}
		r.To((from+s.now)/2, nil)
		tan = max(tan, r.State.TAN)
		r.To(s.now, nil)
		stood = append(stood, max(tan, r.State.TAN))
		supply = append(supply, r.Ledger.In-r.State.Soil-r.State.Org-before)
	}
	return len(supply) > 0 && quantile(supply, 0.5) < float64(s.c.Setup.Target)/2 && quantile(stood, 0.5) < 0.15
}

// idleDays is how long bacteria of the first step have gone without food when that is told though
// nitrite still stands; common practice, no source.
const idleDays = 7

// unfed says whether nothing went in for so long, two tests or more in that time show no ammonia,
// and nitrite, which stopping helps while it is off its chart, was last read below that.
func (s *study) unfed() bool {
	if m := s.c.Setup.Method; m == model.Planted || m == model.DarkStart { // which feed themselves
		return false
	}
	from := s.now - idleDays
	if slices.ContainsFunc(s.c.Events, func(e model.Event) bool {
		return (e.Kind == model.Dose && !e.Perhaps || e.Kind == model.FeedOnce || e.Kind == model.Stocked) && float64(e.Day) > from && float64(e.Day) <= s.now
	}) {
		return false
	}
	clear := 0
	for _, r := range s.c.Readings {
		if x := r.Ammonia; x != nil && float64(r.Day) > from && float64(r.Day) <= s.now {
			if clear++; x.Ion(unit.Ammonia) >= 0.4 {
				return false
			}
		}
	}
	return clear >= 2 && !s.offChart()
}

// perhaps says whether there are doses that may have been given without a note.
func (s *study) perhaps() bool {
	return slices.ContainsFunc(s.c.Events, func(e model.Event) bool { return e.Perhaps })
}

// noted is the chance that no doses were given but those noted.
func (s *study) noted() float64 {
	if !s.perhaps() {
		return 1
	}
	n := 0.0
	for i := range s.post.Draws {
		if !s.post.Draws[i].Silent {
			n++
		}
	}
	return n / float64(len(s.post.Draws))
}

// untreated are the logged changes of chlorinated water that were surely or by
// habit not conditioned.
func (s *study) untreated() []model.Event {
	if s.c.Setup.Source > model.Chloraminated {
		return nil
	}
	var out []model.Event
	for _, e := range s.events(model.WaterChange) {
		if e.Treated == model.No || e.Treated == model.AsHabit && !s.c.Setup.Conditioner {
			out = append(out, e)
		}
	}
	return out
}

// offChart says whether nitrite was last read at the end of its chart, or high.
func (s *study) offChart() bool {
	for _, r := range slices.Backward(s.c.Readings) {
		if r.Nitrite != nil && float64(r.Day) <= s.now {
			return r.Nitrite.Over || r.Nitrite.Ion(unit.Nitrite) >= 4.5
		}
	}
	return false
}

// backlog is the chance that more nitrite has piled up than ordinary dosing
// makes, 10 mg/L as NO2, and than the nitrite oxidisers can clear in three days.
func (s *study) backlog() float64 {
	most := float64(unit.MgIon(10).N(unit.Nitrite))
	n := 0.0
	for i := range s.post.Draws {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(s.now, nil)
		if no2 := r.State.NO2; no2 > most && no2 > 3*r.Capacity()[1] {
			n++
		}
	}
	return n / float64(len(s.post.Draws))
}

// planted says whether any plants were stated or logged.
func (s *study) planted() bool {
	return s.c.Setup.Plants != model.NoPlants || len(s.events(model.PlantsAdded)) > 0 ||
		slices.ContainsFunc(s.c.Changes, func(ch model.Change) bool { return ch.Plants != nil && *ch.Plants != model.NoPlants })
}

// fewPlants says whether a few slow plants are all that was stated.
func (s *study) fewPlants() bool {
	return s.c.Setup.Plants <= model.FewSlow && len(s.events(model.PlantsAdded)) == 0 &&
		!slices.ContainsFunc(s.c.Changes, func(ch model.Change) bool { return ch.Plants != nil && *ch.Plants > model.FewSlow })
}

// plantShares is, for each of some draws, the share of the nitrogen supplied so far
// that plants took.
func (s *study) plantShares() []float64 {
	var out []float64
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/64, 1) {
		r := s.post.Plan.Start(&s.post.Draws[i])
		start := r.State.NO3
		r.To(s.now, nil)
		q := r.State
		supplied := q.Plant + math.Max(q.NO3-start, 0) + q.NO2 + q.TAN
		out = append(out, q.Plant/max(supplied, 0.05))
	}
	return out
}

// mostToPlants is the chance that plants took the most of what was supplied.
func (s *study) mostToPlants() float64 {
	n := 0.0
	shares := s.plantShares()
	for _, x := range shares {
		if x > 0.5 {
			n++
		}
	}
	return n / float64(len(shares))
}

// seedMatch is the share that the step from the donor's water left of the seed
// that suffered most from it; 1 without one.
func (s *study) seedMatch() float64 {
	least := 1.0
	for _, e := range s.events(model.Seed) {
		r := s.post.Plan.Start(&s.post.Draws[0])
		r.To(float64(e.Day), nil)
		l := r.Survival(&e)
		least = min(least, l.PH*l.Temp*l.Salinity)
	}
	return least
}
