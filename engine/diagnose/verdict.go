package diagnose

import (
	"math"

	"ripen/engine/chem"
	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// verdict compares the tank with others of its set-up that have no fault.
func (s *study) verdict(ref []float64) string {
	if s.out.Stage == "ready" {
		return Ready
	}
	if s.out.ChanceDoneOn(s.now) > 0.5 { // done already, for all that is known
		return OnTrack
	}
	begun, _ := s.begun()
	late := begun + quantile(ref, 0.8)
	p50 := quantile(s.done, 0.5)
	still := s.standstill()
	switch {
	case s.now >= 7 && still > 0.6 && p50 > late:
		return Stalled
	case p50 > late && p50 > begun+quantile(ref, 0.5)+2:
		return Slow
	}
	return OnTrack
}

// standstill is the chance that the guild that limits the tank now has grown by
// less than a quarter over the last week.
func (s *study) standstill() float64 {
	if s.now < 7 {
		return 0
	}
	still := 0.0
	n := 0.0
	for i := 0; i < len(s.post.Draws); i += 2 {
		r := s.post.Plan.Start(&s.post.Draws[i])
		r.To(s.now-7, nil)
		before := r.Capacity()
		r.To(s.now, nil)
		after := r.Capacity()
		k := 0
		if after[1] < after[0] {
			k = 1
		}
		if after[k] < 1.25*before[k] && s.done[i] > s.now+5 {
			still++
		}
		n++
	}
	return still / n
}

// reference returns tanks of the same set-up without a fault and without readings:
// what can be put right is put right.
func (s *study) reference() *fit.Posterior {
	set := s.c.Setup
	set.Conditioner = true
	if set.PH < 7.1 {
		set.PH = goodPH
	}
	set.KH = max(set.KH, goodKH)
	set.Temp = min(max(set.Temp, 24), goodTempHot)
	set.Flow = max(set.Flow, model.Normal)
	if s.starts() {
		set.Feed = min(set.Feed, s.fedFor())
	}
	if s.littleSurface() {
		set.Media, set.MediaVolume = model.Sponge, s.ampleSurface()
	}
	return fit.Fit(model.Case{Setup: set}, 0, fit.Hypothesis{}, fewDraws)
}

// delay is how much later than the middle of such tanks, begun on the same day, this one will
// be, by its outlook, so that the two answers agree.
func (s *study) delay(like *fit.Posterior) outlook.Quantiles {
	mid := quantile(outlook.Foretold(like), 0.5)
	begun, _ := s.begun()
	mid += begun
	at := func(day *float64) *float64 {
		if day == nil || math.IsInf(mid, 1) {
			return nil
		}
		v := math.Round((*day-mid)*10) / 10
		return &v
	}
	return outlook.Quantiles{P10: at(s.out.Done.P10), P50: at(s.out.Done.P50), P90: at(s.out.Done.P90)}
}

// bicarbonate is the sodium bicarbonate, g, that raises v litres by a.
func bicarbonate(a unit.MgCaCO3, v unit.Litres) float64 {
	return float64(a) * float64(v) * chem.BicarbonatePerAlk / 1000
}
