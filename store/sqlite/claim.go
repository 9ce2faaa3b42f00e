package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	sqlite3 "modernc.org/sqlite/lib"

	"ripen/store"
)

// applicationID marks a database of this program, "ripn" in ASCII. It stands
// in the header of the file, of headerSize bytes, see
// https://www.sqlite.org/fileformat.html#the_database_header.
const (
	applicationID    = 0x7269706e
	setApplicationID = "PRAGMA application_id = 1919512686"
	headerSize       = 100
)

// claim makes sure that the file is a database of this program. A file that is
// missing or an empty database becomes one; anything else stays as it is.
//
// The mark is written before the database is put into WAL mode, so that it is
// in the file itself from the first commit on.
func claim(ctx context.Context, path string) error {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist): // SQLite makes it
	case err != nil:
		return fmt.Errorf("%w: %w", store.ErrReadOnly, err)
	case info.IsDir():
		return fmt.Errorf("%w: it is a folder; name a file in it", store.ErrNotDatabase)
	case !info.Mode().IsRegular():
		return fmt.Errorf("%w: it is not an ordinary file", store.ErrNotDatabase)
	case info.Size() > 0 && info.Size() < headerSize: // SQLite takes a file of one byte for an empty one
		return fmt.Errorf("%w: it is too short", store.ErrNotDatabase)
	}
	pool, err := sql.Open(driver, plainDSN(path))
	if err != nil {
		return err
	}
	pool.SetMaxOpenConns(1)
	err = mark(ctx, pool)
	if hasCode(err, sqlite3.SQLITE_CANTOPEN) {
		err = explain(path, err)
	}
	if hasCode(err, sqlite3.SQLITE_CORRUPT) {
		err = damaged(err)
	}
	return errors.Join(err, pool.Close())
}

// mark sets the application ID of an empty database.
func mark(ctx context.Context, pool *sql.DB) error {
	if ours, err := identify(ctx, pool); err != nil || ours {
		return err
	}
	tx, err := pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if ours, err := identify(ctx, tx); err != nil || ours { // another process was first
		return err
	}
	if _, err := tx.ExecContext(ctx, setApplicationID); err != nil {
		return err
	}
	return tx.Commit()
}

// identify reports whether the database is of this program (true) or empty
// (false). ErrNotDatabase if it is neither.
func identify(ctx context.Context, q queryer) (ours bool, err error) {
	var id, version, objects int64
	err = q.QueryRowContext(ctx, `SELECT a.application_id, u.user_version, (SELECT count(*) FROM sqlite_schema)
		FROM pragma_application_id a, pragma_user_version u`).Scan(&id, &version, &objects)
	switch {
	case err != nil:
		return false, err
	case id == applicationID:
		return true, nil
	case id == 0 && version == 0 && objects == 0:
		return false, nil
	}
	return false, fmt.Errorf("%w: it is a database of another program", store.ErrNotDatabase)
}

// explain finds out why SQLite cannot open a file.
func explain(path string, cause error) error {
	folder := filepath.Dir(path)
	if _, err := os.Stat(path); err != nil {
		if _, err := os.Stat(folder); err != nil {
			return fmt.Errorf("%w: there is no folder %q; make it first", store.ErrReadOnly, folder)
		}
		return fmt.Errorf("%w: no file can be made in the folder %q", store.ErrReadOnly, folder)
	}
	// To open and close a database beside SQLite drops the locks that this
	// process has on it; here SQLite has none, since it got nowhere.
	f, err := os.Open(path)
	if err != nil {
		return fmt.Errorf("%w: it cannot be read: %w", store.ErrNotDatabase, err)
	}
	f.Close()
	return cause
}

// checkWhole reads the file through, some 100 MB in a second, so that damage
// is found before an entry is added to it.
func checkWhole(ctx context.Context, pool *sql.DB) error {
	var found string
	err := pool.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&found)
	switch {
	case hasCode(err, sqlite3.SQLITE_CORRUPT):
		return damaged(err)
	case err == nil && found != "ok":
		return damaged(errors.New(found))
	}
	return err
}

func damaged(cause error) error {
	return fmt.Errorf("%w any more: it is damaged, restore a copy of it: %w", store.ErrNotDatabase, cause)
}

// tryWrite makes a change and takes it back, to find out now and not at the
// first entry whether the database can be written.
func tryWrite(ctx context.Context, pool *sql.DB) error {
	tx, err := pool.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	_, err = tx.ExecContext(ctx, setApplicationID)
	return err
}
