package commands

import (
	"fmt"
	"strconv"
	"strings"

	"ripen/store"
)

// Tied says which tank a thread is about.
type Tied struct {
	Tank string `json:"tank"` // "" for none
	Off  bool   `json:"off"`  // it was about a tank before
}

// tie is the tank that a thread is about.
type tie struct {
	member string
	tank   int64
}

// tieNote is the name under which the tie of a thread is kept.
func tieNote(place string) string { return "tie/" + place }

// tie returns what the place of the request is tied to, the zero tie if to
// nothing.
func (c *call) tie() (tie, error) {
	if c.Place == "" {
		return tie{}, nil
	}
	text, err := c.book.store.Note(c.ctx, c.Club, tieNote(c.Place))
	if err != nil {
		return tie{}, err
	}
	id, member, _ := strings.Cut(text, " ")
	tank, err := strconv.ParseInt(id, 10, 64)
	if err != nil {
		return tie{}, nil
	}
	return tie{member, tank}, nil
}

// tied returns the tank of owner, among those given, that the place of the
// request is tied to.
func (c *call) tied(owner string, tanks []store.Tank) (store.Tank, bool, error) {
	t, err := c.tie()
	if err != nil || t.member != owner {
		return store.Tank{}, false, err
	}
	for _, has := range tanks {
		if has.ID == t.tank {
			return has, true, nil
		}
	}
	return store.Tank{}, false, nil
}

// tankTie ties the thread to a tank, or to none.
func tankTie(c *call) (Result, error) {
	if c.Place == "" {
		return nil, refuse(CodeUnavailable, "", "there is no thread here to tie; in a club's forum, use /tank tie in the thread about your tank")
	}
	before, err := c.tie()
	if err != nil {
		return nil, err
	}
	if before.member != "" && before.member != c.Member && !c.Moderator {
		return nil, refuse(CodeRights, "", "this thread is tied to the tank of another member; open a thread of your own, or ask a moderator")
	}
	if c.has("off") {
		if before.member == "" {
			return nil, refuse(CodeNothing, "off", "this thread is tied to no tank; tie it with /tank tie")
		}
		return Tied{Off: true}, c.book.store.SetNote(c.ctx, c.Club, tieNote(c.Place), "")
	}
	t, err := c.tank()
	if err != nil {
		return nil, err
	}
	return Tied{Tank: t.Name}, c.book.store.SetNote(c.ctx, c.Club, tieNote(c.Place), strconv.FormatInt(t.ID, 10)+" "+c.Member)
}

// Text says what the thread is about from now on.
func (r Tied) Text() string {
	if r.Off {
		return "This thread is tied to no tank any longer."
	}
	return fmt.Sprintf("This thread is about %s from now on: commands here take that tank when none is named.", r.Tank)
}
