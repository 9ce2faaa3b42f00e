package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"ripen/store"
)

// AddEntry stores an entry.
func (db *DB) AddEntry(ctx context.Context, e store.Entry) (added bool, err error) {
	return db.addEntry(ctx, "add entry", e, sets{})
}

// Entries lists a tank's standing entries.
func (db *DB) Entries(ctx context.Context, tank int64) ([]store.Entry, error) {
	var all []store.Entry
	err := db.read(ctx, "list entries", func(tx *sql.Tx) error {
		t, err := findTank(ctx, tx, tank)
		if err != nil {
			return err
		}
		if t.hidden {
			return store.ErrNotFound
		}
		all, err = findEntries(ctx, tx, `tank = ? AND undone_ms IS NULL`, tank)
		return err
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// sets is what an entry sets of its tank, NULL where nothing.
type sets struct {
	name            sql.Null[string]
	started, closed sql.Null[int64]
}

// addEntry stores an entry and what it sets of its tank, in one transaction.
func (db *DB) addEntry(ctx context.Context, doing string, e store.Entry, s sets) (added bool, err error) {
	err = db.write(ctx, doing, func(tx *sql.Tx) error {
		t, err := findTank(ctx, tx, e.Tank)
		if err != nil {
			return err
		}
		if e.Again {
			if err := freeKey(ctx, tx, t.Club, e.Key); err != nil {
				return err
			}
		}
		_, known, err := tankOfKey(ctx, tx, t.Club, e.Key)
		switch {
		case err != nil || known:
			return err
		case t.hidden:
			return store.ErrNotFound
		case !t.Closed.IsZero():
			return store.ErrClosed
		}
		added = true
		if err := insertEntry(ctx, tx, t.Tank, e, s); err != nil || s == (sets{}) {
			return err
		}
		return settle(ctx, tx, t.ID)
	})
	return added && err == nil, err
}

// tankOfKey returns the tank whose entry came with the key, undone or not. ""
// is never known, since it is stored as NULL.
func tankOfKey(ctx context.Context, tx *sql.Tx, club, key string) (tank int64, known bool, err error) {
	err = tx.QueryRowContext(ctx, `SELECT tank FROM entries WHERE club = ? AND key = ?`, club, key).Scan(&tank)
	if errors.Is(err, sql.ErrNoRows) {
		return 0, false, nil
	}
	return tank, err == nil, err
}

// freeKey takes a key from an entry that was taken back.
func freeKey(ctx context.Context, tx *sql.Tx, club, key string) error {
	_, err := tx.ExecContext(ctx, `UPDATE entries SET key = NULL WHERE club = ? AND key = ? AND undone_ms IS NOT NULL`, club, key)
	return err
}

// insertEntry stores an entry of a tank with its values.
func insertEntry(ctx context.Context, tx *sql.Tx, t store.Tank, e store.Entry, s sets) error {
	var id int64
	err := tx.QueryRowContext(ctx, `INSERT INTO entries
			(club, member, tank, kind, at_ms, recorded_ms, key, sets_name, sets_started_ms, sets_closed_ms)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id`,
		t.Club, t.Member, t.ID, e.Kind, e.At.UnixMilli(), e.Recorded.UnixMilli(), orNull(e.Key, e.Key != ""),
		s.name, s.started, s.closed).Scan(&id)
	if err != nil || len(e.Values) == 0 {
		return err
	}
	stmt, err := tx.PrepareContext(ctx, `INSERT INTO entry_values (entry, position, name, typed, unit) VALUES (?, ?, ?, ?, ?)`)
	if err != nil {
		return err
	}
	defer stmt.Close()
	for i, v := range e.Values {
		if _, err := stmt.ExecContext(ctx, id, i, v.Name, v.Typed, v.Unit); err != nil {
			return err
		}
	}
	return nil
}

// findEntries returns the entries that meet a condition, by At, then by ID.
func findEntries(ctx context.Context, tx *sql.Tx, where string, args ...any) ([]store.Entry, error) {
	rows, err := tx.QueryContext(ctx, `SELECT id, tank, kind, at_ms, recorded_ms, coalesce(key, ''), undone_ms
		FROM entries WHERE `+where+` ORDER BY at_ms, id`, args...)
	if err != nil {
		return nil, err
	}
	var all []store.Entry
	place := map[int64]int{} // of an entry in all, by ID
	err = each(rows, func() error {
		var e store.Entry
		var at, recorded, undone sql.Null[int64]
		err := rows.Scan(&e.ID, &e.Tank, &e.Kind, &at, &recorded, &e.Key, &undone)
		e.At, e.Recorded, e.Undone = fromMS(at), fromMS(recorded), fromMS(undone)
		place[e.ID] = len(all)
		all = append(all, e)
		return err
	})
	if err != nil {
		return nil, err
	}
	rows, err = tx.QueryContext(ctx, `SELECT entry, name, typed, unit FROM entry_values
		WHERE entry IN (SELECT id FROM entries WHERE `+where+`) ORDER BY entry, position`, args...)
	if err != nil {
		return nil, err
	}
	return all, each(rows, func() error {
		var id int64
		var v store.Value
		if err := rows.Scan(&id, &v.Name, &v.Typed, &v.Unit); err != nil {
			return err
		}
		e := &all[place[id]]
		e.Values = append(e.Values, v)
		return nil
	})
}
