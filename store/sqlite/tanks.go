package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"time"

	"ripen/store"
)

// AddTank stores a tank with its setup entry.
func (db *DB) AddTank(ctx context.Context, t store.Tank, setup store.Entry) (store.Tank, error) {
	var added tankRow
	err := db.write(ctx, "add tank", func(tx *sql.Tx) error {
		taken, err := nameTaken(ctx, tx, t)
		if err != nil {
			return err
		}
		if taken {
			return store.ErrNameTaken
		}
		id, known, err := tankOfKey(ctx, tx, t.Club, setup.Key)
		if err != nil {
			return err
		}
		if !known {
			t.Closed = time.Time{}
			if id, err = insertTank(ctx, tx, t, setup); err != nil {
				return err
			}
		}
		added, err = findTank(ctx, tx, id)
		return err
	})
	if err != nil {
		return store.Tank{}, err
	}
	return added.Tank, nil
}

// Tanks lists the member's tanks by start.
func (db *DB) Tanks(ctx context.Context, club, member string) ([]store.Tank, error) {
	var all []store.Tank
	err := db.read(ctx, "list tanks", func(tx *sql.Tx) error {
		rows, err := tx.QueryContext(ctx, selectTank+
			` WHERE club = ? AND member = ? AND hidden = 0 ORDER BY started_ms, id`, club, member)
		if err != nil {
			return err
		}
		return each(rows, func() error {
			t, err := scanTank(rows)
			all = append(all, t.Tank)
			return err
		})
	})
	if err != nil {
		return nil, err
	}
	return all, nil
}

// EditTank stores an edit entry with the name and the start that it sets.
func (db *DB) EditTank(ctx context.Context, tank int64, name string, started time.Time, edit store.Entry) (added bool, err error) {
	edit.Tank, edit.Kind = tank, store.KindEdit
	return db.addEntry(ctx, "edit tank", edit, sets{name: orNull(name, name != ""), started: msOrNull(started)})
}

// CloseTank closes the tank with an edit entry that says so.
func (db *DB) CloseTank(ctx context.Context, tank int64, at time.Time, edit store.Entry) error {
	if at.IsZero() {
		return errors.New("close tank: no time given")
	}
	edit.Tank, edit.Kind = tank, store.KindEdit
	_, err := db.addEntry(ctx, "close tank", edit, sets{closed: msOrNull(at)})
	return err
}

// tankRow is a tank with what only the store knows of it.
type tankRow struct {
	store.Tank
	hidden bool // its setup was taken back
}

const selectTank = `SELECT id, club, member, name, started_ms, closed_ms, hidden FROM tanks`

func scanTank(row scanner) (tankRow, error) {
	var t tankRow
	var started, closed sql.Null[int64]
	err := row.Scan(&t.ID, &t.Club, &t.Member, &t.Name, &started, &closed, &t.hidden)
	t.Started, t.Closed = fromMS(started), fromMS(closed)
	return t, err
}

// findTank returns a tank, hidden or not. store.ErrNotFound.
func findTank(ctx context.Context, tx *sql.Tx, id int64) (tankRow, error) {
	t, err := scanTank(tx.QueryRowContext(ctx, selectTank+` WHERE id = ?`, id))
	if errors.Is(err, sql.ErrNoRows) {
		return tankRow{}, store.ErrNotFound
	}
	return t, err
}

// nameTaken reports whether the member has an open tank of the name of t.
func nameTaken(ctx context.Context, tx *sql.Tx, t store.Tank) (taken bool, err error) {
	err = tx.QueryRowContext(ctx, `SELECT EXISTS (SELECT 1 FROM tanks
		WHERE club = ? AND member = ? AND name_folded = ? AND closed_ms IS NULL AND hidden = 0)`,
		t.Club, t.Member, store.Fold(t.Name)).Scan(&taken)
	return taken, err
}

// insertTank stores a tank and its setup entry. What closes it is an entry that is yet to
// come.
func insertTank(ctx context.Context, tx *sql.Tx, t store.Tank, setup store.Entry) (id int64, err error) {
	start := t.Started.UnixMilli()
	err = tx.QueryRowContext(ctx, `INSERT INTO tanks (club, member, name, name_folded, started_ms, closed_ms)
		VALUES (?, ?, ?, ?, ?, ?) RETURNING id`, t.Club, t.Member, t.Name, store.Fold(t.Name), start, msOrNull(t.Closed)).Scan(&t.ID)
	if err != nil {
		return 0, err
	}
	setup.Kind = store.KindSetup
	return t.ID, insertEntry(ctx, tx, t, setup, sets{name: orNull(t.Name, true), started: orNull(start, true)})
}

// settle brings a tank in line with what its standing entries set: of each
// thing, the last one added counts. Taking an entry back thus restores
// whatever it had changed. store.ErrNameTaken.
func settle(ctx context.Context, tx *sql.Tx, id int64) error {
	var name string
	err := tx.QueryRowContext(ctx, `UPDATE tanks SET
			name       = coalesce((SELECT sets_name FROM entries
				WHERE tank = tanks.id AND undone_ms IS NULL AND sets_name IS NOT NULL ORDER BY id DESC LIMIT 1), name),
			started_ms = coalesce((SELECT sets_started_ms FROM entries
				WHERE tank = tanks.id AND undone_ms IS NULL AND sets_started_ms IS NOT NULL ORDER BY id DESC LIMIT 1), started_ms)
		WHERE id = ? RETURNING name`, id).Scan(&name)
	if err != nil {
		return err
	}
	_, err = tx.ExecContext(ctx, `UPDATE tanks SET
			name_folded = ?,
			closed_ms   = (SELECT sets_closed_ms FROM entries
				WHERE tank = tanks.id AND undone_ms IS NULL AND sets_closed_ms IS NOT NULL ORDER BY id DESC LIMIT 1),
			hidden      = NOT EXISTS (SELECT 1 FROM entries
				WHERE tank = tanks.id AND undone_ms IS NULL AND kind = ? AND sets_name IS NOT NULL)
		WHERE id = ?`, store.Fold(name), store.KindSetup, id)
	if errors.Is(translate(err), errDuplicate) {
		return store.ErrNameTaken
	}
	return err
}
