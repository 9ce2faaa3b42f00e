// Package outlook turns a fitted tank into a timeline: when it will be done,
// how sure that is, and what the next readings will likely show.
package outlook

import "ripen/engine/unit"

// Quantiles are the 10, 50 and 90 % points of a distribution, in the unit of what
// they are of; nil past the horizon.
type Quantiles struct {
	P10 *float64 `json:"p10"`
	P50 *float64 `json:"p50"`
	P90 *float64 `json:"p90"`
}

// Milestone is a turning point of the cycle, in days from the tank's start.
type Milestone struct {
	Name string    `json:"name"` // "ammonia-clear", "nitrite-peak", "nitrite-clear"
	Day  Quantiles `json:"day"`
}

// NextReading is what kits on the ion scale will likely show, mg/L.
type NextReading struct {
	Day                       float64
	Ammonia, Nitrite, Nitrate Quantiles
}

// Point is one day of the projected course, in mg/L on the ion scale.
type Point struct {
	Day                                   float64
	Ammonia, Nitrite, Nitrate             Quantiles
	AmmoniaHalf, NitriteHalf, NitrateHalf Half
}

// Half is the middle half of a distribution, its 25 and 75 % points.
type Half struct{ P25, P75 float64 }

// Outlook is the projection of one tank. Days count from the tank's start.
type Outlook struct {
	Day             float64                   // now
	Stage           string                    // "ammonia", "nitrite", "proving", "ready"
	PassedOnce      bool                      // a whole dose was noted and cleared within a day, by the last test
	Again           bool                      // it was past that stage before, and what cleared it was lost
	Done            Quantiles                 // day the target dose clears within 24 h
	ChanceBy        map[int]float64           // days from now (7, 14, 30, 60) -> chance of done by then
	Horizon         float64                   // days from the start that anything is foretold for: 180, or more for an old tank
	ChanceNotWithin float64                   // chance that it is not done within 180 days of the start
	ChanceDoneOn    func(day float64) float64 `json:"-"` // chance of done by a day since start
	Milestones      []Milestone               // in the order of a usual cycle
	Next            NextReading               // on the usual day
	Course          []Point                   // daily from the start to a little past done
	Readings        int                       // readings that were fitted
	Fit             string                    // "good", "strained", "poor", "none"
	Odd             []string                  // what looks wrong in the readings, in plain words, when Fit is not good
	Stands          string                    // ammonia or nitrite that the last tests show against all else, in plain words; "" for none
	Crash           string                    // the reading that shows that the hardness is used up, in plain words; "" for none
	Against         string                    // the last test, where it alone shows what should be clear, in plain words; "" for none
	DoseNow         unit.MgN                  // ammonia that is due now, as the last test was clear and none was dosed since; 0 for none
	Untold          bool                      // nothing was told, for weeks, that bacteria live on
	Rationed        bool                      // done means that the filter carries the animals that are in, not a dose
	Assumed         []string                  // doses inferred and typical values taken, in plain words
	ESS             float64                   // effective sample size of the posterior
	KeepUp          string                    // how the keeper is assumed to go on, in plain words
}
