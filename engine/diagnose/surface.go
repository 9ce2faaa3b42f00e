package diagnose

import (
	"ripen/engine/model"
	"ripen/engine/unit"
)

// How much media a load needs: a 400th of the water carries the usual dose with little to
// spare, a 60th amply. Common practice, no source; what too little costs is computed.
const (
	scarceMedia = 1. / 400
	ampleMedia  = 1. / 60
)

// load is the ammonia that the tank has to carry a day, mg N/L: what its animals make of
// their food where it is held to that, else the dose that must clear, or the food that
// starts it if that is more.
func (s *study) load() float64 {
	set := s.post.Plan.Current()
	fed := model.FoodN * float64(set.Feed) / max(float64(set.Volume), 0.1)
	if s.post.Plan.Rationed() {
		return fed
	}
	if target := float64(s.c.Setup.Target); set.Method != model.Food || fed < target {
		return target
	}
	return fed
}

// usualLoads is the load in doses of 2 mg/L a day.
func (s *study) usualLoads() float64 { return s.load() / float64(unit.MgIon(2).N(unit.Ammonia)) }

// littleSurface says whether the media are too few for the load.
func (s *study) littleSurface() bool {
	return s.litresOfMedia() < scarceMedia*float64(s.c.Setup.Volume)*s.usualLoads()
}

// ampleSurface is how much media carries the load with room to spare.
func (s *study) ampleSurface() unit.Litres {
	return unit.Litres(ampleMedia * max(s.usualLoads(), 1) * float64(s.c.Setup.Volume))
}
