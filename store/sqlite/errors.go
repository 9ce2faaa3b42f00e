package sqlite

import (
	"errors"
	"fmt"
	"time"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"ripen/store"
)

// ErrNewer says that a newer version of this program wrote the database.
var ErrNewer = errors.New("database of a newer version of this program")

// errDuplicate says that a unique index refused a row.
var errDuplicate = errors.New("duplicate")

// translate turns an error of the driver into one of this project, by its
// code, see https://www.sqlite.org/rescode.html. Others stay as they are.
func translate(err error) error {
	var e *sqlite.Error
	if !errors.As(err, &e) || errors.Is(err, store.ErrNotDatabase) || errors.Is(err, store.ErrReadOnly) {
		return err
	}
	if e.Code() == sqlite3.SQLITE_CONSTRAINT_UNIQUE {
		return fmt.Errorf("%w: %w", errDuplicate, err)
	}
	switch primary(e) {
	case sqlite3.SQLITE_NOTADB:
		return fmt.Errorf("%w: %w", store.ErrNotDatabase, err)
	case sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM:
		return fmt.Errorf("%w, check the rights on the file and its folder: %w", store.ErrReadOnly, err)
	case sqlite3.SQLITE_BUSY:
		return fmt.Errorf("another program holds the database: %w", err)
	case sqlite3.SQLITE_FULL:
		return fmt.Errorf("no space left for the database: %w", err)
	case sqlite3.SQLITE_CORRUPT:
		return fmt.Errorf("the database is damaged, restore a copy of it: %w", err)
	}
	return err
}

// hasCode reports whether err is of the driver and has the primary code.
func hasCode(err error, code int) bool {
	var e *sqlite.Error
	return errors.As(err, &e) && primary(e) == code
}

// primary returns the code without the detail that its upper bits carry.
func primary(e *sqlite.Error) int { return e.Code() & 0xff }

// retryBusy runs fn until it does not fail for a lock, at most a second.
func retryBusy(fn func() error) error {
	const tries, pause = 50, 20 * time.Millisecond
	err := fn()
	for i := 1; i < tries && hasCode(err, sqlite3.SQLITE_BUSY); i++ {
		time.Sleep(pause)
		err = fn()
	}
	return err
}
