package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
)

// errHeld says that a reader keeps the write-ahead log from being emptied.
var errHeld = errors.New("the database is in use; what was erased still stands in its files until this is done again")

// Sweep writes the database anew and empties its write-ahead log, so that the files hold
// no bytes of what was erased. Settings such as secure_delete would not do: SQLite leaves
// copies of rows behind where a full page was split. It takes some seconds for 100 MB.
func (db *DB) Sweep(ctx context.Context) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("sweep database: %w", translate(err))
		}
	}()
	c, err := db.pool.Conn(ctx)
	if err != nil {
		return err
	}
	defer c.Close()
	n, err := unswept(ctx, c)
	if err != nil || n == 0 {
		return err
	}
	if err := db.rewrite(ctx, c); err != nil {
		return err
	}
	return db.write(ctx, "note that it is swept", func(tx *sql.Tx) error {
		now, err := unswept(ctx, tx)
		if err != nil || now != n {
			return err // something was erased meanwhile
		}
		return setUnswept(ctx, tx, 0)
	})
}

// rewrite does so on a connection, when it is its turn to write.
func (db *DB) rewrite(ctx context.Context, c *sql.Conn) error {
	if err := db.take(ctx); err != nil {
		return err
	}
	defer db.give()
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

// unswept is how often something was erased since the database was swept, which it keeps
// in the field of its header that SQLite leaves to programs.
func unswept(ctx context.Context, q queryer) (n int, err error) {
	err = q.QueryRowContext(ctx, "PRAGMA user_version").Scan(&n)
	return n, err
}

func setUnswept(ctx context.Context, tx *sql.Tx, n int) error {
	_, err := tx.ExecContext(ctx, fmt.Sprintf("PRAGMA user_version = %d", n))
	return err
}
