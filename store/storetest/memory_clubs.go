package storetest

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"ripen/store"
)

func (m *memory) AllClubs(ctx context.Context) (all []string, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	for id, own := range m.owners {
		if _, hidden := m.state(int64(id + 1)); !hidden && !slices.Contains(all, own.club) {
			all = append(all, own.club)
		}
	}
	slices.Sort(all)
	return all, err
}

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

func (m *memory) Erase(ctx context.Context, club, id string) error {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return err
	}
	own := owner{club, id}
	delete(m.units, own)
	for _, l := range m.lines {
		if m.owners[l.Tank-1] == own {
			*l = line{Entry: store.Entry{ID: l.ID, Tank: l.Tank}}
		}
	}
	for name := range m.notesOf(own) {
		delete(m.notes, [2]string{club, name})
	}
	for i := range m.owners {
		if m.owners[i] == own {
			m.owners[i], m.erased[int64(i+1)] = owner{}, true
			delete(m.verdicts, int64(i+1))
			m.outlooks = slices.DeleteFunc(m.outlooks, func(o store.Outlook) bool { return o.Tank == int64(i+1) })
		}
	}
	return nil
}

// notesOf returns a member's notes by name.
func (m *memory) notesOf(own owner) map[string]string {
	all := map[string]string{}
	for at, text := range m.notes {
		word, of, _ := strings.Cut(at[1], "/")
		if word == "tie" {
			_, of, _ = strings.Cut(text, " ")
		}
		if at[0] == own.club && of == own.member && text != "" {
			all[at[1]] = text
		}
	}
	return all
}

func (m *memory) MemberNotes(ctx context.Context, club, member string) (map[string]string, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return nil, err
	}
	return m.notesOf(owner{club, member}), nil
}
