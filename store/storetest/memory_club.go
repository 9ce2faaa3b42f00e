package storetest

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"time"

	"ripen/store"
)

func (m *memory) KeepOutlook(ctx context.Context, o store.Outlook) error {
	leave, err := m.enter(ctx)
	defer leave()
	if t, _ := m.state(o.Tank); err == nil && t.ID == 0 {
		err = store.ErrNotFound
	}
	o.At = ms(o.At)
	if err != nil || slices.ContainsFunc(m.outlooks, func(x store.Outlook) bool {
		return x.Tank == o.Tank && x.At.Equal(o.At) && x.Asked == o.Asked && x.Own == o.Own
	}) {
		return err
	}
	m.outlooks = append(m.outlooks, o)
	return nil
}

func (m *memory) ClubOutlooks(ctx context.Context, club string, since time.Time) ([]store.Outlook, error) {
	return m.outlooksIf(ctx, func(t store.Tank, o store.Outlook) bool { return t.Club == club && o.At.After(since) })
}

func (m *memory) TankOutlooks(ctx context.Context, tank int64) ([]store.Outlook, error) {
	return m.outlooksIf(ctx, func(t store.Tank, _ store.Outlook) bool { return t.ID == tank })
}

func (m *memory) CountOutlooks(ctx context.Context, club, asked string) (map[int64]int, error) {
	all, err := m.outlooksIf(ctx, func(t store.Tank, o store.Outlook) bool { return t.Club == club && o.Asked == asked })
	count := map[int64]int{}
	for _, o := range all {
		count[o.Tank]++
	}
	return count, err
}

func (m *memory) outlooksIf(ctx context.Context, holds func(store.Tank, store.Outlook) bool) (all []store.Outlook, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return nil, err
	}
	for _, o := range m.outlooks {
		if t, hidden := m.state(o.Tank); holds(t, o) && !hidden {
			all = append(all, o)
		}
	}
	slices.SortStableFunc(all, func(a, b store.Outlook) int { return cmp.Or(cmp.Compare(a.Tank, b.Tank), a.At.Compare(b.At)) })
	return all, nil
}

func (m *memory) Standings(ctx context.Context, club string, closed bool) (all []store.Standing, err error) {
	tanks, err := m.ClubTanks(ctx, club)
	for _, t := range tanks {
		if s, err := m.Standing(ctx, t.ID); err == nil && s.Closed.IsZero() != closed {
			all = append(all, s)
		}
	}
	return all, err
}

func (m *memory) Standing(ctx context.Context, tank int64) (store.Standing, error) {
	leave, err := m.enter(ctx)
	defer leave()
	if err != nil {
		return store.Standing{}, err
	}
	t, hidden := m.state(tank)
	if hidden || t.ID == 0 {
		return store.Standing{}, store.ErrNotFound
	}
	told, undone := 0, 0
	for _, l := range m.lines {
		if l.Tank == tank {
			told++
			if !l.Undone.IsZero() {
				undone++
			}
		}
	}
	return store.Standing{Tank: t, Revision: fmt.Sprint(told, " ", undone), Verdict: m.verdicts[tank]}, nil
}

func (m *memory) Outdated(ctx context.Context, before time.Time) (ids []int64, err error) {
	leave, err := m.enter(ctx)
	leave()
	if err != nil {
		return nil, err
	}
	for i := range m.owners {
		s, err := m.Standing(ctx, int64(i+1))
		if err == nil && (s.Verdict.Tank == 0 || s.Verdict.Revision != s.Revision || s.Closed.IsZero() && s.Verdict.At.Before(before)) {
			ids = append(ids, s.ID)
		}
	}
	slices.SortStableFunc(ids, func(a, b int64) int { return m.verdicts[a].At.Compare(m.verdicts[b].At) })
	return ids, nil
}

func (m *memory) SetVerdict(ctx context.Context, v store.Verdict) error {
	leave, err := m.enter(ctx)
	defer leave()
	if t, _ := m.state(v.Tank); err == nil && t.ID == 0 {
		err = store.ErrNotFound
	}
	if err == nil {
		v.At = ms(v.At)
		m.verdicts[v.Tank] = v
	}
	return err
}

func (m *memory) DigestClubs(ctx context.Context) (clubs []string, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	for club, s := range m.settings {
		if s.Digest {
			clubs = append(clubs, club)
		}
	}
	slices.Sort(clubs)
	return clubs, err
}

func (m *memory) Week(ctx context.Context, club, name string) (store.Week, error) {
	leave, err := m.enter(ctx)
	defer leave()
	w := m.weeks[[2]string{club, name}]
	w.Club, w.Name = club, name
	return w, err
}

func (m *memory) LastWeek(ctx context.Context, club string) (last store.Week, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	for at, w := range m.weeks {
		if at[0] == club && w.Name > last.Name {
			last = w
		}
	}
	return last, err
}

func (m *memory) WeekBefore(ctx context.Context, club, name string) (last store.Week, err error) {
	leave, err := m.enter(ctx)
	defer leave()
	for at, w := range m.weeks {
		if at[0] == club && w.Name < name && w.Name > last.Name {
			last = w
		}
	}
	return last, err
}

func (m *memory) SetWeek(ctx context.Context, w store.Week) (bool, error) {
	leave, err := m.enter(ctx)
	defer leave()
	at := [2]string{w.Club, w.Name}
	if err != nil || m.weeks[at].Turn != w.Turn {
		return false, err
	}
	w.Turn++
	w.Claimed, w.Sent, w.Ended = msIf(w.Claimed), msIf(w.Sent), msIf(w.Ended)
	m.weeks[at] = w
	return true, nil
}

func (m *memory) DropWeek(ctx context.Context, club, name string) error {
	leave, err := m.enter(ctx)
	defer leave()
	if err == nil {
		delete(m.weeks, [2]string{club, name})
	}
	return err
}
