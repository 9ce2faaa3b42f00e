package sqlite

import (
	"context"
	"database/sql"
	"math"
	"time"

	"ripen/store"
)

// KeepOutlook stores an outlook that was given.
func (db *DB) KeepOutlook(ctx context.Context, o store.Outlook) error {
	return db.write(ctx, "keep outlook", func(tx *sql.Tx) error {
		if _, err := findTank(ctx, tx, o.Tank); err != nil {
			return err
		}
		args := []any{o.Tank, o.Asked, o.Own, o.At.UnixMilli(), o.Day, o.Stage, o.Readings}
		for _, d := range o.Done {
			args = append(args, orNull(d, !math.IsInf(d, 1)))
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO outlooks
				(tank, asked, own, at_ms, day, stage, readings, p2_5, p10, p25, p50, p75, p90, p97_5, engine, prior)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING`,
			append(args, o.Engine, o.Prior)...)
		return err
	})
}

// TankOutlooks lists the outlooks given of a tank.
func (db *DB) TankOutlooks(ctx context.Context, tank int64) ([]store.Outlook, error) {
	return db.outlooks(ctx, "list outlooks of tank", `t.id = ?`, tank)
}

// ClubOutlooks lists the outlooks given of the club's tanks after a time.
func (db *DB) ClubOutlooks(ctx context.Context, club string, since time.Time) ([]store.Outlook, error) {
	if since.IsZero() {
		return db.outlooks(ctx, "list outlooks of club", `t.club = ?`, club)
	}
	return db.outlooks(ctx, "list outlooks of club", `t.club = ? AND o.at_ms > ?`, club, since.UnixMilli())
}

// CountOutlooks counts the outlooks that a command asked for, by tank.
func (db *DB) CountOutlooks(ctx context.Context, club, asked string) (map[int64]int, error) {
	count := map[int64]int{}
	err := db.read(ctx, "count outlooks", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT o.tank, count(*) FROM outlooks o JOIN tanks t ON t.id = o.tank
			WHERE t.club = ? AND t.hidden = 0 AND o.asked = ? GROUP BY o.tank`, club, asked)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			var tank int64
			var n int
			err := rows.Scan(&tank, &n)
			count[tank] = n
			return err
		})
	})
	return count, err
}

// outlooks lists the outlooks that meet a condition, of tanks that were not taken back.
func (db *DB) outlooks(ctx context.Context, doing, where string, args ...any) ([]store.Outlook, error) {
	var all []store.Outlook
	err := db.read(ctx, doing, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT o.tank, asked, own, at_ms, day, stage, readings,
				p2_5, p10, p25, p50, p75, p90, p97_5, engine, prior
			FROM outlooks o JOIN tanks t ON t.id = o.tank
			WHERE t.hidden = 0 AND `+where+` ORDER BY o.tank, at_ms, o.id`, args...)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			var o store.Outlook
			var at sql.Null[int64]
			var done [len(o.Done)]sql.Null[float64]
			to := []any{&o.Tank, &o.Asked, &o.Own, &at, &o.Day, &o.Stage, &o.Readings}
			for i := range done {
				to = append(to, &done[i])
			}
			if err := rows.Scan(append(to, &o.Engine, &o.Prior)...); err != nil {
				return err
			}
			o.At = fromMS(at)
			for i, d := range done {
				if o.Done[i] = d.V; !d.Valid {
					o.Done[i] = math.Inf(1)
				}
			}
			all = append(all, o)
			return nil
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}
