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

// ofMember are the notes of a club and, given twice, of a member.
const ofMember = ` FROM notes WHERE club = ? AND (name NOT LIKE 'tie/%' AND substr(name, instr(name, '/') + 1) = ?
	OR name LIKE 'tie/%' AND substr(text, instr(text, ' ') + 1) = ?)`

// MemberNotes returns a member's notes by name.
func (db *DB) MemberNotes(ctx context.Context, club, member string) (map[string]string, error) {
	all := map[string]string{}
	err := db.read(ctx, "notes of a member", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, `SELECT name, text`+ofMember, club, member, member)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			var name, text string
			err := rows.Scan(&name, &text)
			all[name] = text
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}
