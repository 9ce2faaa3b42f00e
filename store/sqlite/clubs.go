package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"ripen/store"
)

// AllClubs lists the clubs that have tanks.
func (db *DB) AllClubs(ctx context.Context) ([]string, error) {
	return db.names(ctx, "list clubs", `SELECT DISTINCT club FROM tanks WHERE hidden = 0 ORDER BY club`)
}

// names returns what a query finds, a text a row.
func (db *DB) names(ctx context.Context, doing, query string) (all []string, err error) {
	err = db.read(ctx, doing, func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, query)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			all = append(all, "")
			return rows.Scan(&all[len(all)-1])
		})
	})
	return all, err
}

// ClubTanks lists the tanks of all members of the club.
func (db *DB) ClubTanks(ctx context.Context, club string) ([]store.Tank, error) {
	var all []store.Tank
	err := db.read(ctx, "list tanks of club", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, selectTank+
			` WHERE club = ? AND hidden = 0 ORDER BY member, started_ms, id`, club)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			t, err := scanTank(rows)
			all = append(all, t.Tank)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// Settings returns the club's settings, the zero value when none were made.
func (db *DB) Settings(ctx context.Context, club string) (s store.Settings, err error) {
	err = db.read(ctx, "settings", func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT channel, day, time, zone, digest, share, plain FROM clubs WHERE club = ?`, club).
			Scan(&s.Channel, &s.Day, &s.Time, &s.Zone, &s.Digest, &s.Share, &s.Plain)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	return s, err
}

// SetSettings puts the settings in the place of those before.
func (db *DB) SetSettings(ctx context.Context, club string, s store.Settings) error {
	return db.write(ctx, "set settings", func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, `INSERT INTO clubs (club, channel, day, time, zone, digest, share, plain)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?)
			ON CONFLICT DO UPDATE SET channel = excluded.channel, day = excluded.day, time = excluded.time,
				zone = excluded.zone, digest = excluded.digest, share = excluded.share, plain = excluded.plain`,
			club, s.Channel, s.Day, s.Time, s.Zone, s.Digest, s.Share, s.Plain)
		return err
	})
}
