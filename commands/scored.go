package commands

import (
	"math"

	"ripen/store"
)

// scored is an outlook held against the day on which its tank was done. Days count from
// the start that the tank has now, also where that was corrected since.
type scored struct {
	Day   float64    `json:"day"`   // on which it was given
	Done  [7]float64 `json:"done"`  // at store.Quantiles; never for what lies past the horizon
	Prior string     `json:"prior"` // sort of what it rested on
	Stage int        `json:"stage"` // of RecordStages
	done  float64    // day on which the tank was done
}

// never stands for a day past the horizon, for which JSON has no number.
const never = 1e9

// scoresOf holds the outlooks that were given of a tank before it was done against that
// day: of each stage the first. Those that come later lie past that day, so this holds
// until the log changes.
func scoresOf(t store.Tank, done float64, given []store.Outlook) (all []scored) {
	seen := map[int]bool{}
	for _, o := range given {
		moved := o.Day - float64(daysSince(t.Started, o.At))
		x := scored{Day: o.Day - moved, Stage: StageOf(o.Day-moved, done), Prior: priorKind(o.Prior), done: done}
		if o.Asked != "outlook" || x.Day >= done {
			continue
		}
		for i, d := range o.Done {
			x.Done[i] = min(d-moved, never)
		}
		if !seen[x.Stage] {
			seen[x.Stage], all = true, append(all, x)
		}
	}
	return all
}

// held says for each interval whether it holds the day.
func (x scored) held() (in [3]bool) {
	for i, ends := range [3][2]int{{2, 4}, {1, 5}, {0, 6}} {
		in[i] = x.Done[ends[0]] <= x.done && x.done <= x.Done[ends[1]]
	}
	return in
}

// off is by how many days the middle missed, +Inf if it lay past the horizon.
func (x scored) off() float64 {
	if x.Done[3] >= never {
		return math.Inf(1)
	}
	return math.Abs(x.Done[3] - x.done)
}
