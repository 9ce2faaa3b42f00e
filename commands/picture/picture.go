// Package picture draws a tank as a member sees it on a phone: what was read, the
// course that the engine takes for likely, what was done, and when it will be done.
//
// A Picture is data alone, in the reader's units; PNG of the same Picture is the same
// bytes every time. Colours were chosen to stay apart for the colour-blind, and carry
// no meaning that a place or a word does not carry too. The paper is opaque and framed,
// so that it can stand on dark and on light.
package picture

// Picture is all that is drawn. Days count from the tank's start.
type Picture struct {
	Title  string  `json:"title"`
	First  float64 `json:"first_day"`
	Now    float64 `json:"now"`
	Last   float64 `json:"last_day"`
	Done   Window  `json:"done_day"`
	Pools  []Panel `json:"pools"`  // ammonia, nitrite, nitrate
	Waters []Panel `json:"waters"` // pH, KH, temperature
	Events []Event `json:"events"` // by day
}

// Window is when the tank will be done, as 10, 50 and 90 % points; nil past the horizon.
type Window struct {
	P10 *float64 `json:"p10"`
	P50 *float64 `json:"p50"`
	P90 *float64 `json:"p90"`
}

// Panel is one quantity over the days.
type Panel struct {
	Name   string  `json:"name"`
	Unit   string  `json:"unit"`
	Course []Level `json:"course"` // by day
	Read   []Mark  `json:"read"`   // by day
}

// Level is what the engine takes for likely on a day, as quantiles in percent.
type Level struct {
	Day float64 `json:"day"`
	P10 float64 `json:"p10"`
	P25 float64 `json:"p25"`
	P50 float64 `json:"p50"`
	P75 float64 `json:"p75"`
	P90 float64 `json:"p90"`
}

// Mark is one value that was read, and the range that its step of the chart stands for.
type Mark struct {
	Day   float64 `json:"day"`
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	Open  bool    `json:"open,omitempty"` // the top of the chart: Low or more
}

// Event is something done.
type Event struct {
	Day  float64 `json:"day"`
	What string  `json:"what"`
}
