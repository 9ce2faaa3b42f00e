package commands

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"time"

	"ripen/commands/picture"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
	"ripen/store"
)

func outlookSpecs() []Spec {
	return []Spec{{Name: "outlook", Private: true, Help: "when the tank will be done, and how sure that is", Example: "/outlook", run: outlookOf,
		Options: []Option{optTank(), {Name: "on", Type: TypeDay, Help: "a day or date: the chance that it is done by then"}, optMember()}}}
}

// Outlook is the projection of a tank. Days count from its start;
// concentrations are on the member's scale.
type Outlook struct {
	Head
	Stage       string             `json:"stage"`           // "ammonia", "nitrite", "proving" or "ready"
	Again       bool               `json:"again,omitempty"` // it was past that stage before
	DoneDay     outlook.Quantiles  `json:"done_day"`
	DoneOn      outlook.Quantiles  `json:"done_calendar_day"` // of the same moments, as dayNumber counts
	DoneDate    Dates              `json:"done_date"`
	ChanceBy    map[string]float64 `json:"chance_by"` // days from now -> chance of done by then
	PercentBy   map[string]float64 `json:"percent_by"`
	NotWithin   float64            `json:"chance_not_within_horizon"`
	NotPercent  float64            `json:"percent_not_within_horizon"`
	HorizonDays int                `json:"horizon_days"`
	Milestones  []Milestone        `json:"milestones"`
	Next        NextReading        `json:"next_reading"`
	Readings    int                `json:"readings"`
	Fit         string             `json:"fit"` // "good", "strained", "poor" or "none"
	On          *ChanceOn          `json:"on,omitempty"`
	Scale       string             `json:"scale"`
	TargetMgL   float64            `json:"target_mgl"`
	KeepUp      string             `json:"keep_up"`                // how the keeper is assumed to go on
	DoseNow     float64            `json:"dose_now_mgl,omitempty"` // ammonia that is due, on the member's scale
	Assumed     []string           `json:"assumed"`
	Odd         []string           `json:"odd"` // what looks wrong in the readings
	Caveat      string             `json:"caveat,omitempty"`
	Chart       Chart              `json:"chart"`
	Animals     bool               `json:"animals"`
	Shows       bool               `json:"nitrite_shows"`     // the last test of nitrite
	PassedOnce  bool               `json:"passed_once"`       // a whole dose was cleared within a day, by the last test
	Against     string             `json:"against,omitempty"` // the last test, where it alone shows what should be clear
	Crash       string             `json:"crash,omitempty"`   // what shows that the hardness is used up
	Plants      bool               `json:"plants"`            // more than a few slow ones
	Untold      bool               `json:"untold"`            // of what the bacteria live on
	Seeded      *Took              `json:"seeded,omitempty"`  // what the last seed or culture gave so far
	Advice      string             `json:"advice"`            // what to do next
	Prior       string             `json:"prior,omitempty"`   // what the club's tanks taught, by version; "" for what is known in general

	drawn func() picture.Picture // only where somebody sees it
}

// Dates are the calendar days of quantiles; nil past the horizon.
type Dates struct {
	P10 *string `json:"p10"`
	P50 *string `json:"p50"`
	P90 *string `json:"p90"`
}

// Milestone is a turning point of the cycle.
type Milestone struct {
	Name string            `json:"name"` // "ammonia-clear", "nitrite-peak" or "nitrite-clear"
	Day  outlook.Quantiles `json:"day"`
	On   outlook.Quantiles `json:"calendar_day"`
}

// NextReading is what the kits will likely show, mg/L.
type NextReading struct {
	Day     float64           `json:"day"`
	Ammonia outlook.Quantiles `json:"ammonia"`
	Nitrite outlook.Quantiles `json:"nitrite"`
	Nitrate outlook.Quantiles `json:"nitrate"`
}

// ChanceOn is the chance of done by a day that was asked about.
type ChanceOn struct {
	Day     float64 `json:"day"`
	On      float64 `json:"calendar_day"`
	Date    string  `json:"date"`
	Chance  float64 `json:"chance"`
	Percent float64 `json:"percent"`
}

