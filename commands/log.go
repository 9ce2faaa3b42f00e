package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"ripen/engine/model"
	"ripen/store"
)

func logSpecs() []Spec {
	return []Spec{{Name: "log", Private: true, Help: "note what you did or saw", Example: "/log what:dose amount:2ppm", run: logEntry,
		Options: []Option{
			{Name: "what", Type: TypeChoice, Required: true, Choices: whatNames(), Help: "what was done or seen"},
			{Name: "amount", Type: TypeAmount, Help: "how much: 2ppm, 40%, 5g, 10ml, 2dKH, 1L"},
			{Name: "detail", Type: TypeNote, Help: "in your words, up to 2000 characters"},
			optYesNo("conditioned", "whether the new or rinsing water was conditioned"),
			optPH("donor-ph", "pH of the tank that the seed came from"), optDonorTemp(), optDonorSalinity(),
			optHours("how long, of a seed out of water: 12, 12h, 2d"), optKept(), optContent("content"),
			optTank(), optAt(),
		}}}
}

// Logged is something done or seen, just stored.
type Logged struct {
	Head
	Noted
	At       time.Time `json:"at"`
	AtDay    float64   `json:"at_day"` // calendar days since the start
	What     string    `json:"what"`
	Amount   *Quantity `json:"amount,omitempty"` // as typed
	Scale    string    `json:"scale,omitempty"`  // of a dose
	Hours    *float64  `json:"hours,omitempty"`
	DonorPH  *float64  `json:"donor_ph,omitempty"`
	Donor    SeedDonor `json:"donor,omitzero"`    // of a seed, as far as it was told
	Content  string    `json:"content,omitempty"` // of a culture
	Gain     *Gain     `json:"gain,omitempty"`    // what a seed or a culture is expected to save
	Treated  string    `json:"conditioned,omitempty"`
	Detail   string    `json:"detail,omitempty"`
	RiseDKH  *float64  `json:"rise_dkh,omitempty"` // of a buffer
	Percent  *float64  `json:"percent,omitempty"`  // of a water change told in volume
	Taken    string    `json:"taken,omitempty"`    // how the words were understood
	Hint     string    `json:"hint,omitempty"`
	Cautions []string  `json:"cautions,omitempty"`
	Doubt    *Doubt    `json:"doubt,omitempty"`

	when string // At, as it was told
}

// logEntry stores what was done or seen.
func logEntry(c *call) (Result, error) {
	kind, _ := kindOfLog(c.args["what"].word)
	if err := c.checkLog(kind); err != nil {
		return nil, err
	}
	t, err := c.tank()
	if err != nil {
		return nil, err
	}
	at, err := c.at(t)
	if err != nil {
		return nil, err
	}
	before, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	setup, _, err := setupOf(t, before)
	if err != nil {
		return nil, err
	}
	if !kind.noEvent { // not for logs of old, which read on
		if err := checkMass(kind.event, c.args["amount"], setup.Volume); err != nil {
			return nil, err
		}
	}
	if kind.event == model.Seed {
		if err := checkSeed("amount", c.args["amount"], setup.Volume); err != nil {
			return nil, err
		}
	}
	event := model.Event{}
	if !kind.noEvent {
		e, err := kind.toEvent(c.args, setup.Volume)
		if err != nil {
			return nil, err
		}
		event = e
	}
	added, err := c.book.store.AddEntry(c.ctx, store.Entry{
		Tank: t.ID, Kind: store.KindLog, At: at, Recorded: c.At.UTC(), Key: c.Key, Values: c.values(),
	})
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	r := c.logged(kind, event, t, at, added, setup)
	if r.Hint == "" && !kind.noEvent {
		if r.Hint, err = c.harmHint(t, before, setup, event, at); err != nil {
			return nil, err
		}
	}
	if added && (event.Kind == model.Seed || event.Kind == model.Culture) {
		r.Gain = c.gainOf(t, event, daysSince(t.Started, at))
	}
	if added {
		if r.Doubt, err = c.doubtfulEvent(t, before, event, at); err != nil {
			return nil, err
		}
	}
	return r, nil
}

// checkLog reads the amount and refuses options that do not go with the kind.
func (c *call) checkLog(kind logKind) *Error {
	for _, o := range append([]string{"conditioned", "content"}, aboutSeed...) {
		if c.has(o) && !slices.Contains(kind.takes, o) {
			return refuse(CodeUnknownOption, o, "%s does not go with what:%s; leave it out, or say it in detail", o, kind.name)
		}
	}
	if kind.noEvent && !c.has("detail") {
		return refuse(CodeMissing, "detail", "a note needs its words, as in /log what:note detail:\"moved the filter\"")
	}
	if err := c.checkKept(); err != nil {
		return err
	}
	typed, ok := c.Options["amount"]
	if !ok {
		return nil
	}
	a, err := kind.read(typed, kind.bare(c.units))
	if err != nil {
		return err
	}
	c.args["amount"] = a
	return nil
}

