package commands

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"sync"

	"ripen/engine/model"
	"ripen/engine/pool"
	"ripen/engine/unit"
	"ripen/store"
)

// Learner is an Adviser that the tanks of a club can teach.
type Learner interface {
	Adviser
	// Says returns what a tank's log up to now says of what it began with.
	Says(c model.Case, now unit.Days) pool.Tank
	// Learned returns an adviser that takes what was learnt into account.
	Learned(p pool.Prior) Adviser
}

// advisers are an adviser and, for each club, what it became by what the club taught.
type advisers struct {
	base Adviser

	mu sync.Mutex
	by map[string]taught // by club
}

type taught struct {
	text    string // the note it was made from
	prior   pool.Prior
	adviser Adviser
}

// priorNote is the name of the note with what a club taught. What single tanks say stands
// in notes of their members, so that it goes when they erase their data.
const (
	priorNote = "prior/"
	saysNote  = "says/"
)

// of returns the adviser for a club, and what that rests on.
func (a *advisers) of(ctx context.Context, st store.Store, club string) (Adviser, pool.Prior, error) {
	l, ok := a.base.(Learner)
	if !ok {
		return a.base, pool.Prior{}, nil
	}
	text, err := st.Note(ctx, club, priorNote)
	if err != nil || text == "" {
		return a.base, pool.Prior{}, err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if t, ok := a.by[club]; ok && t.text == text {
		return t.adviser, t.prior, nil
	}
	t := taught{text: text, adviser: a.base}
	if err := json.Unmarshal([]byte(text), &t.prior); err != nil {
		return nil, t.prior, fmt.Errorf("what club %q taught cannot be read: %w", club, err)
	}
	if t.prior.Level != pool.None {
		t.adviser = l.Learned(t.prior)
	}
	if a.by == nil {
		a.by = map[string]taught{}
	}
	a.by[club] = t
	return t.adviser, t.prior, nil
}

// leastRead is how many readings a tank needs to be learnt from.
const leastRead = 3

// learntTo is the day up to which a tank's log is learnt from, false if it is not yet: to
// when it showed the tank done, to its end where it was closed, and else to its last test
// but for those since their number last grew by half. So a tank that is read every day is
// fitted some times only, and what it says follows from its log alone.
func learntTo(t store.Tank, f finish, readings []model.Reading) (day unit.Days, ok bool) {
	n := len(readings)
	switch {
	case n < leastRead:
		return 0, false
	case f.known:
		return unit.Days(f.shown), true
	case t.Closed.IsZero():
		step := leastRead
		for step+(step+1)/2 <= n {
			step += (step + 1) / 2
		}
		n = step
	}
	return readings[n-1].Day, true
}

// logTo names the state of a tank's log up to a day.
func logTo(t store.Tank, entries []store.Entry, day unit.Days) string {
	n, last := 0, int64(0)
	for _, e := range entries {
		// What was said of the set-up holds from the start on, whenever it was said.
		if e.Kind == store.KindSetup || e.Kind == store.KindEdit || daysSince(t.Started, e.At) <= day {
			n, last = n+1, max(last, e.ID)
		}
	}
	return fmt.Sprintf("to %d: %d.%d", int(day*24*60), n, last)
}

// saying is what one tank says, and of which log.
type saying struct {
	Log  string    `json:"log"`
	Says pool.Tank `json:"says"`
}

// Learn works out anew what the tanks of a club teach, those left out whose members said
// share:no, and lets later outlooks rest on it where it foretells better. It takes up to a
// second for each tank of which there is more to learn, and belongs off the reply path.
// What was learnt from members who erased their data is gone with that.
func (b *Book) Learn(ctx context.Context, club string) (pool.Prior, error) {
	base := b.advisers.base
	if b.watch != nil {
		base = b.watch.advisers.base
	}
	l, ok := base.(Learner)
	if !ok {
		return pool.Prior{}, errors.New("this engine cannot be taught")
	}
	tanks, err := b.store.ClubTanks(ctx, club)
	if err != nil {
		return pool.Prior{}, err
	}
	var all []pool.Tank
	for len(tanks) > 0 { // they come by member
		n := slices.IndexFunc(tanks, func(t store.Tank) bool { return t.Member != tanks[0].Member })
		if n < 0 {
			n = len(tanks)
		}
		says, err := b.says(ctx, l, tanks[:n])
		if err != nil {
			return pool.Prior{}, err
		}
		all, tanks = append(all, says...), tanks[n:]
	}
	p := pool.Learn(all)
	text, err := json.Marshal(p)
	if err != nil {
		return p, err
	}
	return p, b.store.SetNote(ctx, club, priorNote, string(text))
}

// says returns what the tanks of one member say; logs that did not change are not fitted
// again.
func (b *Book) says(ctx context.Context, l Learner, tanks []store.Tank) (all []pool.Tank, err error) {
	club, name := tanks[0].Club, saysNote+tanks[0].Member
	text, err := b.store.Note(ctx, club, name)
	if err != nil {
		return nil, err
	}
	was, is := map[string]saying{}, map[string]saying{}
	if text != "" && json.Unmarshal([]byte(text), &was) != nil {
		clear(was) // as if nothing had been kept
	}
	for _, t := range tanks {
		entries, c, err := b.readCase(ctx, t)
		if errors.Is(err, store.ErrNotFound) {
			continue
		}
		if err != nil {
			return nil, err
		}
		f := finishOf(t, entries, c)
		day, ok := learntTo(t, f, c.Readings)
		if !ok || consent(entries) == "no" {
			continue
		}
		id := strconv.FormatInt(t.ID, 10)
		s := saying{Log: logTo(t, entries, day)}
		if old, ok := was[id]; ok && old.Log == s.Log {
			s = old
		} else {
			s.Says = l.Says(c, day)
		}
		s.Says.Done = f.known
		is[id], all = s, append(all, s.Says)
	}
	data := []byte{}
	if len(is) > 0 {
		if data, err = json.Marshal(is); err != nil {
			return nil, err
		}
	}
	if string(data) == text {
		return all, nil
	}
	return all, b.store.SetNote(ctx, club, name, string(data))
}

// LearnAll learns in every club.
func (b *Book) LearnAll(ctx context.Context) error {
	clubs, err := b.store.AllClubs(ctx)
	if err != nil {
		return err
	}
	var failed []error
	for _, club := range clubs {
		if _, err := b.Learn(ctx, club); err != nil {
			failed = append(failed, fmt.Errorf("learning from club %q: %w", club, err))
		}
	}
	return errors.Join(failed...)
}
