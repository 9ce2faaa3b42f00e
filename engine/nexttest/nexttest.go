// Package nexttest says which reading on which day tells most about the day the
// tank is done.
//
// The draws of a fitted tank are run on to each candidate day, and each tells
// with what chance the member's kit would show each step of its chart. Draws
// that fit a step belong together, and if they are done about the same day the
// step tells that day. What a reading tells is the expected reduction of the
// entropy of the done day, in bits (Lindley 1956, Ann. Math. Stat. 27:986-1005):
//
//	I = H(done) - sum over steps of P(step) H(done | step)
//
// One bit is what halving a window is worth. Entropy is taken, and not a
// variance, since tanks that are not done within the horizon have no day, and
// since early or late is often two humps. Days and draws are those of the
// outlook, with what no fit foresees of the days to come.
//
// Each reading is weighed by itself, as one more on top of the log, and nothing
// else is taken to be told in between. A fit lets a pH or a hardness correct the
// draws instead of weighing them, so what those tell is a guess. Later days
// mostly tell more, the tank having shown more by then, so the day is often one
// of the last that are looked at.
package nexttest

import (
	"math"
	"slices"

	"ripen/engine/fit"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// What can be read, by the names of the command book's /reading.
const (
	Ammonia = "ammonia" // mg/L on the ion scale, as nitrite and nitrate
	Nitrite = "nitrite"
	Nitrate = "nitrate"
	PH      = "ph"
	KH      = "kh" // dKH
)

// Days is how many days to come are looked at.
const Days = 7

// Candidate is one reading on one day.
type Candidate struct {
	What      string
	Day       float64  // a whole day from the start, or now
	Bits      float64  // expected information on the done day, 0 or a little below when it tells nothing
	Err       float64  // standard deviation of Bits from the number of draws
	Low, High float64  // what it will likely show: eight chances in ten lie from Low to High
	Over      bool     // High is the open top of the chart
	After     Window   // the done day after it, on average over what it may show
	If        []Branch // what it shows less and more, nil when one of them is hardly possible
}

// Branch is one side of what a reading may show, and what follows from it.
type Branch struct {
	Step   float64 // of the lower side its top, of the upper side its bottom
	Open   bool    // Step is the open top of the chart
	Chance float64 // of this side
	Done   Window
}

// Window is where the done day lies, in days from the start: one chance in ten
// before P10, nine in ten by P90. Days before now count as now, days past the
// horizon as the horizon.
type Window struct{ P10, P50, P90 float64 }

// Advice is what to test next.
type Advice struct {
	Now     float64     // days from the start
	Horizon float64     // days from the start past which no day is told apart
	Entropy float64     // of the done day, bits; of at most 3
	Before  Window      // of the done day as it is known now
	Best    *Candidate  // nil when no reading would tell anything
	Today   []Candidate // each reading if it were made now
	Coming  []Candidate // each reading on each whole day to come, by day
	Skip    []string    // readings of Today that may be left out
	Keep    []string    // readings that animals in the tank need whatever they tell
	Unread  []string    // PH and KH if they were neither told nor read
	LowKH   bool        // one chance in ten or more that KH falls below 2 dKH in these days
}

const (
	// asGood is the share of the largest information from which a reading is as
	// good as that one; the earliest such is best.
	asGood = 0.9
	// tells is the least information worth a test, bits: a window narrowed by one
	// part in thirty.
	tells = 0.05
	// lowKH is the hardness, dKH, from which it must be watched whatever it tells.
	// Common practice, no source.
	lowKH = 2
)

// Of returns what to test next in a fitted tank.
func Of(p *fit.Posterior) Advice {
	p = outlook.Shown(p)
	now, end := p.Plan.Now, p.Plan.End()
	done := outlook.Foretold(p)
	a := Advice{Now: now, Horizon: end}
	days := []float64{now}
	for d := math.Floor(now) + 1; d <= math.Floor(now)+Days; d++ {
		days = append(days, d)
	}
	g := newGain(done, now, end)
	a.Entropy, a.Before = g.entropy(), g.before()
	views := ahead(p, days)
	for i, day := range days {
		for s := range senses {
			c := senses[s].of(p, g, views[i][s], day)
			if i == 0 {
				a.Today = append(a.Today, c)
			} else {
				a.Coming = append(a.Coming, c)
			}
		}
	}
	for i := range a.Coming {
		a.LowKH = a.LowKH || a.Coming[i].What == KH && a.Coming[i].Low < lowKH
	}
	a.Best = best(a.Coming)
	a.Keep, a.Unread = kept(&p.Plan.Case, now), unread(&p.Plan.Case, now)
	a.Skip = a.skip()
	return a
}

// best returns the earliest of the readings of the kind that tells most which
// is about as good as the best of all; nil when none tells anything.
func best(all []Candidate) *Candidate {
	most := 0
	for i := range all {
		if all[i].Bits > all[most].Bits {
			most = i
		}
	}
	if len(all) == 0 || !all[most].Tells() {
		return nil
	}
	for i := range all {
		if c := all[i]; c.What == all[most].What && c.Bits >= asGood*all[most].Bits {
			return &c
		}
	}
	return nil
}

// Tells says whether the reading is worth making for the done day's sake: it
// tells more than chance would, and enough to be seen.
func (c *Candidate) Tells() bool { return c.Bits > tells && c.Bits > 3*c.Err }

// skip lists what tells nothing today and is needed for nothing else.
func (a *Advice) skip() (out []string) {
	for i := range a.Today {
		c := &a.Today[i]
		needed := slices.Contains(a.Keep, c.What) || slices.Contains(a.Unread, c.What) || a.LowKH && c.What == KH
		if !needed && !c.Tells() {
			out = append(out, c.What)
		}
	}
	return out
}

// kept lists the readings that animals in the tank need whatever they tell.
func kept(c *model.Case, now float64) []string {
	if c.Animals(unit.Days(now)) {
		return []string{Ammonia, Nitrite}
	}
	return nil
}

// unread lists PH and KH if they were neither told nor read up to now.
func unread(c *model.Case, now float64) (out []string) {
	ph, kh := c.Setup.Given.PH, c.Setup.Given.KH
	for _, x := range c.Changes {
		if float64(x.Day) <= now {
			ph, kh = ph || x.PH != nil, kh || x.KH != nil
		}
	}
	for _, r := range c.Readings {
		if float64(r.Day) <= now {
			ph, kh = ph || r.PH != nil, kh || r.KH != nil
		}
	}
	if !ph {
		out = append(out, PH)
	}
	if !kh {
		out = append(out, KH)
	}
	return out
}

// since returns how many days before a day a reading was last made; +Inf if never.
func since(c *model.Case, now, day float64, made func(*model.Reading) bool) float64 {
	out := math.Inf(1)
	for i := range c.Readings {
		if r := &c.Readings[i]; float64(r.Day) <= now && made(r) {
			out = min(out, day-float64(r.Day))
		}
	}
	return out
}

// species are those of the first three senses.
var species = [...]unit.Species{unit.Ammonia, unit.Nitrite, unit.Nitrate}
