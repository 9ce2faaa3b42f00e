package commands

import (
	"fmt"
	"strings"
	"time"

	"ripen/store"
)

// TankList is a member's tanks.
type TankList struct {
	Tanks []TankLine `json:"tanks"` // by start
	Next  string     `json:"next,omitempty"`
}

// TankLine is one of them.
type TankLine struct {
	Head
	Closed *time.Time `json:"closed"`
}

func tankList(c *call) (Result, error) {
	tanks, err := c.book.store.Tanks(c.ctx, c.Club, c.Member)
	if err != nil {
		return nil, err
	}
	r := TankList{Tanks: []TankLine{}}
	for _, t := range tanks {
		r.Tanks = append(r.Tanks, lineOf(t, c.At))
	}
	if len(tanks) == 0 {
		r.Next = "Register one with /tank new name:first volume:60L"
	}
	return r, nil
}

func lineOf(t store.Tank, now time.Time) TankLine {
	if t.Closed.IsZero() {
		return TankLine{Head: headOf(t, now)}
	}
	return TankLine{headOf(t, t.Closed), new(t.Closed.UTC())}
}

// Text lists open tanks first.
func (r TankList) Text() string {
	if len(r.Tanks) == 0 {
		return "You have no tank yet. " + r.Next
	}
	var open, closed strings.Builder
	for _, t := range r.Tanks {
		if t.Closed == nil {
			fmt.Fprintf(&open, "\n  %s: day %s, started %s", t.Tank, number(t.Day, 0), day(t.Started))
		} else {
			fmt.Fprintf(&closed, "\n  %s: closed %s, on day %s", t.Tank, day(*t.Closed), number(t.Day, 0))
		}
	}
	return "Your tanks:" + open.String() + closed.String()
}
