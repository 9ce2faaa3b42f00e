package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"ripen/store"
)

// DigestClubs lists the clubs that want a weekly summary.
func (db *DB) DigestClubs(ctx context.Context) ([]string, error) {
	return db.names(ctx, "list clubs", `SELECT club FROM clubs WHERE digest = 1 ORDER BY club`)
}

// Week returns what is kept of a week.
func (db *DB) Week(ctx context.Context, club, name string) (store.Week, error) {
	w, err := db.week(ctx, `WHERE club = ? AND week = ?`, club, name)
	w.Club, w.Name = club, name
	return w, err
}

// LastWeek returns the week of the club with the latest name.
func (db *DB) LastWeek(ctx context.Context, club string) (store.Week, error) {
	return db.week(ctx, `WHERE club = ? ORDER BY week DESC LIMIT 1`, club)
}

// WeekBefore returns the week of the club with the latest name before that one.
func (db *DB) WeekBefore(ctx context.Context, club, name string) (store.Week, error) {
	return db.week(ctx, `WHERE club = ? AND week < ? ORDER BY week DESC LIMIT 1`, club, name)
}

// week returns the week that meets a condition, the zero Week if none does.
func (db *DB) week(ctx context.Context, where string, args ...any) (w store.Week, err error) {
	err = db.read(ctx, "week", func(tx *sql.Tx) error {
		var claimed, sent, ended sql.Null[int64]
		err := tx.QueryRowContext(ctx, `SELECT club, week, turn, claimed_ms, sent_ms, ended_ms, trouble FROM weeks `+where, args...).
			Scan(&w.Club, &w.Name, &w.Turn, &claimed, &sent, &ended, &w.Trouble)
		w.Claimed, w.Sent, w.Ended = fromMS(claimed), fromMS(sent), fromMS(ended)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	return w, err
}

// SetWeek stores w if its Turn is still what is kept.
func (db *DB) SetWeek(ctx context.Context, w store.Week) (won bool, err error) {
	err = db.write(ctx, "set week", func(tx *sql.Tx) error {
		args := []any{w.Claimed.UnixMilli(), msOrNull(w.Sent), msOrNull(w.Ended), w.Trouble, w.Club, w.Name, w.Turn}
		q := `UPDATE weeks SET claimed_ms = ?, sent_ms = ?, ended_ms = ?, trouble = ?, turn = turn + 1
			WHERE club = ? AND week = ? AND turn = ?`
		if w.Turn == 0 {
			q = `INSERT INTO weeks (claimed_ms, sent_ms, ended_ms, trouble, club, week, turn) VALUES (?, ?, ?, ?, ?, ?, ? + 1)
				ON CONFLICT DO NOTHING`
		}
		r, err := tx.ExecContext(ctx, q, args...)
		if err != nil {
			return err
		}
		n, err := r.RowsAffected()
		won = n == 1
		return err
	})
	return won && err == nil, err
}

// DropWeek forgets a week.
func (db *DB) DropWeek(ctx context.Context, club, name string) error {
	return db.write(ctx, "drop week", func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `DELETE FROM weeks WHERE club = ? AND week = ?`, club, name)
		return err
	})
}
