package storetest

import (
	"context"
	"slices"
	"time"

	"ripen/store"
)

// state works out a tank from its standing entries, in the order added. hidden
// is true if its setup was taken back, or if there is no such tank.
func (m *memory) state(id int64) (t store.Tank, hidden bool) {
	if id < 1 || id > int64(len(m.owners)) || m.erased[id] {
		return store.Tank{}, true
	}
	own := m.owners[id-1]
	t = store.Tank{ID: id, Club: own.club, Member: own.member}
	for _, l := range m.lines {
		if l.Tank != id || !l.Undone.IsZero() && !l.founds {
			continue
		}
		if l.founds {
			hidden = !l.Undone.IsZero()
			t.Name, t.Started = l.sets.Name, ms(l.sets.Started)
		}
		if l.sets.Name != "" {
			t.Name = l.sets.Name
		}
		if !l.sets.Started.IsZero() {
			t.Started = ms(l.sets.Started)
		}
		if !l.sets.Closed.IsZero() {
			t.Closed = ms(l.sets.Closed)
		}
	}
	return t, hidden
}

// clash reports whether the tank is open under the name of another open one.
func (m *memory) clash(id int64) bool {
	t, hidden := m.state(id)
	if hidden || !t.Closed.IsZero() {
		return false
	}
	for i, own := range m.owners {
		other, hidden := m.state(int64(i + 1))
		if other.ID != id && own == (owner{t.Club, t.Member}) && !hidden && other.Closed.IsZero() &&
			store.Fold(other.Name) == store.Fold(t.Name) {
			return true
		}
	}
	return false
}

// tell adds a line about an existing tank.
func (m *memory) tell(ctx context.Context, l line) (added bool, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return false, err
	}
	t, hidden := m.state(l.Tank)
	known := m.ofKey(t.Club, l.Key)
	free := known != nil && l.Again && !known.Undone.IsZero()
	switch {
	case t.ID == 0:
		return false, store.ErrNotFound
	case known != nil && !free:
		return false, nil
	case hidden:
		return false, store.ErrNotFound
	case !t.Closed.IsZero():
		return false, store.ErrClosed
	}
	m.add(l)
	if m.clash(l.Tank) {
		m.lines = m.lines[:len(m.lines)-1]
		return false, store.ErrNameTaken
	}
	if free {
		known.Key = ""
	}
	return true, nil
}

// add appends a line as a store keeps it.
func (m *memory) add(l line) {
	l.ID = int64(len(m.lines) + 1)
	l.At, l.Recorded, l.Undone, l.Again = ms(l.At), ms(l.Recorded), time.Time{}, false
	l.Values = slices.Clone(l.Values)
	m.lines = append(m.lines, &l)
}

// ofKey returns the line of the club that came with the key, nil if none.
func (m *memory) ofKey(club, key string) *line {
	for _, l := range m.lines {
		if key != "" && l.Key == key && m.owners[l.Tank-1].club == club {
			return l
		}
	}
	return nil
}

// ms is a time as a store keeps it.
func ms(t time.Time) time.Time { return time.UnixMilli(t.UnixMilli()).UTC() }

// msIf is ms of a time that may be zero, which stays so.
func msIf(t time.Time) time.Time {
	if t.IsZero() {
		return t
	}
	return ms(t)
}
