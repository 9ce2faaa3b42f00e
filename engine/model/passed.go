package model

import "math"

// passed is what milestones a run has passed, as days, NaN where it has not.
type passed struct {
	above   bool    // TAN was above ClearTAN
	ammonia float64 // when TAN first fell below ClearTAN after that
	peak    float64 // highest nitrite so far, mg N/L, counted from ClearNO2
	peakDay float64 // when that was
	nitrite float64 // when nitrite fell below ClearNO2 after the peak
}

var nothingPassed = passed{ammonia: math.NaN(), peak: float64(ClearNO2), peakDay: math.NaN(), nitrite: math.NaN()}

// look takes note of a step from s0 at t0 to s1 at t1.
func (m *passed) look(t0, t1 float64, s0, s1 *State) {
	const tan, no2 = float64(ClearTAN), float64(ClearNO2)
	if s0.TAN >= tan {
		m.above = true
	}
	if m.above && s1.TAN < tan && math.IsNaN(m.ammonia) {
		m.ammonia = crossing(t0, t1, s0.TAN, s1.TAN, tan)
	}
	if s1.NO2 > m.peak {
		m.peak, m.peakDay, m.nitrite = s1.NO2, t1, math.NaN()
	} else if s1.NO2 < no2 && math.IsNaN(m.nitrite) && !math.IsNaN(m.peakDay) {
		m.nitrite = crossing(t0, t1, s0.NO2, s1.NO2, no2)
	}
}
