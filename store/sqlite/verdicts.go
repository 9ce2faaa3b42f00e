package sqlite

import (
	"context"
	"database/sql"
	"time"

	"ripen/store"
)

// A log's revision is how often it changed, so no two states of it have the same.
const selectStanding = `SELECT t.id, t.club, t.member, t.name, t.started_ms, t.closed_ms,
		CAST(t.changes AS TEXT), coalesce(v.revision, ''), v.at_ms, coalesce(v.data, '')
	FROM tanks t LEFT JOIN verdicts v ON v.tank = t.id
	WHERE t.hidden = 0`

func scanStanding(row scanner) (store.Standing, error) {
	var s store.Standing
	var started, closed, at sql.Null[int64]
	err := row.Scan(&s.ID, &s.Club, &s.Member, &s.Name, &started, &closed, &s.Revision, &s.Verdict.Revision, &at, &s.Verdict.Data)
	s.Started, s.Closed, s.Verdict.At = fromMS(started), fromMS(closed), fromMS(at)
	if at.Valid {
		s.Verdict.Tank = s.ID
	}
	return s, err
}

// Standings lists the open or the closed tanks of the club's members.
func (db *DB) Standings(ctx context.Context, club string, closed bool) ([]store.Standing, error) {
	return db.standings(ctx, ` AND t.club = ? AND (t.closed_ms IS NOT NULL) = ? ORDER BY t.member, t.started_ms, t.id`, club, closed)
}

// Standing returns one tank.
func (db *DB) Standing(ctx context.Context, tank int64) (store.Standing, error) {
	all, err := db.standings(ctx, ` AND t.id = ?`, tank)
	if err == nil && len(all) == 0 {
		err = store.ErrNotFound
	}
	if err != nil {
		return store.Standing{}, err
	}
	return all[0], nil
}

func (db *DB) standings(ctx context.Context, where string, args ...any) ([]store.Standing, error) {
	var all []store.Standing
	err := db.read(ctx, "standings", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, selectStanding+where, args...)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			s, err := scanStanding(rows)
			all = append(all, s)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// Outdated lists the tanks whose verdict is not of now.
func (db *DB) Outdated(ctx context.Context, before time.Time) ([]int64, error) {
	var ids []int64
	err := db.read(ctx, "outdated verdicts", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT t.id FROM tanks t LEFT JOIN verdicts v ON v.tank = t.id
			WHERE t.hidden = 0 AND (v.tank IS NULL OR t.closed_ms IS NULL AND v.at_ms < ? OR v.revision <> CAST(t.changes AS TEXT))
			ORDER BY coalesce(v.at_ms, 0), t.id`, before.UnixMilli())
		if err != nil {
			return err
		}
		return each(rows, func() error {
			ids = append(ids, 0)
			return rows.Scan(&ids[len(ids)-1])
		})
	})
	return ids, err
}

// SetVerdict puts the verdict in the place of the one before.
func (db *DB) SetVerdict(ctx context.Context, v store.Verdict) error {
	return db.write(ctx, "set verdict", func(tx *sql.Tx) error {
		if _, err := findTank(ctx, tx, v.Tank); err != nil {
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO verdicts (tank, revision, at_ms, data) VALUES (?, ?, ?, ?)
			ON CONFLICT DO UPDATE SET revision = excluded.revision, at_ms = excluded.at_ms, data = excluded.data`,
			v.Tank, v.Revision, v.At.UnixMilli(), v.Data)
		return err
	})
}
