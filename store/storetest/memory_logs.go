package storetest

import (
	"context"
	"slices"

	"ripen/store"
)

func (m *memory) AddLogs(ctx context.Context, club, member string, u store.Units, logs []store.Log) (added store.Added, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return added, err
	}
	owners := slices.Clone(m.owners)
	var lines []*line // as they are now
	for _, l := range m.lines {
		lines = append(lines, new(*l))
	}
	for _, l := range logs {
		for _, e := range l.Entries {
			if known := m.ofKey(club, e.Key); known != nil && !known.Undone.IsZero() {
				known.Key = ""
			}
		}
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
				return store.Added{}, store.ErrNameTaken
			}
			added.Tanks++
			added.Entries++
		}
		if t, _ := m.state(id); !t.Closed.IsZero() {
			continue
		}
		for _, e := range l.Entries[1:] {
			if m.ofKey(club, e.Key) != nil {
				continue
			}
			e.Tank = id
			var sets store.Tank
			if e.Value("name") != "" {
				sets.Name = l.Tank.Name
			}
			if e.Value("started") != "" {
				sets.Started = l.Tank.Started
			}
			if e.Value("closed") != "" {
				sets.Closed = l.Tank.Closed
			}
			m.add(line{Entry: e, sets: sets})
			added.Entries++
		}
		if m.clash(id) {
			m.lines, m.owners = lines, owners
			return store.Added{}, store.ErrNameTaken
		}
	}
	if _, has := m.units[owner{club, member}]; !has {
		m.units[owner{club, member}], added.Units = u, true
	}
	return added, nil
}
