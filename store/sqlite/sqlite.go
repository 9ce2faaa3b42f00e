// Package sqlite keeps what package store describes in one SQLite file. It is
// the only importer of the driver.
//
// Each exported method is one transaction, and a committed one survives a crash
// of the program or of the machine. Several goroutines and several processes
// may use one file at once.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ripen/store"
)

// maxConns bounds the connections of a pool: one that writes, the rest read.
const maxConns = 8

// DB is an open database file.
type DB struct {
	pool *sql.DB
	turn chan struct{} // holds the one write transaction of this DB
	temp string        // folder to remove on Close, "" if none
}

var _ store.Store = (*DB)(nil)

// Open opens the database file at path and brings its schema up to date. A
// file that is missing or empty becomes a new database; its folder must exist.
//
// Errors: store.ErrNotDatabase if something else is there or it cannot be
// read, store.ErrReadOnly if it or its folder cannot be written, ErrNewer.
func Open(path string) (*DB, error) {
	return open(path, "FULL")
}

// OpenTemp opens a new database in a new folder under dir, or under the
// system's folder for temporary files if dir is "". Close removes it, so its
// writes do not wait for the disk.
func OpenTemp(dir string) (*DB, error) {
	temp, err := os.MkdirTemp(dir, "ripen-")
	if err != nil {
		return nil, fmt.Errorf("open temporary database: %w: %w", store.ErrReadOnly, err)
	}
	db, err := open(filepath.Join(temp, "temp.db"), "OFF")
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(temp))
	}
	db.temp = temp
	return db, nil
}

// Close closes the database. Methods called later return an error; closing
// again does nothing.
func (db *DB) Close() error {
	err := db.pool.Close()
	if db.temp != "" {
		err = errors.Join(err, os.RemoveAll(db.temp))
	}
	if err != nil {
		return fmt.Errorf("close database: %w", translate(err))
	}
	return nil
}

// open opens a file with a level of PRAGMA synchronous.
func open(path, sync string) (_ *DB, err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("open database %q: %w", path, translate(err))
		}
	}()
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	ctx := context.Background()
	if err := claim(ctx, full); err != nil {
		return nil, err
	}
	pool, err := sql.Open(driver, dsn(full, sync))
	if err != nil {
		return nil, err
	}
	pool.SetMaxOpenConns(maxConns)
	pool.SetMaxIdleConns(maxConns)
	if err := prepare(ctx, pool); err != nil {
		return nil, errors.Join(err, pool.Close())
	}
	return &DB{pool: pool, turn: make(chan struct{}, 1)}, nil
}

// prepare checks that the database works as this package relies on, and
// migrates it.
func prepare(ctx context.Context, pool *sql.DB) error {
	// Of two processes that put a new file into WAL mode at once, SQLite
	// refuses one without waiting.
	if err := retryBusy(func() error { return pool.PingContext(ctx) }); err != nil {
		return err
	}
	var mode string
	if err := pool.QueryRowContext(ctx, "PRAGMA journal_mode").Scan(&mode); err != nil {
		return err
	}
	if mode != "wal" {
		return fmt.Errorf("no write-ahead log on this file system (journal mode is %s): keep the file on a local disk", mode)
	}
	if err := checkWhole(ctx, pool); err != nil {
		return err
	}
	if err := tryWrite(ctx, pool); err != nil {
		return err
	}
	return migrate(ctx, pool, migrations())
}
