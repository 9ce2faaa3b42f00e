package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"ripen/store"
)

// Undo takes back the member's last entry.
func (db *DB) Undo(ctx context.Context, club, member, of, key string, at time.Time) (store.Entry, store.Tank, error) {
	if at.IsZero() {
		return store.Entry{}, store.Tank{}, errors.New("undo: no time given")
	}
	var undone store.Entry
	var its tankRow
	err := db.write(ctx, "undo", func(tx *sql.Tx) error {
		id, err := undoneBy(ctx, tx, club, member, key)
		if errors.Is(err, sql.ErrNoRows) {
			id, err = takeBack(ctx, tx, club, member, of, key, at)
		}
		if err != nil {
			return err
		}
		found, err := findEntries(ctx, tx, `id = ?`, id)
		if err != nil {
			return err
		}
		undone = found[0]
		its, err = findTank(ctx, tx, undone.Tank)
		return err
	})
	if err != nil {
		return store.Entry{}, store.Tank{}, err
	}
	return undone, its.Tank, nil
}

// undoneBy returns the entry that the delivery of that key took back.
// sql.ErrNoRows if it took back none, or for "", which is stored as NULL.
func undoneBy(ctx context.Context, tx *sql.Tx, club, member, key string) (id int64, err error) {
	err = tx.QueryRowContext(ctx, `SELECT id FROM entries WHERE club = ? AND member = ? AND undone_key = ?`,
		club, member, key).Scan(&id)
	return id, err
}

// takeBack marks the member's last standing entry as undone and restores its
// tank. store.ErrNothingLeft, store.ErrNotLast, store.ErrNameTaken.
func takeBack(ctx context.Context, tx *sql.Tx, club, member, of, key string, at time.Time) (id int64, err error) {
	var tank int64
	var last string
	err = tx.QueryRowContext(ctx, `SELECT e.id, e.tank, coalesce(e.key, '') FROM entries e JOIN tanks t ON t.id = e.tank
		WHERE e.club = ? AND e.member = ? AND e.undone_ms IS NULL AND t.hidden = 0
		ORDER BY e.id DESC LIMIT 1`, club, member).Scan(&id, &tank, &last)
	none := errors.Is(err, sql.ErrNoRows)
	switch {
	case of != "" && (none || err == nil && last != of):
		return 0, store.ErrNotLast
	case none:
		return 0, store.ErrNothingLeft
	case err != nil:
		return 0, err
	}
	_, err = tx.ExecContext(ctx, `UPDATE entries SET undone_ms = ?, undone_key = ? WHERE id = ?`,
		at.UnixMilli(), orNull(key, key != ""), id)
	if err != nil {
		return 0, err
	}
	return id, settle(ctx, tx, tank)
}
