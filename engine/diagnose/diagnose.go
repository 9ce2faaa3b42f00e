// Package diagnose finds what slows a tank: conditions by rerunning the fitted
// tank with each put right, unseen events by how much better the readings are
// explained with them than without.
package diagnose

import "ripen/engine/outlook"

// Cause is one possible reason for a slow cycle.
type Cause struct {
	Name     string   // a cause name of the command book
	Chance   float64  // probability that it is at work, 0..1
	DaysCost float64  // expected delay from it, days
	Evidence []string // which readings and log entries say so, in plain words
	Fix      Fix      // what to do about it
}

// Fix is what to do about a cause, with its quantity, in plain words.
type Fix struct {
	Do       string   // what to do, with its quantity
	DoNot    string   // what not to do, "" if nothing
	Settle   string   // the reading that would settle the doubt, "" if none
	Cautions []string // names of the cautions that belong to Do
}

// Verdicts of a Diagnosis.
const (
	OnTrack = "on-track"
	Slow    = "slow"    // later than four in five tanks of the same set-up
	Stalled = "stalled" // hardly any growth of bacteria over the last week, more likely than not
	Ready   = "ready"
)

// Diagnosis is the answer to "why is my cycle slow".
type Diagnosis struct {
	Verdict string            // one of the verdicts above
	Delay   outlook.Quantiles // against the same set-up without a fault, days; unknown if Unjudged
	Causes  []Cause           // most likely first
	Notes   []string          // as that a planted cycle shows no nitrite, in plain words

	// Unjudged is why nobody can say yet whether the tank is late, in plain words; "" if the
	// verdict holds. The verdict then is OnTrack, which accuses nobody.
	Unjudged string
}
