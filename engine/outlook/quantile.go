package outlook

import "math"

// DoneBy returns the day since the start by which the tank is done with chance q, to a
// tenth of a day, read off ChanceDoneOn; +Inf past the horizon.
func (o Outlook) DoneBy(q float64) float64 {
	low, high := 0, int(10*o.Horizon)
	if o.ChanceDoneOn(o.Horizon) < q {
		return math.Inf(1)
	}
	for low < high { // the chance never falls with the days
		if mid := (low + high) / 2; o.ChanceDoneOn(float64(mid)/10) >= q {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return float64(low) / 10
}
