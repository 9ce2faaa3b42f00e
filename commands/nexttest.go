package commands

import (
	"math"
	"slices"
	"time"

	"ripen/engine/model"
	"ripen/engine/nexttest"
	"ripen/engine/outlook"
	"ripen/engine/unit"
	"ripen/store"
)

func nextTestSpecs() []Spec {
	return []Spec{{Name: "next-test", Private: true, Help: "which test on which day tells most about when the tank is done", Example: "/next-test", run: nextTest,
		Options: []Option{optTank(), optMember()}}}
}

// NextTest is what to test next and what may be left out. Days count from the
// tank's start; a quantile past the horizon is null.
type NextTest struct {
	Head
	Now       float64           `json:"now"` // days since the start, to a hundredth
	Stage     string            `json:"stage"`
	Best      *TestAhead        `json:"best"` // null when no reading would tell anything
	Done      outlook.Quantiles `json:"done_day"`
	Entropy   float64           `json:"entropy_bits"` // of the done day
	Today     []TestAhead       `json:"today"`        // each reading if it were made now
	Coming    []TestAhead       `json:"coming"`       // each reading on each day to come
	Skip      []string          `json:"skip_today"`
	Always    []string          `json:"always"`     // readings that animals need whatever they tell
	Unread    []string          `json:"never_read"` // of ph and kh, if neither told nor read
	LowKH     bool              `json:"kh_may_run_out"`
	Crash     string            `json:"crash,omitempty"`          // what shows that the hardness is used up, as in /outlook
	UsedUp    *float64          `json:"kh_used_up_dkh,omitempty"` // the hardness then, if it was tested
	Against   string            `json:"against,omitempty"`        // the last test, where it alone shows what should be clear, as in /outlook
	Days      int               `json:"days_ahead"`
	Horizon   int               `json:"horizon_days"`
	Fit       string            `json:"fit"`
	Scale     string            `json:"scale"`
	Doses     bool              `json:"doses"` // ammonia is dosed by hand
	Animals   bool              `json:"animals"`
	Readings  int               `json:"readings"`
	NotWithin float64           `json:"percent_not_within_horizon"`
	Cautions  []string          `json:"cautions"`
}

// TestAhead is one reading on one day.
type TestAhead struct {
	What  string            `json:"what"`
	Day   float64           `json:"day"`
	On    float64           `json:"calendar_day"`
	Date  string            `json:"date"`
	Bits  float64           `json:"bits"` // expected information on the done day
	Low   float64           `json:"low"`  // what it will likely show, in Unit
	High  float64           `json:"high"`
	Over  bool              `json:"over,omitempty"` // High is the open top of the chart
	Unit  string            `json:"unit"`
	After outlook.Quantiles `json:"done_day_after"` // on average
	If    []IfShown         `json:"if,omitempty"`
}

// IfShown is what follows when a test shows little, or much.
type IfShown struct {
	Step    float64           `json:"step"` // at most so much, then at least so much
	Open    bool              `json:"open,omitempty"`
	Percent float64           `json:"percent"`
	Done    outlook.Quantiles `json:"done_day"`
}

// nextTest asks the engine which reading tells most.
func nextTest(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	a, o, err := c.adviser.NextTest(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	r := NextTest{
		Head: headOf(t, c.At), Now: rounded(float64(now), 2), Stage: o.Stage, Done: within(a.Before, a.Horizon), Entropy: rounded(a.Entropy, 2),
		Today: []TestAhead{}, Coming: []TestAhead{}, Skip: emptyNotNil(slices.Clone(a.Skip)), Always: emptyNotNil(a.Keep), Unread: emptyNotNil(a.Unread),
		LowKH: a.LowKH, Days: nexttest.Days, Horizon: int(a.Horizon), Fit: o.Fit, Scale: c.units.Scale, Doses: doses(cs.Setup.Method),
		Animals: animalsIn(cs, now), Readings: o.Readings, NotWithin: percent(o.ChanceNotWithin), Cautions: []string{},
	}
	for _, x := range a.Today {
		r.Today = append(r.Today, testAhead(x, t, a.Horizon, c.units))
	}
	for _, x := range a.Coming {
		r.Coming = append(r.Coming, testAhead(x, t, a.Horizon, c.units))
	}
	if a.Best != nil {
		r.Best = new(testAhead(*a.Best, t, a.Horizon, c.units))
	}
	if r.Crash, r.UsedUp = waterAt(cs, now).usedUp(cs); r.Crash != "" {
		r.LowKH = true
		r.Skip = slices.DeleteFunc(r.Skip, func(s string) bool { return s == nexttest.KH })
	}
	if o.Against != "" && r.Done.P50 != nil && *r.Done.P50 <= r.Now { // as /outlook asks for
		r.Against = o.Against
		r.Skip = slices.DeleteFunc(r.Skip, func(s string) bool { return s == nexttest.Ammonia || s == nexttest.Nitrite })
	}
	if r.Readings == 0 { // the first test is the start of all, and /outlook asks for it
		r.Skip = slices.DeleteFunc(r.Skip, func(s string) bool {
			return s == nexttest.Ammonia || s == nexttest.Nitrite || s == nexttest.PH
		})
	}
	if o.Stage == "ready" && !r.Animals {
		r.Cautions = cautionTexts("test-before-animals") // so these two are not skipped
		r.Skip = slices.DeleteFunc(r.Skip, func(s string) bool { return s == nexttest.Ammonia || s == nexttest.Nitrite })
	}
	return r, nil
}

// testAhead puts a reading to come into the member's units.
func testAhead(x nexttest.Candidate, t store.Tank, horizon float64, u store.Units) TestAhead {
	show, in := shownAs(x.What, u)
	day := rounded(x.Day, 2)
	when := dateOf(t.Started, day)
	a := TestAhead{
		What: x.What, Day: day, On: dayNumber(t.Started, when), Date: when.UTC().Format(time.DateOnly), Bits: rounded(math.Max(x.Bits, 0), 3),
		Low: show(x.Low), High: show(x.High), Over: x.Over, Unit: in, After: within(x.After, horizon),
	}
	for _, b := range x.If {
		a.If = append(a.If, IfShown{show(b.Step), b.Open, percent(b.Chance), within(b.Done, horizon)})
	}
	return a
}

// shownAs returns how the member's test shows a value of the engine, and its unit.
func shownAs(what string, u store.Units) (func(float64) float64, string) {
	species := map[string]unit.Species{nexttest.Ammonia: unit.Ammonia, nexttest.Nitrite: unit.Nitrite, nexttest.Nitrate: unit.Nitrate}
	switch what {
	case nexttest.PH:
		return func(x float64) float64 { return rounded(x, 1) }, ""
	case nexttest.KH:
		return func(x float64) float64 { return inUnit(hardnesses(), u.KH, math.Max(x, 0)).Value }, unitText(inUnit(hardnesses(), u.KH, 0).Unit)
	}
	in := " mg/L"
	if u.Scale == "n" {
		in += " as nitrogen"
	}
	return func(x float64) float64 { return rounded(shownOn(u.Scale, x, species[what]), 2) }, in
}

// within makes quantiles of a window, nil past the horizon.
func within(w nexttest.Window, horizon float64) outlook.Quantiles {
	to := func(d float64) *float64 {
		if d >= horizon-0.5 {
			return nil
		}
		return new(rounded(d, 1))
	}
	return outlook.Quantiles{P10: to(w.P10), P50: to(w.P50), P90: to(w.P90)}
}

// doses says whether ammonia is dosed by hand in this way of cycling.
func doses(m model.Method) bool { return m == model.Dosed || m == model.Seeded }

func emptyNotNil(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
