package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/safety"
	"ripen/engine/unit"
	"ripen/store"
)

// The choices of /reading, kits in the order of the engine's constants.
var (
	scaleNames = [...]string{"ion", "n"}
	kitNames   = [...]string{"liquid", "strip", "meter"}
)

func readingSpecs() []Spec {
	return []Spec{{Name: "reading", Private: true, Help: "note what your test kits show", Example: "/reading ammonia:0.5 nitrite:2 nitrate:20-40", run: reading,
		Options: []Option{
			optAmmonia(TypeReading), optNitrite(TypeReading),
			{Name: "nitrate", Type: TypeReading, Max: 1000, Unit: "mg/L", Help: "nitrate (NO3)", scaled: true},
			optPH("ph", "pH"), optKH("carbonate hardness: 6dKH, 107ppm, 2.1meq"), optTemp("temperature: 25C, 77F"),
			optChlorine(),
			{Name: "oxygen", Type: TypeConc, Max: 25, Unit: "mg/L", Help: "dissolved oxygen"},
			{Name: "scale", Type: TypeChoice, Choices: scaleNames[:], Help: "ion: as NH4, NO2, NO3; n: as nitrogen; default your units"},
			{Name: "kit", Type: TypeChoice, Choices: kitNames[:], Help: "what kind of test; default liquid"},
			optTank(), optAt(),
		}}}
}

// measured are the options of /reading that hold a value.
var measured = [...]string{"ammonia", "nitrite", "nitrate", "ph", "kh", "temp", "chlorine", "oxygen"}

// ReadingNoted is a reading just stored.
type ReadingNoted struct {
	Head
	Noted
	At      time.Time `json:"at"`
	AtDay   float64   `json:"at_day"` // calendar days since the start
	Reading Values    `json:"reading"`
	Scale   string    `json:"scale"`            // of the nitrogen tests: "ion", "n" or "mixed"
	Scales  Scales    `json:"scales,omitempty"` // of each, where they are mixed
	Shown   []string  `json:"shown"`            // the values as printed, in the member's units
	Jumps   []Jump    `json:"jumps"`            // far from the reading before
	Safe    *Safe     `json:"safe"`             // if animals are in
	Next    string    `json:"next"`
	Doubt   *Doubt    `json:"doubt,omitempty"`

	when string // At, as it was told
}

// Jump is a value far from the one before.
type Jump struct {
	What   string  `json:"what"`
	Before string  `json:"before"`
	Days   float64 `json:"days"` // between the two
}

// reading stores what kits show.
func reading(c *call) (Result, error) {
	if a, ok := c.args["scale"]; ok {
		for name, v := range c.args {
			if o, _ := c.spec.Option(name); o.scaled {
				v.bare = a.word
				c.args[name] = v
			}
		}
	}
	if !c.hasReading() {
		return nil, refuse(CodeMissing, "", "say what the tests show, as in %s", c.spec.Example)
	}
	t, err := c.tank()
	if err != nil {
		return nil, err
	}
	at, err := c.at(t)
	if err != nil {
		return nil, err
	}
	return c.note(t, at, c.values())
}

// hasReading says whether a value was given.
func (c *call) hasReading() bool {
	for _, name := range measured {
		if c.has(name) {
			return true
		}
	}
	return false
}

// note stores the reading that c.args hold, as values, and says what follows
// from it.
func (c *call) note(t store.Tank, at time.Time, values []store.Value) (ReadingNoted, error) {
	before, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return ReadingNoted{}, storeError(err, t.Name)
	}
	cs, err := caseOf(t, before)
	if err != nil {
		return ReadingNoted{}, err
	}
	entry := store.Entry{Tank: t.ID, Kind: store.KindReading, At: at, Recorded: c.At.UTC(), Key: c.Key, Again: c.Again, Values: values}
	added, err := c.book.store.AddEntry(c.ctx, entry)
	if err != nil {
		return ReadingNoted{}, storeError(err, t.Name)
	}
	r := ReadingNoted{
		Head: headOf(t, c.At), Noted: Noted{Duplicate: !added}, At: at, AtDay: dayNumber(t.Started, at),
		Reading: valuesOf(c.args), Shown: shown(c), Jumps: []Jump{},
	}
	r.Scale, r.Scales = scaleOfReading(c)
	r.when = c.when(t, at)
	if !added {
		return r, nil
	}
	now := readingOf(c.args, daysSince(t.Started, at))
	r.Jumps = append(r.Jumps, jumps(cs, now)...)
	now.Seq = len(before)
	with := withReading(cs, now)
	r.Safe = c.animalsFirst(t, with, now.Day)
	if now.PH != nil {
		r.Doubt = c.doubtfulPH(cs, now.Day, *now.PH)
	}
	r.Next = nextAfterReading(now)
	if r.Safe == nil && (now.PH != nil || now.KH != nil) {
		if crash, left := waterAt(with, daysSince(t.Started, c.At)).usedUp(with); crash != "" {
			r.Next = fmt.Sprintf("Next: the hardness is used up (%s), and bacteria stop without it; /why says how to raise it.", usedUpText(crash, left))
		}
	}
	return r, nil
}

