package sqlite

import (
	"context"
	"database/sql"
	"errors"
)

// Note returns the text of that name in the club, "" when there is none.
func (db *DB) Note(ctx context.Context, club, name string) (text string, err error) {
	err = db.read(ctx, "note", func(tx *sql.Tx) error {
		err := tx.QueryRowContext(ctx, `SELECT text FROM notes WHERE club = ? AND name = ?`, club, name).Scan(&text)
		if errors.Is(err, sql.ErrNoRows) {
			return nil
		}
		return err
	})
	return text, err
}

// SetNote puts the text in the place of the one before; "" removes it.
func (db *DB) SetNote(ctx context.Context, club, name, text string) error {
	return db.write(ctx, "set note", func(tx *sql.Tx) error {
		if text == "" {
			_, err := tx.ExecContext(ctx, `DELETE FROM notes WHERE club = ? AND name = ?`, club, name)
			return err
		}
		_, err := tx.ExecContext(ctx, `INSERT INTO notes (club, name, text) VALUES (?, ?, ?)
			ON CONFLICT DO UPDATE SET text = excluded.text`, club, name, text)
		return err
	})
}
