package diagnose

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// fedFor is the food a day, g, whose ammonia comes to half of the target: more piles up
// while bacteria are few.
func (s *study) fedFor() unit.Grams {
	return unit.Grams(float64(s.c.Setup.Target) / 2 * float64(s.c.Setup.Volume) / model.FoodN)
}

// starts says whether food is what starts the tank, so that it may be given at will.
func (s *study) starts() bool { return s.c.Setup.Method == model.Food && !s.animals() }

// fed is the food told of, g a day: as a daily ration or meal by meal; with animals in, what they get.
func (s *study) fed() float64 {
	if s.animals() {
		return float64(s.post.Plan.Current().Feed)
	}
	daily := 0.0
	if s.c.Setup.Given.Feed {
		daily = float64(s.c.Setup.Feed)
	}
	meals := 0.0
	for _, e := range s.events(model.FeedOnce) {
		meals += float64(e.Mass)
	}
	return daily + meals/max(s.now, 1)
}

// fedTooMuch says whether a tank that food starts gets so much that two readings in a row
// show a pile of ammonia, twice the target.
func (s *study) fedTooMuch() bool {
	if !s.starts() || s.fed() <= float64(s.fedFor()) {
		return false
	}
	n := 0
	for _, r := range s.c.Readings {
		if x := r.Ammonia; x != nil && float64(r.Day) <= s.now {
			if n++; float64(unit.MgIon(x.Ion(unit.Ammonia)).N(unit.Ammonia)) < 1.9*float64(s.c.Setup.Target) {
				n = 0
			}
		}
	}
	return n >= 2
}

// overfed says whether animals that were weighed or whose food was told get more than that.
func (s *study) overfed() bool {
	g := &s.c.Setup.Given
	return s.animals() && (g.Stock || g.Feed || s.post.Plan.Rationed()) && s.fed() > float64(s.fedFor())
}

// capFood keeps the food of a tank that it starts, or of animals that were weighed or whose food was told,
// to what its bacteria can be fed with.
func (s *study) capFood(c *model.Case) {
	if !s.starts() && !s.overfed() {
		return
	}
	most := s.fedFor()
	c.Setup.Feed = min(c.Setup.Feed, most)
	for i := range c.Changes {
		if f := c.Changes[i].Feed; f != nil && *f > most {
			c.Changes[i].Feed = &most
		}
	}
	for i := range c.Events {
		switch e := &c.Events[i]; e.Kind {
		case model.FeedOnce:
			e.Mass = min(e.Mass, most)
		case model.Stocked:
			e.Mass = min(e.Mass, most/model.Ration)
		}
	}
}
