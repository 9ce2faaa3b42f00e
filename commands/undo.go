package commands

import (
	"errors"
	"fmt"
	"time"

	"ripen/store"
)

func undoSpecs() []Spec {
	return []Spec{{Name: "undo", Private: true, Help: "take back your own last entry", Example: "/undo", run: undo}}
}

// Undone is an entry just taken back.
type Undone struct {
	Head
	Kind     string    `json:"kind"` // of the entry
	At       time.Time `json:"at"`   // when it had happened
	AtDay    float64   `json:"at_day"`
	Words    string    `json:"words"`
	Recorded time.Time `json:"recorded"`
}

// undo takes back what the member told last, in whichever tank.
func undo(c *call) (Result, error) {
	e, t, err := c.book.store.Undo(c.ctx, c.Club, c.Member, c.Of, c.Key, c.At.UTC())
	if errors.Is(err, store.ErrNothingLeft) {
		return nil, refuse(CodeNothing, "", "there is nothing to take back; you told me nothing yet, or took it all back")
	}
	if errors.Is(err, store.ErrNotLast) {
		return nil, refuse(CodeNothing, "", "that is not your last entry: it was taken back, or you told something since. /undo takes back what you told last")
	}
	if errors.Is(err, store.ErrNameTaken) {
		return nil, refuse(CodeNameTaken, "", "your last entry cannot be taken back: the name that it would give back is in use by another open tank; rename or close that one first")
	}
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	was := told(t, e)
	kind := was.Kind
	switch {
	case e.Kind == store.KindSetup:
		kind = "tank new"
	case e.Kind == store.KindEdit && e.Value("closed") != "":
		kind = "tank close"
		was.Words = ""
	case e.Kind == store.KindEdit:
		kind = "tank edit"
	}
	return Undone{headOf(t, c.At), kind, e.At.UTC(), dayNumber(t.Started, e.At), was.Words, e.Recorded.UTC()}, nil
}

// Text says what was taken back.
func (r Undone) Text() string {
	switch r.Kind {
	case "tank new":
		return fmt.Sprintf("Taken back: the tank %s and what was told about it.", r.Tank)
	case "tank close":
		return fmt.Sprintf("Taken back: the closing of %s; it is open again.", r.Tank)
	}
	words := r.Kind
	if r.Words != "" {
		words += ", " + r.Words
	}
	return fmt.Sprintf("Taken back: %s, day %s (%s): %s.", r.Tank, number(r.AtDay, 0), day(r.At), words)
}
