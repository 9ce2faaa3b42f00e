package model

import "math"

// passed is what milestones a run has passed, as days, NaN where it has not.
type passed struct {
	above   float64 // 1 when TAN was above ClearTAN
	ammonia float64 // when TAN first fell below ClearTAN after that
	peak    float64 // highest nitrite so far, mg N/L, counted from ClearNO2
	peakDay float64 // when that was
	nitrite float64 // when nitrite fell below ClearNO2 after the peak
}

// Where ammonia comes to risen times its limit by itself, not by a dose, while nitrite, mg N/L, hardly
// showed, its first fall was none: food takes days to rot.
const risen, hardly = 4, 0.2

var nothingPassed = passed{ammonia: math.NaN(), peak: float64(ClearNO2), peakDay: math.NaN(), nitrite: math.NaN()}

// look takes note of a step that ended at t1, with ammonia at both ends and nitrite at its end.
// It says whether either fell below its limit, so that cross must be called.
func (m *passed) look(t1, tan0, tan1, no21 float64) (crossed bool) {
	const tan, no2 = float64(ClearTAN), float64(ClearNO2)
	if tan0 >= tan {
		m.above = 1
	}
	if tan0 < risen*tan && tan1 >= risen*tan && m.peak < hardly {
		m.ammonia = math.NaN()
	}
	crossed = m.above > 0 && tan1 < tan && math.IsNaN(m.ammonia)
	if no21 > m.peak {
		m.peak, m.peakDay, m.nitrite = no21, t1, math.NaN()
	} else {
		crossed = crossed || no21 < no2 && math.IsNaN(m.nitrite) && !math.IsNaN(m.peakDay)
	}
	return crossed
}

// cross notes when what look saw was, between t0 and t1, with ammonia and nitrite at both ends.
func (m *passed) cross(t0, t1, tan0, no20, tan1, no21 float64) {
	const tan, no2 = float64(ClearTAN), float64(ClearNO2)
	if m.above > 0 && tan1 < tan && math.IsNaN(m.ammonia) {
		m.ammonia = crossing(t0, t1, tan0, tan1, tan)
	}
	if no21 < no2 && math.IsNaN(m.nitrite) && !math.IsNaN(m.peakDay) { // so not at its peak, which is above no2
		m.nitrite = crossing(t0, t1, no20, no21, no2)
	}
}
