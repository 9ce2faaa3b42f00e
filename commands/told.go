package commands

import "context"

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
