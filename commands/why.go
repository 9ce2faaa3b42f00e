package commands

import (
	"slices"

	"ripen/engine/diagnose"
	"ripen/engine/outlook"
)

func whySpecs() []Spec {
	return []Spec{{Name: "why", Private: true, Help: "what slows the tank, and what to do about it", Example: "/why", run: why,
		Options: []Option{optTank(), optMember()}}}
}

// Why is what slows a tank, if anything does.
type Why struct {
	Head
	Verdict   string            `json:"verdict"`            // "on-track", "slow", "stalled" or "ready"
	Unjudged  string            `json:"unjudged,omitempty"` // why it can't be said whether the tank is late
	DelayDays outlook.Quantiles `json:"delay_days"`
	Causes    []Cause           `json:"causes"` // most likely first
	Notes     []string          `json:"notes"`
	Stage     string            `json:"stage"`
	DoneDay   outlook.Quantiles `json:"done_day"`
	DoneOn    outlook.Quantiles `json:"done_calendar_day"` // of the same moments, as dayNumber counts
	DoneDate  Dates             `json:"done_date"`
	Horizon   int               `json:"horizon_days"`
	Fit       string            `json:"fit"`
	Animals   bool              `json:"animals"`
	Shows     bool              `json:"nitrite_shows"`
	Again     bool              `json:"again,omitempty"` // it was past its stage before
	Scale     string            `json:"scale"`           // of the member's kits; the words of causes are on the ion scale
	Cautions  []string          `json:"cautions"`
}

// Cause is one possible reason for a slow cycle.
type Cause struct {
	Rank     int      `json:"rank"`
	Cause    string   `json:"cause"`
	Chance   float64  `json:"chance"`
	Percent  float64  `json:"percent"`
	DaysCost float64  `json:"days_cost"`
	Evidence []string `json:"evidence"`
	Fix      string   `json:"fix"`
	DoNot    string   `json:"do_not,omitempty"`
	Settle   string   `json:"settle,omitempty"`
}

// Of the causes, at most so many are told, and only those at least so likely.
const (
	causesTold  = 3
	worthTold   = 0.1
	worthOnPace = 0.3 // when nothing is slow
)

// why asks the engine what slows a tank.
func why(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	d, o, err := c.adviser.Why(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	if c.spec.Name == "why" { // not as a part of another page
		if err := c.keep(t, o); err != nil {
			return nil, err
		}
	}
	r := Why{
		Head: headOf(t, c.At), Verdict: d.Verdict, Unjudged: d.Unjudged, DelayDays: d.Delay, Causes: []Cause{}, Notes: slices.Clone(d.Notes),
		Stage: o.Stage, DoneDay: o.Done, DoneOn: calendarDays(t.Started, o.Done), DoneDate: dates(t.Started, o.Done), Horizon: int(o.Horizon), Fit: o.Fit, Animals: animalsIn(cs, now), Again: o.Again, Shows: nitriteShows(cs, now), Scale: c.units.Scale, Cautions: []string{},
	}
	if r.Notes == nil {
		r.Notes = []string{}
	}
	if note := untoldNote(cs, now); note != "" && (d.Verdict == diagnose.Slow || d.Verdict == diagnose.Stalled) {
		r.Notes = append(r.Notes, note)
	}
	for i, x := range d.Causes {
		r.Causes = append(r.Causes, causeOf(i+1, x))
	}
	var names []string
	for i := range r.told() {
		names = append(names, d.Causes[i].Fix.Cautions...)
	}
	r.Cautions = append(r.Cautions, cautionTexts(names...)...)
	return r, nil
}

func causeOf(rank int, x diagnose.Cause) Cause {
	c := Cause{
		Rank: rank, Cause: x.Name, Chance: rounded(x.Chance, 3), Percent: percent(x.Chance), DaysCost: rounded(x.DaysCost, 1),
		Evidence: slices.Clone(x.Evidence), Fix: x.Fix.Do, DoNot: x.Fix.DoNot, Settle: x.Fix.Settle,
	}
	if c.Evidence == nil {
		c.Evidence = []string{}
	}
	return c
}

// told returns the causes that the text names, which are the first ones.
func (r Why) told() []Cause {
	least := worthTold
	if r.Verdict == "on-track" || r.Verdict == "ready" {
		least = worthOnPace
	}
	n := 0
	for n < min(causesTold, len(r.Causes)) && r.Causes[n].Chance >= least {
		if r.Verdict == "ready" && r.Causes[n].DaysCost < 1 { // it cost nothing, and is past
			break
		}
		n++
	}
	return r.Causes[:n]
}
