package sqlite

import (
	"context"
	"database/sql"
)

// Erase removes all that is kept of the member in the club, and marks the database as to
// be swept.
func (db *DB) Erase(ctx context.Context, club, id string) error {
	return db.write(ctx, "erase member", func(tx *sql.Tx) error {
		for _, q := range []string{
			`DELETE FROM outlooks WHERE tank IN (SELECT id FROM tanks WHERE club = ? AND member = ?)`,
			`DELETE FROM verdicts WHERE tank IN (SELECT id FROM tanks WHERE club = ? AND member = ?)`,
			`DELETE FROM entry_values WHERE entry IN (SELECT id FROM entries WHERE club = ? AND member = ?)`,
			`DELETE FROM entries WHERE club = ? AND member = ?`,
			`DELETE FROM tanks WHERE club = ? AND member = ?`,
			`DELETE FROM members WHERE club = ? AND id = ?`,
		} {
			if _, err := tx.ExecContext(ctx, q, club, id); err != nil {
				return err
			}
		}
		if _, err := tx.ExecContext(ctx, `DELETE`+ofMember, club, id, id); err != nil {
			return err
		}
		n, err := unswept(ctx, tx)
		if err != nil {
			return err
		}
		return setUnswept(ctx, tx, n+1)
	})
}
