package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/store"
)

// TankEdit is what changed of a tank.
type TankEdit struct {
	Head
	Noted
	From      time.Time `json:"from"`       // from when on it holds
	FromDay   float64   `json:"from_day"`   // calendar days since the start
	FromStart bool      `json:"from_start"` // it corrects the set-up as registered
	Changed   []Changed `json:"changed"`
	Setup     SetupView `json:"setup"`           // with all changes
	Share     string    `json:"share,omitempty"` // "yes" or "no", where it was said now
	Note      string    `json:"note,omitempty"`  // "weekly" or "off", likewise
	Doubt     *Doubt    `json:"doubt,omitempty"`

	when string // From, as it was told
}

// Changed is one fact of a tank before and after, as printed.
type Changed struct {
	Option  string `json:"option"`
	Before  string `json:"before"`
	After   string `json:"after"`
	Correct bool   `json:"corrects"` // it corrects the tank as registered, whatever the time
}

// tankEdit changes a tank from a time on, or corrects its name and its start.
func tankEdit(c *call) (Result, error) {
	t, err := c.tank()
	if err != nil {
		return nil, err
	}
	if len(c.args) == 0 || len(c.args) == 1 && c.has("tank") {
		return nil, refuse(CodeMissing, "", "say what changes, as in %s", c.spec.Example)
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	before, beforeChanges, err := setupOf(t, entries)
	if err != nil {
		return nil, err
	}
	edited := t
	if a, ok := c.args["name"]; ok {
		edited.Name = a.word
	}
	var started time.Time // zero unless corrected
	if a, ok := c.args["started"]; ok {
		if started, err = correctedStart(a.typed, c.At, t, entries); err != nil {
			return nil, err
		}
		edited.Started = started
	}
	at, err := c.at(edited)
	if err != nil {
		return nil, err
	}
	entry := store.Entry{Tank: t.ID, Kind: store.KindEdit, At: at, Recorded: c.At.UTC(), Key: c.Key, Values: c.values()}
	after, afterChanges, err := setupOf(edited, append(entries[:len(entries):len(entries)], entry))
	if err != nil {
		return nil, err
	}
	if err := fits(current(after, afterChanges, daysSince(edited.Started, c.At))); err != nil {
		return nil, err
	}
	added, err := c.book.store.EditTank(c.ctx, t.ID, c.args["name"].word, started, entry)
	if err != nil {
		return nil, storeError(err, c.args["name"].word)
	}
	day := daysSince(edited.Started, at)
	r := TankEdit{
		Head: headOf(edited, c.At), Noted: Noted{Duplicate: !added},
		From: at, FromDay: dayNumber(edited.Started, at), FromStart: day < 1,
		Setup: setupView(current(after, afterChanges, daysSince(edited.Started, c.At)), c.units),
	}
	r.Share, r.Note = c.args["share"].word, c.args["note"].word
	if r.FromStart {
		r.From = edited.Started.UTC()
	}
	r.when = c.when(edited, r.From)
	r.Changed = changed(c, t, edited,
		setupView(current(before, beforeChanges, daysSince(t.Started, at)), c.units),
		setupView(current(after, afterChanges, day), c.units), r.FromStart)
	if added && !r.FromStart && c.has("ph") {
		cs, err := caseOf(t, entries)
		if err != nil {
			return nil, err
		}
		r.Doubt = c.doubtfulPH(cs, day, c.args["ph"].low)
	}
	return r, nil
}

// correctedStart reads a new start, which cannot lie after what was told already.
func correctedStart(typed string, now time.Time, t store.Tank, entries []store.Entry) (time.Time, error) {
	started, err := readStarted(typed, now, t.Started)
	if err != nil {
		return time.Time{}, err
	}
	for _, e := range entries {
		if e.Kind != store.KindSetup && e.At.Before(started) {
			return time.Time{}, refuse(CodeTime, "started", "started %s lies after the first entry of %s (%s); name an earlier day, or /undo that entry",
				quote(typed), quote(t.Name), minute(e.At))
		}
	}
	return started, nil
}

// changed lists what was edited, in the order of the options.
func changed(c *call, t, edited store.Tank, before, after SetupView, fromStart bool) []Changed {
	list := []Changed{}
	for _, o := range c.spec.Options {
		if !c.has(o.Name) {
			continue
		}
		switch o.Name {
		case "tank", "at", "share", "note":
		case "name":
			list = append(list, Changed{o.Name, t.Name, edited.Name, true})
		case "started":
			list = append(list, Changed{o.Name, day(t.Started), day(edited.Started), true})
		case "volume", "method", "target", "altitude":
			list = append(list, Changed{o.Name, before.fact(o.Name), after.fact(o.Name), true})
		default:
			list = append(list, Changed{o.Name, before.fact(o.Name), after.fact(o.Name), fromStart})
		}
	}
	return list
}

// Text says what changed and from when on.
func (r TankEdit) Text() string {
	if r.Duplicate {
		return again
	}
	var corrected, since []string
	for _, c := range r.Changed {
		fact := label(c.Option) + " " + c.After
		if c.Before != c.After {
			fact += " (was " + c.Before + ")"
		}
		if c.Correct {
			corrected = append(corrected, fact)
		} else {
			since = append(since, fact)
		}
	}
	var parts []string
	if len(corrected) > 0 {
		parts = append(parts, "corrected from the start on: "+strings.Join(corrected, ", "))
	}
	if len(since) > 0 {
		parts = append(parts, fmt.Sprintf("from day %s (%s) on: %s", number(r.FromDay, 0), r.when, strings.Join(since, ", ")))
	}
	text := fmt.Sprintf("Noted for %s.", r.Tank)
	if len(parts) > 0 {
		text = fmt.Sprintf("Noted for %s, %s.", r.Tank, strings.Join(parts, "; "))
	}
	for _, words := range []string{consentWords(r.Share), noteWords(r.Note)} {
		if words != "" {
			text += " " + words
		}
	}
	if r.Doubt != nil {
		text += "\n" + r.Doubt.Text()
	}
	return text
}
