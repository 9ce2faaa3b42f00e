package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/engine/stocking"
	"ripen/store"
)

// TankNew is a tank just registered.
type TankNew struct {
	Head
	Noted
	Setup    SetupView `json:"setup"`
	Assumed  []string  `json:"assumed"` // options that typical values stand in for
	Next     string    `json:"next"`
	Cautions []string  `json:"cautions,omitempty"`
}

// tankNew registers a tank.
func tankNew(c *call) (Result, error) {
	started := c.At.UTC()
	if a, ok := c.args["started"]; ok {
		s, err := readStarted(a.typed, c.At, time.Time{})
		if err != nil {
			return nil, err
		}
		started = s
	}
	name := c.args["name"].word
	setup := typical(stated(c.args))
	if err := fits(setup); err != nil {
		return nil, err
	}
	t := store.Tank{Club: c.Club, Member: c.Member, Name: name, Started: started}
	added, err := c.book.store.AddTank(c.ctx, t, store.Entry{
		Kind: store.KindSetup, At: started, Recorded: c.At.UTC(), Key: c.Key, Values: c.values(),
	})
	if err != nil {
		return nil, storeError(err, name)
	}
	r := TankNew{Head: headOf(t, c.At), Setup: setupView(setup, c.units), Assumed: assumed(setup)}
	r.Next = firstStep(r.Setup)
	if store.Fold(added.Name) != store.Fold(name) || !added.Closed.IsZero() {
		r.Tank, r.Duplicate = added.Name, true // the key belongs to an earlier tank
		return r, nil
	}
	switch setup.Method {
	case model.Dosed, model.Seeded:
		r.Cautions = cautionsOf("tank new dosed")
	case model.FishIn:
		r.Cautions = cautionsOf("tank new fish-in")
	}
	return r, nil
}

// fits refuses a set-up whose parts do not fit together.
func fits(s model.Setup) *Error {
	if s.Given.MediaVolume && s.MediaVolume > s.Volume {
		return refuse(CodeRange, "media-volume", "media-volume is %s L, more than the tank's %s L; check the number and its unit",
			number(float64(s.MediaVolume), 2), number(float64(s.Volume), 2))
	}
	if err := checkLoad("stock", "of "+number(float64(s.Stock), 2)+" g", float64(s.Stock), stocking.MostAnimals, s.Volume); err != nil {
		return err
	}
	return checkLoad("feed", "of "+number(float64(s.Feed), 2)+" g a day", float64(s.Feed), stocking.MostFeed, s.Volume)
}

// Text says what was registered, what was assumed and what to do first.
func (r TankNew) Text() string {
	if r.Duplicate {
		return again
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Registered %s, started %s (UTC):\n%s", r.Tank, day(r.Started), r.Setup.Text())
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nYou did not say %s, so usual values stand there. Tell what you know, as in /tank edit %s:... at:start",
			list(labels(r.Assumed), "and"), r.Assumed[0])
	}
	fmt.Fprintf(&b, "\n%s", r.Next)
	for _, caution := range r.Cautions {
		fmt.Fprintf(&b, "\n%s", caution)
	}
	return b.String()
}

func labels(options []string) []string {
	var s []string
	for _, o := range options {
		s = append(s, label(o))
	}
	return s
}

// firstStep says what to do after registering.
func firstStep(s SetupView) string {
	target := s.fact("target")
	switch s.Method {
	case "food":
		return "Next: note the food with /log what:feed, test every two or three days and tell me with /reading. /outlook shows when it will be done."
	case "dark-start":
		return "Next: the soil gives off ammonia by itself; test every two or three days and tell me with /reading. /outlook shows when it will be done."
	case "planted":
		return "Next: let the plants grow in, test every few days and tell me with /reading. /outlook shows when it will be done."
	case "fish-in":
		return "Animals first: test ammonia and nitrite every day, tell me with /reading, and ask /safe; it says when to change water and how much."
	case "seeded":
		return "Next: note the mature media with /log what:seed, dose ammonia up to " + target + ", note it with /log what:dose, and tell me your tests with /reading. /outlook shows when it will be done."
	}
	return "Next: dose ammonia up to " + target + " and note it with /log what:dose; test every two or three days and tell me with /reading. /outlook shows when it will be done."
}