// logged makes the result of what was stored.
func (c *call) logged(kind logKind, e model.Event, t store.Tank, at time.Time, added bool, setup model.Setup) Logged {
	r := Logged{
		Head: headOf(t, c.At), Noted: Noted{Duplicate: !added}, At: at, AtDay: dayNumber(t.Started, at),
		What: kind.name, Treated: c.args["conditioned"].word, Detail: c.args["detail"].word,
		when: c.when(t, at),
	}
	if a, ok := c.args["amount"]; ok {
		r.Amount = &Quantity{rounded(a.measure.from(a.low), 3), a.measure.name}
		if a.measure.dim == dimConc {
			r.Scale = a.bare
		}
	}
	if c.has("hours") {
		r.Hours = new(rounded(e.Hours, 2))
	}
	if c.has("donor-ph") {
		r.DonorPH = new(e.DonorPH)
	}
	switch e.Kind {
	case model.Seed:
		r.Donor = donorOf(e, c.units)
	case model.Culture:
		r.Content = c.args["content"].word
	case model.Buffer:
		if c.args["amount"].measure.dim == dimMass {
			r.RiseDKH = new(digits(float64(e.Alk.DKH()), 2))
			r.Taken, _ = bufferSalt(r.Detail)
		}
		r.Cautions = cautionsOf("log buffer")
	case model.WaterChange:
		if c.args["amount"].measure.dim == dimVolume {
			r.Percent = new(rounded(100*e.Fraction, 0))
		}
	case model.PlantsAdded:
		r.Taken = plantNames[e.Plants]
	case model.Cleaned:
		r.Taken = "gently"
		if e.Harsh {
			r.Taken = "harshly, which costs bacteria"
		}
	case model.Medicine:
		r.Cautions = cautionsOf("log medicine")
	case model.Losses:
		r.Hint = "Test ammonia and nitrite now, and ask /safe."
		r.Cautions = cautionsOf("log losses")
	case model.Stocked:
		r.Hint = "Test ammonia and nitrite daily for the next week, and ask /safe; /stock says how many the filter carries."
	}
	if kind.noEvent {
		r.Taken, r.Cautions, r.Hint = "", nil, ""
	}
	if (e.Kind == model.Medicine || e.Kind == model.Outage) && e.Hours == 0 && !kind.noEvent {
		r.Hint = "If you know for how long, /undo and add hours:, as in hours:12."
	}
	return r
}

// Text says back what was stored, with its units.
func (r Logged) Text() string {
	if r.Duplicate {
		return again
	}
	var b strings.Builder
	fmt.Fprintf(&b, "Noted for %s, day %s (%s): %s", r.Tank, number(r.AtDay, 0), r.when, r.What)
	if r.Amount != nil {
		fmt.Fprintf(&b, " %s", logAmount(*r.Amount))
		if r.Scale == "n" {
			b.WriteString(" as nitrogen")
		}
	}
	if r.Percent != nil {
		fmt.Fprintf(&b, ", %s %% of the water", number(*r.Percent, 0))
	}
	if r.Taken != "" {
		fmt.Fprintf(&b, ", taken as %s", r.Taken)
	}
	if r.RiseDKH != nil {
		fmt.Fprintf(&b, ", a rise of about %s dKH", sigText(*r.RiseDKH))
	}
	if r.Hours != nil && r.Donor.Hours == nil {
		fmt.Fprintf(&b, ", %s h", number(*r.Hours, 2))
	}
	b.WriteString(r.Donor.words())
	if r.Content != "" {
		fmt.Fprintf(&b, ", content: %s", r.Content)
	}
	if r.Treated != "" {
		fmt.Fprintf(&b, ", conditioned: %s", r.Treated)
	}
	if r.Detail != "" && r.Detail != r.Taken {
		fmt.Fprintf(&b, ", %s", quote(r.Detail))
	}
	b.WriteString(".")
	if r.Gain != nil {
		fmt.Fprintf(&b, "\n%s", r.Gain.Text())
	}
	if r.Hint != "" {
		fmt.Fprintf(&b, "\n%s", r.Hint)
	}
	for _, caution := range r.Cautions {
		fmt.Fprintf(&b, "\n%s", caution)
	}
	if r.Doubt != nil {
		fmt.Fprintf(&b, "\n%s", r.Doubt.Text())
	}
	return b.String()
}

// logAmount prints an amount as it was typed.
func logAmount(q Quantity) string {
	return number(q.Value, 3) + unitText(q.Unit)
}
