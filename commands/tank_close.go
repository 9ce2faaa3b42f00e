package commands

import (
	"fmt"
	"time"

	"ripen/store"
)

// TankClose is a tank just closed.
type TankClose struct {
	Head
	Closed time.Time `json:"closed"`
	Reason string    `json:"reason,omitempty"` // "done", "given-up", "moved" or "other"; "" if not said
}

// tankClose closes a tank; its record stays.
func tankClose(c *call) (Result, error) {
	t, err := c.tank()
	if err != nil {
		return nil, err
	}
	at, err := c.at(t)
	if err != nil {
		return nil, err
	}
	entries, err := c.book.store.Entries(c.ctx, t.ID)
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	if last := entries[len(entries)-1]; last.At.After(at) {
		return nil, refuse(CodeTime, "at", "at %s lies before the last entry of %s (%s); name a later time",
			quote(c.args["at"].typed), quote(t.Name), minute(last.At))
	}
	err = c.book.store.CloseTank(c.ctx, t.ID, at, store.Entry{
		Tank: t.ID, Kind: store.KindEdit, At: at, Recorded: c.At.UTC(), Key: c.Key,
		Values: append(c.values(), store.Value{Name: "closed", Typed: "yes"}),
	})
	if err != nil {
		return nil, storeError(err, t.Name)
	}
	return TankClose{headOf(t, at), at, c.args["reason"].word}, nil
}

// Text says that the tank is closed.
func (r TankClose) Text() string {
	text := fmt.Sprintf("Closed %s on day %s (%s). Its record stays; /undo opens it again.", r.Tank, number(r.Day, 0), day(r.Closed))
	switch r.Reason {
	case reasonDone:
		return text + " Well done. The outlooks that you were given are now held against the day it was done; the club learns from it."
	case reasonGivenUp:
		return text + " Pity; /tank new starts afresh whenever you like."
	}
	return text
}