// outlookOf asks the engine for the projection of a tank.
func outlookOf(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	var on float64
	if a, ok := c.args["on"]; ok {
		d, err := readDay("on", a.typed, c.At, t.Started)
		if err != nil {
			return nil, err
		}
		on = d
	}
	o, err := c.adviser.Outlook(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	if err := c.keep(t, o); err != nil {
		return nil, err
	}
	r := outlookResult(t, cs, o, c.At, c.units.Scale)
	if note := untoldWater(cs, now, c.units); note != "" {
		r.Assumed = append([]string{note}, r.Assumed...)
	}
	if r.Prior = c.prior.Version; r.Prior != "" {
		r.Assumed = append(slices.Clone(r.Assumed), fmt.Sprintf("of what it began with, also what the logs of %d tanks of this club show", c.prior.Tanks))
	}
	r.Seeded = c.took(cs, now)
	r.drawn = func() picture.Picture { return pictureOf(r, o, cs, c.units, 0) }
	if c.has("on") {
		chance := o.ChanceDoneOn(on)
		when := dateOf(t.Started, on)
		r.On = &ChanceOn{rounded(on, 1), dayNumber(t.Started, when), when.UTC().Format("2006-01-02"), rounded(chance, 3), percent(chance)}
	}
	return r, nil
}

// theCase gathers what the engine has to know of the tank that was asked about.
func (c *call) theCase() (t store.Tank, cs model.Case, now unit.Days, err error) {
	if c.adviser == nil {
		return t, cs, 0, refuse(CodeUnavailable, "", "/%s is not available here: no engine is plugged in", c.spec.Path())
	}
	if t, err = c.tank(); err != nil {
		return t, cs, 0, err
	}
	if now, err = c.sinceStart(t); err != nil {
		return t, cs, 0, err
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return t, cs, 0, storeError(err, t.Name)
	}
	cs, err = caseOf(t, entries)
	return t, cs, now, err
}

// sinceStart returns the day of a tank and refuses one that has not begun.
func (c *call) sinceStart(t store.Tank) (unit.Days, error) {
	now := daysSince(t.Started, c.At)
	if now < 0 {
		return 0, refuse(CodeTime, "", "the tank %s starts on %s, after now; correct it with /tank edit started:", quote(t.Name), day(t.Started))
	}
	return now, nil
}

// engineError turns a failure of the engine into an internal error.
func engineError(err error) *Error {
	return &Error{Code: CodeInternal, cause: err,
		Message: "the numbers of this tank could not be worked out; nothing was changed. please tell whoever runs this bot"}
}

// outlookResult makes the typed result of what the engine found.
func outlookResult(t store.Tank, cs model.Case, o outlook.Outlook, at time.Time, scale string) Outlook {
	day := daysSince(t.Started, at)
	r := Outlook{
		Head: headOf(t, at), Stage: o.Stage, Again: o.Again, PassedOnce: o.PassedOnce, DoneDay: o.Done, DoneOn: calendarDays(t.Started, o.Done), DoneDate: dates(t.Started, o.Done),
		ChanceBy: map[string]float64{}, PercentBy: map[string]float64{},
		NotWithin: rounded(o.ChanceNotWithin, 3), NotPercent: percent(o.ChanceNotWithin), HorizonDays: int(o.Horizon),
		Milestones: []Milestone{}, Readings: o.Readings, Fit: o.Fit, Scale: scale,
		TargetMgL: rounded(onScaleOf(scale, cs.Setup.Target, unit.Ammonia), 2),
		KeepUp:    o.KeepUp, Assumed: o.Assumed, Odd: o.Odd, Animals: animalsIn(cs, day), Plants: wellPlanted(cs, day), Untold: o.Untold,
		DoseNow: rounded(digits(onScaleOf(scale, o.DoseNow, unit.Ammonia), 2), 2), Crash: o.Crash, Shows: nitriteShows(cs, day), Against: o.Against,
	}
	r.Caveat = saltCaveat(current(cs.Setup, cs.Changes, day))
	if r.Assumed == nil {
		r.Assumed = []string{}
	}
	if r.Odd == nil {
		r.Odd = []string{}
	}
	for days, chance := range o.ChanceBy {
		r.ChanceBy[strconv.Itoa(days)] = rounded(chance, 3)
		r.PercentBy[strconv.Itoa(days)] = percent(chance)
	}
	for _, m := range o.Milestones {
		r.Milestones = append(r.Milestones, Milestone{m.Name, m.Day, calendarDays(t.Started, m.Day)})
	}
	r.Next = NextReading{o.Next.Day, scaled3(o.Next.Ammonia, scale, unit.Ammonia), scaled3(o.Next.Nitrite, scale, unit.Nitrite), scaled3(o.Next.Nitrate, scale, unit.Nitrate)}
	r.Chart = chartOf(o, cs.Readings, scale)
	r.Advice = r.advice()
	return r
}

// nitriteShows says whether the last test of nitrite showed some.
func nitriteShows(c model.Case, now unit.Days) bool {
	r := lastWith(c.Readings, now, func(r model.Reading) bool { return r.Nitrite != nil })
	return r != nil && r.Nitrite.Ion(unit.Nitrite) >= 0.5
}

// percent prints a chance in whole percent, never a certainty that it is not.
func percent(chance float64) float64 {
	switch p := math.Round(100 * chance); {
	case p == 0 && chance > 0:
		return 1
	case p == 100 && chance < 1:
		return 99
	default:
		return p
	}
}

// scaled3 converts quantiles from the ion scale to the member's.
func scaled3(q outlook.Quantiles, scale string, s unit.Species) outlook.Quantiles {
	to := func(x *float64) *float64 {
		if x == nil {
			return nil
		}
		return new(rounded(shownOn(scale, *x, s), 3))
	}
	return outlook.Quantiles{P10: to(q.P10), P50: to(q.P50), P90: to(q.P90)}
}

// calendarDays counts moments, told in days since start, as dayNumber does; nil past the
// horizon.
func calendarDays(start time.Time, q outlook.Quantiles) outlook.Quantiles {
	to := func(d *float64) *float64 {
		if d == nil {
			return nil
		}
		return new(Head{Started: start}.dayAt(*d))
	}
	return outlook.Quantiles{P10: to(q.P10), P50: to(q.P50), P90: to(q.P90)}
}

// dates returns the dates of days since start.
func dates(start time.Time, q outlook.Quantiles) Dates {
	to := func(d *float64) *string {
		if d == nil {
			return nil
		}
		return new(dateOf(start, *d).UTC().Format("2006-01-02"))
	}
	return Dates{to(q.P10), to(q.P50), to(q.P90)}
}