// withReading is a case with one more reading, by day.
func withReading(cs model.Case, r model.Reading) model.Case {
	i := len(cs.Readings)
	for i > 0 && cs.Readings[i-1].Day > r.Day {
		i--
	}
	cs.Readings = slices.Insert(slices.Clip(cs.Readings), i, r)
	return cs
}

// animalsFirst judges the water on a day if animals are in and it is not safe.
func (c *call) animalsFirst(t store.Tank, cs model.Case, day unit.Days) *Safe {
	if !animalsIn(cs, day) {
		return nil
	}
	now := waterAt(cs, day)
	w := now.judged()
	s := Safe{Tank: t.Name, Day: new(dayNumber(t.Started, c.At)), Animals: "yes", Assumed: []string{}}
	s.sinceTests(w.Since)
	s.Crash, s.UsedUp = now.usedUp(cs)
	fresh := s.New.ofSetup(cs.Setup, now.Setup)
	c.describeNew(&s.New, &fresh)
	s.judge(c, w, fresh, safety.Mussels, float64(cs.Setup.Volume))
	if s.Verdict == "safe" {
		return nil
	}
	s.Do = s.advice()
	return &s
}

func scaleOf(c *call) string {
	if a, ok := c.args["scale"]; ok {
		return a.word
	}
	return c.units.Scale
}

// nextAfterReading says what to ask next.
func nextAfterReading(r model.Reading) string {
	switch {
	case r.Ammonia == nil && r.Nitrite == nil:
		return "Next: ammonia and nitrite tell most about the cycle; add them when you test again."
	case r.Nitrite == nil:
		return "Next: test nitrite as well; together with ammonia it tells most. /outlook shows when it will be done."
	case r.Ammonia == nil:
		return "Next: test ammonia as well; together with nitrite it tells most. /outlook shows when it will be done."
	}
	return "Next: /outlook shows when it will be done; /why looks for what slows it."
}

// lastWith returns the last reading up to a day that has what is asked for.
func lastWith(rs []model.Reading, day unit.Days, has func(model.Reading) bool) *model.Reading {
	for i := len(rs) - 1; i >= 0; i-- {
		if rs[i].Day <= day && has(rs[i]) {
			return &rs[i]
		}
	}
	return nil
}

// ionOf is the middle of what was seen, on the ion scale.
func ionOf(s *model.Seen, species unit.Species) float64 {
	mid := (s.Low + s.High) / 2
	if s.AsN {
		return float64(unit.MgN(mid).Ion(species))
	}
	return mid
}

func shownOn(scale string, ion float64, s unit.Species) float64 {
	return onScaleOf(scale, unit.MgIon(ion).N(s), s)
}

// Text says what was stored, animals first when they are in danger.
func (r ReadingNoted) Text() string {
	if r.Duplicate {
		return again
	}
	var b strings.Builder
	if r.Safe != nil {
		fmt.Fprintf(&b, "Animals first. %s\n\n", r.Safe.Text())
	}
	fmt.Fprintf(&b, "Noted for %s, day %s (%s): %s.", r.Tank, number(r.AtDay, 0), r.when, strings.Join(r.Shown, ", "))
	for _, j := range r.Jumps {
		fmt.Fprintf(&b, "\nThat is a big change: %s was %s, %s. Check the test; if it was a slip, /undo takes it back.", label(j.What), j.Before, j.ago())
	}
	fmt.Fprintf(&b, "\n%s", r.Next)
	if r.Doubt != nil {
		fmt.Fprintf(&b, "\n%s", r.Doubt.Text())
	}
	return b.String()
}

// ago says how long before it was.
func (j Jump) ago() string {
	if j.Days < 0.5 {
		return "shortly before"
	}
	return daysText(j.Days) + " before"
}

func daysText(d float64) string {
	if d == 1 {
		return "1 day"
	}
	return number(d, 1) + " days"
}
