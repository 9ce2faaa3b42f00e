package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// Erase removes all that is kept of the member in the club, and sweeps the files. An
// error of the sweep leaves nothing of the member to be asked for; to erase again sweeps
// again.
func (db *DB) Erase(ctx context.Context, club, id string) error {
	err := db.write(ctx, "erase member", func(tx *sql.Tx) error {
		for _, q := range []string{
			`DELETE FROM outlooks WHERE tank IN (SELECT id FROM tanks WHERE club = ? AND member = ?)`,
			`DELETE FROM verdicts WHERE tank IN (SELECT id FROM tanks WHERE club = ? AND member = ?)`,
			`DELETE FROM entry_values WHERE entry IN (SELECT id FROM entries WHERE club = ? AND member = ?)`,
			`DELETE FROM entries WHERE club = ? AND member = ?`,
			`DELETE FROM tanks WHERE club = ? AND member = ?`,
			`DELETE FROM members WHERE club = ? AND id = ?`,
			`DELETE FROM notes WHERE club = ? AND substr(name, instr(name, '/') + 1) = ? AND name NOT LIKE 'tie/%'`,
			`DELETE FROM notes WHERE club = ? AND substr(text, instr(text, ' ') + 1) = ? AND name LIKE 'tie/%'`,
		} {
			if _, err := tx.ExecContext(ctx, q, club, id); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	return db.sweep(ctx)
}

// errHeld says that a reader keeps the write-ahead log from being emptied.
var errHeld = errors.New("the database is in use; what was erased still stands in its files until this is done again")

// sweep writes the database anew and empties its write-ahead log, so that the files hold
// no bytes of what was removed. Settings such as secure_delete would not do: SQLite leaves
// copies of rows behind where a full page was split. It takes some seconds for 100 MB.
func (db *DB) sweep(ctx context.Context) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("sweep database: %w", translate(err))
		}
	}()
	if err := db.take(ctx); err != nil {
		return err
	}
	defer db.give()
	c, err := db.pool.Conn(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	for _, q := range []string{"PRAGMA temp_store = MEMORY", "VACUUM"} { // no copy in a folder for temporary files
		if _, err := c.ExecContext(ctx, q); err != nil {
			return err
		}
	}
	var held bool
	var frames, moved int
	if err := c.QueryRowContext(ctx, "PRAGMA wal_checkpoint(TRUNCATE)").Scan(&held, &frames, &moved); err != nil {
		return err
	}
	if held {
		return errHeld
	}
	return nil
}
