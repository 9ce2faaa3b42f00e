package storetest

import (
	"context"
	"slices"

	"ripen/store"
)

func (m *memory) AddLogs(ctx context.Context, club, member string, u store.Units, logs []store.Log) (tanks, entries int, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return 0, 0, err
	}
	lines, owners := slices.Clone(m.lines), slices.Clone(m.owners)
	for _, l := range logs {
		var id int64
		if known := m.ofKey(club, l.Entries[0].Key); known != nil {
			id = known.Tank
		} else {
			m.owners = append(m.owners, owner{club, member})
			id = int64(len(m.owners))
			setup := l.Entries[0]
			setup.Tank, setup.Kind = id, store.KindSetup
			m.add(line{Entry: setup, founds: true, sets: store.Tank{Name: l.Tank.Name, Started: l.Tank.Started}})
			if m.clash(id) && l.Tank.Closed.IsZero() {
				m.lines, m.owners = lines, owners
				return 0, 0, store.ErrNameTaken
			}
			tanks, entries = tanks+1, entries+1
		}
		if t, hidden := m.state(id); hidden || !t.Closed.IsZero() {
			continue
		}
		for _, e := range l.Entries[1:] {
			if m.ofKey(club, e.Key) != nil {
				continue
			}
			e.Tank = id
			var sets store.Tank
			if e.Value("closed") != "" {
				sets.Closed = l.Tank.Closed
			}
			m.add(line{Entry: e, sets: sets})
			entries++
		}
	}
	m.units[owner{club, member}] = u
	return tanks, entries, nil
}
