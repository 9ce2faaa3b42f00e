package sqlite

import (
	"context"
	"database/sql"

	"ripen/store"
)

// AddLogs stores whole tanks of a member, and units if the member has none.
func (db *DB) AddLogs(ctx context.Context, club, member string, u store.Units, logs []store.Log) (added store.Added, err error) {
	err = db.write(ctx, "add logs", func(tx *sql.Tx) error {
		for _, l := range logs {
			for _, e := range l.Entries {
				if err := freeKey(ctx, tx, club, e.Key); err != nil {
					return err
				}
			}
			id, known, err := tankOfKey(ctx, tx, club, l.Entries[0].Key)
			if err != nil {
				return err
			}
			if !known {
				t := l.Tank
				t.Club, t.Member = club, member
				if taken, err := nameTaken(ctx, tx, t); err != nil || taken && t.Closed.IsZero() {
					return either(err, store.ErrNameTaken)
				}
				if id, err = insertTank(ctx, tx, t, l.Entries[0]); err != nil {
					return err
				}
				added.Tanks++
				added.Entries++
			}
			n, err := addRest(ctx, tx, id, l, !known)
			if err != nil {
				return err
			}
			added.Entries += n
		}
		added.Units, err = setUnits(ctx, tx, club, member, u, "NOTHING")
		return err
	})
	if err != nil {
		return store.Added{}, err
	}
	return added, nil
}

// addRest stores the entries of a log that are not known, after its set-up; none if an
// older tank was closed.
func addRest(ctx context.Context, tx *sql.Tx, id int64, l store.Log, fresh bool) (added int, err error) {
	t, err := findTank(ctx, tx, id)
	if err != nil || !fresh && !t.Closed.IsZero() {
		return 0, err
	}
	for _, e := range l.Entries[1:] {
		if _, known, err := tankOfKey(ctx, tx, t.Club, e.Key); err != nil || known {
			if err != nil {
				return added, err
			}
			continue
		}
		if err := insertEntry(ctx, tx, t.Tank, e, setBy(l, e)); err != nil {
			return added, err
		}
		added++
	}
	return added, settle(ctx, tx, id)
}

// setBy is what an entry of a log sets of its tank. Of several names and starts, the last
// is known only.
func setBy(l store.Log, e store.Entry) (s sets) {
	if e.Value("name") != "" {
		s.name = orNull(l.Tank.Name, true)
	}
	if e.Value("started") != "" {
		s.started = msOrNull(l.Tank.Started)
	}
	if e.Value("closed") != "" {
		s.closed = msOrNull(l.Tank.Closed)
	}
	return s
}

// either is the first error that is one.
func either(a, b error) error {
	if a != nil {
		return a
	}
	return b
}
