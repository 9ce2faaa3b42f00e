package commands

import (
	"errors"
	"slices"
	"strings"
	"time"

	"ripen/store"
)

// owner is whose tanks a request is about: the member's own, or those of the
// member that a moderator named, or that the thread is about.
func (c *call) owner() string {
	if a, ok := c.args["member"]; ok {
		return strings.TrimPrefix(a.word, "@")
	}
	return c.Member
}

// ask makes a moderator's question in a thread about a tank one about the
// member whose tank it is, unless the moderator named a tank or a member.
func (c *call) ask() error {
	if _, takes := c.spec.Option("member"); !takes || !c.Moderator || c.has("member") || c.has("tank") {
		return nil
	}
	t, err := c.tie()
	if err == nil && t.member != "" && t.member != c.Member {
		c.args["member"] = arg{typed: t.member, word: t.member}
	}
	return err
}

// tank returns the tank that the request is about: the one named, that
// of the thread, or the only open one.
func (c *call) tank() (store.Tank, error) { return c.findTank(false) }

// findTank is tank; with closed, a closed tank can be named too.
func (c *call) findTank(closed bool) (store.Tank, error) {
	all, err := c.book.store.Tanks(c.ctx, c.Club, c.owner())
	if err != nil {
		return store.Tank{}, err
	}
	var open []store.Tank
	for _, t := range all {
		if t.Closed.IsZero() {
			open = append(open, t)
		}
	}
	if a, named := c.args["tank"]; named {
		return c.named(a.word, open, all, closed)
	}
	if t, ok, err := c.tied(c.owner(), open); ok || err != nil {
		return t, err
	}
	switch {
	case len(open) == 1:
		return open[0], nil
	case len(open) > 1:
		return store.Tank{}, refuse(CodeAmbiguous, "tank", "%s more than one tank; add tank: and one of %s", c.whose("you have", "has"), names(open))
	case c.owner() != c.Member:
		return store.Tank{}, refuse(CodeUnknownTank, "member", "%s has no open tank here; check the name", quote(c.owner()))
	case len(all) > 0:
		return store.Tank{}, refuse(CodeUnknownTank, "tank", "you have no open tank; /tank list shows the closed ones, /tank new starts another")
	}
	return store.Tank{}, refuse(CodeUnknownTank, "tank", "you have no tank yet; register one with /tank new name:first volume:60L")
}

// named returns the open tank of that name, else the last closed one.
func (c *call) named(name string, open, all []store.Tank, closed bool) (store.Tank, error) {
	same := func(t store.Tank) bool { return store.Fold(t.Name) == store.Fold(name) }
	if i := slices.IndexFunc(open, same); i >= 0 {
		return open[i], nil
	}
	slices.Reverse(all)
	if i := slices.IndexFunc(all, same); i >= 0 {
		if closed {
			return all[i], nil
		}
		return store.Tank{}, refuse(CodeClosed, "tank", "the tank %s is closed since %s; /undo opens it again if closing it was your last entry",
			quote(all[i].Name), day(all[i].Closed))
	}
	if len(open) == 0 {
		return store.Tank{}, refuse(CodeUnknownTank, "tank", "there is no tank %s: %s no open tank", quote(name), c.whose("you have", "has"))
	}
	var known []string
	for _, t := range open {
		known = append(known, t.Name)
	}
	return store.Tank{}, refuse(CodeUnknownTank, "tank", "there is no tank %s%s; %s %s",
		quote(name), didYouMean(name, known), c.whose("you have", "has"), names(open))
}

// whose is "you have" or "wren has".
func (c *call) whose(you, they string) string {
	if c.owner() == c.Member {
		return you
	}
	return quote(c.owner()) + " " + they
}

// names lists tanks by name, as they are typed, at most ten.
func names(tanks []store.Tank) string {
	const most = 10
	var s []string
	for _, t := range tanks[:min(most, len(tanks))] {
		if strings.Contains(t.Name, " ") {
			s = append(s, "\""+t.Name+"\"")
		} else {
			s = append(s, t.Name)
		}
	}
	if len(tanks) > most {
		s = append(s, "others")
	}
	return list(s, "and")
}

// at returns when the entry happened: the time given, or now.
func (c *call) at(t store.Tank) (time.Time, error) {
	typed := "now"
	if a, ok := c.args["at"]; ok {
		typed = a.typed
	}
	when, err := readAt("at", typed, c.At, t.Started)
	if err != nil {
		return time.Time{}, err
	}
	return when, nil
}

// when prints the date of what happened at a time that c.at returned, with the time of day
// if the member told one: it was read as UTC, which need not be what was meant. When a post
// was written is told by the chat.
func (c *call) when(t store.Tank, at time.Time) string {
	if a, ok := c.args["at"]; ok && !c.spec.Post {
		if m, err := readMoment("at", a.typed, c.At, t.Started); err == nil && m.clock {
			return day(at) + at.UTC().Format(", 15:04 UTC")
		}
	}
	return day(at)
}

// storeError turns the sentinels of the store into refusals.
func storeError(err error, name string) error {
	switch {
	case errors.Is(err, store.ErrNameTaken):
		return refuse(CodeNameTaken, "name", "you have an open tank called %s already; choose another name, or close that one first", quote(name))
	case errors.Is(err, store.ErrClosed):
		return refuse(CodeClosed, "tank", "the tank %s is closed; nothing more can be told about it", quote(name))
	case errors.Is(err, store.ErrNotFound):
		return refuse(CodeUnknownTank, "tank", "the tank %s is gone; /tank list shows what is there", quote(name))
	}
	return err
}
