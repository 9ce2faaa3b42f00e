package sqlite

import (
	"context"
	"database/sql"
	"errors"

	"ripen/store"
)

// Member returns the member, with store.Metric when nothing is known yet.
func (db *DB) Member(ctx context.Context, club, id string) (store.Member, error) {
	m := store.Member{Club: club, ID: id, Units: store.Metric}
	err := db.read(ctx, "member", func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx,
			`SELECT volume_unit, temp_unit, kh_unit, scale FROM members WHERE club = ? AND id = ?`, club, id).
			Scan(&m.Units.Volume, &m.Units.Temp, &m.Units.KH, &m.Units.Scale)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	if err != nil {
		return store.Member{}, err
	}
	return m, nil
}

// SetUnits stores the member's own units.
func (db *DB) SetUnits(ctx context.Context, club, id string, u store.Units) error {
	return db.write(ctx, "set units", func(tx *sql.Tx) error {
		_, err := setUnits(ctx, tx, club, id, u, `UPDATE SET volume_unit = excluded.volume_unit, temp_unit = excluded.temp_unit,
			kh_unit = excluded.kh_unit, scale = excluded.scale`)
		return err
	})
}

// setUnits stores units; known is what to do where the member has some.
func setUnits(ctx context.Context, tx *sql.Tx, club, id string, u store.Units, known string) (set bool, err error) {
	r, err := tx.ExecContext(ctx, `INSERT INTO members (club, id, volume_unit, temp_unit, kh_unit, scale)
		VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT DO `+known, club, id, u.Volume, u.Temp, u.KH, u.Scale)
	if err != nil {
		return false, err
	}
	n, err := r.RowsAffected()
	return n > 0, err
}
