package commands

import (
	"context"

	"ripen/store"
)

// OpenTanks returns the names of a member's open tanks, oldest first, for a front
// end that offers them.
func (b *Book) OpenTanks(ctx context.Context, club, member string) (names []string, err error) {
	tanks, err := b.store.Tanks(ctx, club, member)
	for _, t := range tanks {
		if t.Closed.IsZero() {
			names = append(names, t.Name)
		}
	}
	return names, err
}

// LastKey returns the key of the delivery with which a member told what /undo
// would take back, "" if there is nothing or it had no key.
func (b *Book) LastKey(ctx context.Context, club, member string) (string, error) {
	tanks, err := b.store.Tanks(ctx, club, member)
	if err != nil {
		return "", err
	}
	var last store.Entry
	for _, t := range tanks {
		entries, err := b.store.Entries(ctx, t.ID)
		if err != nil {
			return "", err
		}
		for _, e := range entries {
			if e.Recorded.After(last.Recorded) || e.Recorded.Equal(last.Recorded) && e.ID > last.ID {
				last = e
			}
		}
	}
	return last.Key, nil
}
