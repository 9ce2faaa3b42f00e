package storetest

import (
	"cmp"
	"context"
	"slices"

	"ripen/store"
)

func (m *memory) ClubTanks(ctx context.Context, club string) (all []store.Tank, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return nil, err
	}
	for id, own := range m.owners {
		if t, hidden := m.state(int64(id + 1)); own.club == club && !hidden {
			all = append(all, t)
		}
	}
	slices.SortStableFunc(all, func(a, b store.Tank) int {
		return cmp.Or(cmp.Compare(a.Member, b.Member), a.Started.Compare(b.Started))
	})
	return all, nil
}

func (m *memory) Settings(ctx context.Context, club string) (store.Settings, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return store.Settings{}, err
	}
	return m.settings[club], nil
}

func (m *memory) SetSettings(ctx context.Context, club string, s store.Settings) error {
	leave, err := m.enter(ctx)
	defer leave()
	if err == nil {
		m.settings[club] = s
	}
	return err
}
