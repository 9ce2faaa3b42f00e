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

// lowestKH is the lowest alkalinity stated, read, or foreseen up to now.
func (s *study) lowestKH() unit.MgCaCO3 {
	low := s.c.Setup.KH
	for _, r := range s.c.Readings {
		if r.KH != nil && float64(r.Day) <= s.now {
			low = min(low, *r.KH)
		}
	}
	return min(low, s.alkalinity())
}

// alkalinity is the median draw's alkalinity now.
func (s *study) alkalinity() unit.MgCaCO3 {
	var v []float64
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/32, 1) {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(s.now, nil)
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
	for i, e := range s.c.Events {
		if e.Kind != model.Dose || float64(e.Day) > s.now {
			continue
		}
		sum := 0.0
		for _, f := range s.c.Events[i:] {
			if f.Kind == model.Dose && f.Day < e.Day+1 {
				sum += float64(f.N)
			}
		}
		most = max(most, sum)
	}
	return most
}

// starved says whether hardly any ammonia went in over the last ten days: less
// than a third of the target by the fitted tank, with neither ammonia nor
// nitrite read.
func (s *study) starved() bool {
	from := max(s.now-10, 0)
	if s.now < 4 {
		return false
	}
	for _, r := range s.c.Readings {
		if d := float64(r.Day); d < from || d > s.now {
			continue
		}
		if r.Ammonia != nil && r.Ammonia.Ion(unit.Ammonia) >= 0.4 || r.Nitrite != nil && r.Nitrite.Ion(unit.Nitrite) >= 0.4 {
			return false
		}
	}
	set := &s.c.Setup
	if set.Method == model.Food && !set.Given.Feed && len(s.events(model.FeedOnce)) == 0 {
		return true // no food was told of, and none shows
	}
	var supply []float64
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/64, 1) {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(from, nil)
		before := r.Ledger.In - r.State.Soil - r.State.Org
		if from == 0 {
			before = r.Ledger.In // what was dosed at the start counts
			before -= r.State.TAN
		}
		r.To(s.now, nil)
		supply = append(supply, r.Ledger.In-r.State.Soil-r.State.Org-before)
	}
	return quantile(supply, 0.5) < float64(s.c.Setup.Target)/3
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

// backlog is the chance that more nitrite has piled up than ordinary dosing
// makes, 16 mg/L as NO2, and than the nitrite oxidisers can clear in four days.
func (s *study) backlog() float64 {
	most := float64(unit.MgIon(16).N(unit.Nitrite))
	n := 0.0
	for i := range s.post.Draws {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(s.now, nil)
		if no2 := r.State.NO2; no2 > most && no2 > 4*r.Capacity()[1] {
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

// plantShare is the mean share of the nitrogen used so far that plants took.
func (s *study) plantShare() float64 {
	sum, n := 0.0, 0.0
	for i := 0; i < len(s.post.Draws); i += max(len(s.post.Draws)/64, 1) {
		r := s.post.Plan.Start(&s.post.Draws[i])
		start := r.State.NO3
		r.To(s.now, nil)
		used := r.State.Plant + math.Max(r.State.NO3-start, 0) + r.State.NO2
		if used > 0.05 {
			sum += r.State.Plant / used
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return sum / n
}
