package sqlite

import (
	"context"
	"database/sql"
	"fmt"
	"time"
)

// queryer is what a pool, a connection and a transaction have in common.
type queryer interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
}

// write runs fn in a transaction that has the database's write lock from its
// begin on. Within the program writers queue here, where they wait their turn
// and no longer than their context; between processes the busy timeout serves.
func (db *DB) write(ctx context.Context, doing string, fn func(*sql.Tx) error) error {
	if err := db.take(ctx); err != nil {
		return fmt.Errorf("%s: %w", doing, err)
	}
	defer db.give()
	return db.run(ctx, doing, &sql.TxOptions{}, fn)
}

// take waits for the turn to write; give ends it.
func (db *DB) take(ctx context.Context) error {
	select {
	case db.turn <- struct{}{}:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

func (db *DB) give() { <-db.turn }

// read runs fn in a transaction that sees one state of the database.
func (db *DB) read(ctx context.Context, doing string, fn func(*sql.Tx) error) error {
	return db.run(ctx, doing, &sql.TxOptions{ReadOnly: true}, fn)
}

// run runs fn in a transaction, which is rolled back if fn fails or panics.
func (db *DB) run(ctx context.Context, doing string, opts *sql.TxOptions, fn func(*sql.Tx) error) (err error) {
	defer func() {
		if err != nil {
			err = fmt.Errorf("%s: %w", doing, translate(err))
		}
	}()
	tx, err := db.pool.BeginTx(ctx, opts)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	if err := fn(tx); err != nil {
		return err
	}
	return tx.Commit()
}

// each runs fn on every row of a query and closes the rows.
func each(rows *sql.Rows, fn func() error) error {
	defer rows.Close()
	for rows.Next() {
		if err := fn(); err != nil {
			return err
		}
	}
	return rows.Err()
}

// scanner is what a row and the current one of several have in common.
type scanner interface{ Scan(dest ...any) error }

// fromMS returns the time of a column in milliseconds, zero for NULL.
func fromMS(ms sql.Null[int64]) time.Time {
	if !ms.Valid {
		return time.Time{}
	}
	return time.UnixMilli(ms.V).UTC()
}

// msOrNull returns a time in milliseconds, NULL for zero.
func msOrNull(t time.Time) sql.Null[int64] { return orNull(t.UnixMilli(), !t.IsZero()) }

// orNull returns v if it is valid, else NULL.
func orNull[T any](v T, valid bool) sql.Null[T] {
	if !valid {
		return sql.Null[T]{}
	}
	return sql.Null[T]{V: v, Valid: true}
}
