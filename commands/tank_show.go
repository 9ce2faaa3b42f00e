package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/store"
)

// Told is one entry of a tank, in the member's words.
type Told struct {
	Day   float64   `json:"day"`
	At    time.Time `json:"at"`
	Kind  string    `json:"kind"`
	Words string    `json:"words"`
}

// TankShow is a tank as it stands.
type TankShow struct {
	Head
	Closed   *time.Time `json:"closed"`
	Setup    SetupView  `json:"setup"` // with all changes
	Assumed  []string   `json:"assumed"`
	Entries  int        `json:"entries"` // readings, logs and edits
	Readings int        `json:"readings"`
	Last     []Told     `json:"last"` // the last of them, oldest first
}

// lastShown is how many entries /tank show lists.
const lastShown = 10

func tankShow(c *call) (Result, error) {
	t, err := c.findTank(true)
	if err != nil {
		return nil, err
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	setup, changes, err := setupOf(t, entries)
	if err != nil {
		return nil, err
	}
	now := c.At
	if !t.Closed.IsZero() {
		now = t.Closed
	}
	setup = current(setup, changes, daysSince(t.Started, now))
	r := TankShow{Head: headOf(t, now), Setup: setupView(setup, c.units), Assumed: assumed(setup), Last: []Told{}}
	if !t.Closed.IsZero() {
		r.Closed = new(t.Closed.UTC())
	}
	for _, e := range entries {
		if e.Kind == store.KindSetup {
			continue
		}
		r.Entries++
		if e.Kind == store.KindReading {
			r.Readings++
		}
		r.Last = append(r.Last, told(t, e))
	}
	r.Last = r.Last[max(0, len(r.Last)-lastShown):]
	return r, nil
}

// told puts an entry into words, with the units that bare numbers had.
func told(t store.Tank, e store.Entry) Told {
	kind := string(e.Kind)
	var facts []string
	for _, v := range e.Values {
		switch v.Name {
		case "closed":
			kind = "closed"
		case "at", "post", "kit":
		case "what":
			kind = v.Typed
		case "detail":
			facts = append(facts, quote(v.Typed))
		case "amount":
			facts = append(facts, v.Typed+bareSuffix(v, kind)+asNitrogen(v.Unit))
		default:
			facts = append(facts, label(v.Name)+" "+v.Typed+bareSuffix(v, "")+asNitrogen(v.Unit))
		}
	}
	return Told{Day: dayNumber(t.Started, e.At), At: e.At.UTC(), Kind: kind, Words: strings.Join(facts, ", ")}
}

// bareSuffix is the unit that a number typed without one had.
func bareSuffix(v store.Value, logged string) string {
	if v.Typed == "" || !strings.ContainsAny(v.Typed[len(v.Typed)-1:], "0123456789.,") {
		return ""
	}
	if kind, ok := kindOfLog(logged); ok && len(kind.amounts) > 0 {
		if f, ok := families(kind.amounts[0].Type); ok && !kind.asks {
			return unitText(bareMeasure(kind.amounts[0], f, v.Unit).name)
		}
	}
	if v.Unit == "ion" || v.Unit == "n" {
		return ""
	}
	return unitText(v.Unit)
}

// Text prints the tank and its last entries.
func (r TankShow) Text() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s, day %s, started %s", r.Tank, number(r.Day, 0), day(r.Started))
	if r.Closed != nil {
		fmt.Fprintf(&b, ", closed %s", day(*r.Closed))
	}
	fmt.Fprintf(&b, ":\n%s", r.Setup.Text())
	if len(r.Assumed) > 0 {
		fmt.Fprintf(&b, "\nUsual values stand for %s; tell what you know with /tank edit.", list(labels(r.Assumed), "and"))
	}
	if r.Entries == 0 {
		b.WriteString("\nNothing was told about it yet: /reading takes your tests, /log what you do.")
		return b.String()
	}
	fmt.Fprintf(&b, "\n%s, %s of them readings.", plural(r.Entries, "entry", "entries"), number(float64(r.Readings), 0))
	for _, e := range r.Last {
		fmt.Fprintf(&b, "\n  day %s  %s", number(e.Day, 0), e.Kind)
		if e.Words != "" {
			fmt.Fprintf(&b, ": %s", e.Words)
		}
	}
	return b.String()
}
