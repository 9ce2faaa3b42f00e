package storetest

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"sync"
	"time"

	"ripen/store"
)

// memory is the contract in its plainest form: a list of entries, from which
// everything else is worked out anew at each call. Other stores are held
// against it.
type memory struct {
	mu     sync.Mutex // protects all below
	closed bool
	units  map[owner]store.Units
	owners []owner              // of tanks; the ID of a tank is its place + 1
	lines  []*line              // the ID of an entry is its place + 1
	notes  map[[2]string]string // by club and name

	settings map[string]store.Settings // by club
	erased   map[int64]bool            // tanks of members who erased their data
	outlooks []store.Outlook
	verdicts map[int64]store.Verdict
	weeks    map[[2]string]store.Week // by club and name
}

type owner struct{ club, member string }

// line is an entry with what it sets of its tank, zero where nothing.
type line struct {
	store.Entry
	sets      store.Tank
	founds    bool // it is the setup that came with the tank
	undoneKey string
}

var _ store.Store = (*memory)(nil)

func newMemory() *memory {
	return &memory{units: map[owner]store.Units{}, notes: map[[2]string]string{}, settings: map[string]store.Settings{}, erased: map[int64]bool{},
		verdicts: map[int64]store.Verdict{}, weeks: map[[2]string]store.Week{}}
}

// enter locks the store for a call, unless that must not run.
func (m *memory) enter(ctx context.Context) (leave func(), err error) {
	m.mu.Lock()
	if m.closed {
		err = errors.New("store is closed")
	}
	return m.mu.Unlock, cmp.Or(ctx.Err(), err)
}

func (m *memory) Sweep(ctx context.Context) error {
	leave, err := m.enter(ctx)
	leave()
	return err
}

func (m *memory) Close() error {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.closed = true
	return nil
}

func (m *memory) Member(ctx context.Context, club, id string) (store.Member, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return store.Member{}, err
	}
	u, ok := m.units[owner{club, id}]
	if !ok {
		u = store.Metric
	}
	return store.Member{Club: club, ID: id, Units: u}, nil
}

func (m *memory) SetUnits(ctx context.Context, club, id string, u store.Units) error {
	leave, err := m.enter(ctx)
	defer leave()
	if err == nil {
		m.units[owner{club, id}] = u
	}
	return err
}

func (m *memory) AddTank(ctx context.Context, t store.Tank, setup store.Entry) (store.Tank, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return store.Tank{}, err
	}
	own := owner{t.Club, t.Member}
	for id := range m.owners {
		has, hidden := m.state(int64(id + 1))
		if m.owners[id] == own && !hidden && has.Closed.IsZero() && store.Fold(has.Name) == store.Fold(t.Name) {
			return store.Tank{}, store.ErrNameTaken
		}
	}
	if known := m.ofKey(t.Club, setup.Key); known != nil {
		has, _ := m.state(known.Tank)
		return has, nil
	}
	m.owners = append(m.owners, own)
	setup.Tank, setup.Kind = int64(len(m.owners)), store.KindSetup
	m.add(line{Entry: setup, founds: true, sets: store.Tank{Name: t.Name, Started: t.Started}})
	has, _ := m.state(setup.Tank)
	return has, nil
}

func (m *memory) Tanks(ctx context.Context, club, member string) (all []store.Tank, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	for id, own := range m.owners {
		if t, hidden := m.state(int64(id + 1)); own == (owner{club, member}) && !hidden {
			all = append(all, t)
		}
	}
	slices.SortStableFunc(all, func(a, b store.Tank) int { return a.Started.Compare(b.Started) })
	return all, err
}

func (m *memory) EditTank(ctx context.Context, tank int64, name string, started time.Time, edit store.Entry) (bool, error) {
	edit.Tank, edit.Kind = tank, store.KindEdit
	return m.tell(ctx, line{Entry: edit, sets: store.Tank{Name: name, Started: started}})
}

func (m *memory) CloseTank(ctx context.Context, tank int64, at time.Time, edit store.Entry) error {
	if at.IsZero() {
		return errors.New("no time given")
	}
	edit.Tank, edit.Kind = tank, store.KindEdit
	_, err := m.tell(ctx, line{Entry: edit, sets: store.Tank{Closed: at}})
	return err
}

func (m *memory) AddEntry(ctx context.Context, e store.Entry) (bool, error) {
	return m.tell(ctx, line{Entry: e})
}

func (m *memory) Entries(ctx context.Context, tank int64) (all []store.Entry, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return nil, err
	}
	if _, hidden := m.state(tank); hidden {
		return nil, store.ErrNotFound
	}
	for _, l := range m.lines {
		if l.Tank == tank && l.Undone.IsZero() {
			all = append(all, l.Entry)
		}
	}
	slices.SortStableFunc(all, func(a, b store.Entry) int { return a.At.Compare(b.At) })
	return all, nil
}

func (m *memory) Undo(ctx context.Context, club, member, of, key string, at time.Time) (store.Entry, store.Tank, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err == nil && at.IsZero() {
		err = errors.New("no time given")
	}
	if err != nil {
		return store.Entry{}, store.Tank{}, err
	}
	var last *line
	for _, l := range m.lines {
		_, hidden := m.state(l.Tank)
		switch {
		case m.owners[l.Tank-1] != owner{club, member}:
		case key != "" && l.undoneKey == key:
			t, _ := m.state(l.Tank)
			return l.Entry, t, nil
		case hidden || !l.Undone.IsZero():
		default:
			last = l
		}
	}
	switch {
	case of != "" && (last == nil || last.Key != of):
		return store.Entry{}, store.Tank{}, store.ErrNotLast
	case last == nil:
		return store.Entry{}, store.Tank{}, store.ErrNothingLeft
	}
	last.Undone, last.undoneKey = ms(at), key
	if m.clash(last.Tank) {
		last.Undone, last.undoneKey = time.Time{}, ""
		return store.Entry{}, store.Tank{}, store.ErrNameTaken
	}
	t, _ := m.state(last.Tank)
	return last.Entry, t, nil
}

func (m *memory) Note(ctx context.Context, club, name string) (string, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return "", err
	}
	return m.notes[[2]string{club, name}], nil
}

func (m *memory) SetNote(ctx context.Context, club, name, text string) error {
	leave, err := m.enter(ctx)
	defer leave()
	if err == nil {
		m.notes[[2]string{club, name}] = text
	}
	return err
}
