package sqlite

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	sqlite3 "modernc.org/sqlite/lib"

	"ripen/store"
)

func TestDiskFull(t *testing.T) {
	db := openNew(t)
	fill(t, db)
	before := dump(t, db)
	db.pool.SetMaxIdleConns(0) // closes those that are open
	db.pool.SetMaxOpenConns(1) // the limit below is one connection's
	db.pool.SetMaxIdleConns(1)
	limit := func(pages string) {
		if _, err := db.pool.ExecContext(t.Context(), "PRAGMA max_page_count = "+pages); err != nil {
			t.Fatal(err)
		}
	}
	e := store.Entry{Tank: 1, Key: "large", At: at(3), Values: []store.Value{{Name: "detail", Typed: strings.Repeat("x", 1<<20)}}}

	limit("1") // SQLite takes it as "what there is"
	added, err := db.AddEntry(t.Context(), e)
	if added || !hasCode(err, sqlite3.SQLITE_FULL) || !strings.Contains(err.Error(), "no space left") {
		t.Errorf("added %v, %v; want that there is no space", added, err)
	}
	if after := dump(t, db); after != before {
		t.Errorf("left\n%s\nwant\n%s", after, before)
	}
	limit("1000000")
	if added, err := db.AddEntry(t.Context(), e); err != nil || !added {
		t.Errorf("with space again: added %v, %v", added, err)
	}
}

func TestCloseInTheMiddle(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	fill(t, db)
	var wg sync.WaitGroup
	stored := make([]int, 4)
	begun := make(chan struct{}, len(stored))
	for i := range stored {
		wg.Go(func() {
			for n := 0; ; n++ {
				added, err := db.AddEntry(context.Background(), store.Entry{Tank: 1, At: at(i), Kind: store.KindLog})
				if n == 0 {
					begun <- struct{}{}
				}
				if err != nil {
					return // closed
				}
				if added {
					stored[i]++
				}
			}
		})
	}
	for range stored {
		<-begun
	}
	if err := db.Close(); err != nil {
		t.Error(err)
	}
	wg.Wait()
	again := openFile(t, path)
	entries, err := again.Entries(t.Context(), 1)
	if err != nil {
		t.Fatal(err)
	}
	want := 0
	for _, n := range stored {
		want += n
	}
	got := 0
	for _, e := range entries {
		if e.Key == "" {
			got++
		}
	}
	if got != want || got == 0 {
		t.Errorf("%d entries are there, %d were reported as stored", got, want)
	}
}

func TestDamagedInside(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	fill(t, db)
	db.Close()
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	refused, failed := 0, 0
	for n := 1; n < len(whole)/page; n++ {
		broken := bytes.Clone(whole)
		for i := range page {
			broken[n*page+i] ^= byte(i*7 + n)
		}
		write(t, path, broken)
		if db, err := Open(path); err == nil {
			db.Close()
		} else if errors.Is(err, store.ErrNotDatabase) {
			refused++
		} else {
			t.Errorf("page %d: error is %v, want ErrNotDatabase", n, err)
		}
		if err := useDamaged(t, path); err != nil {
			failed++
		}
	}
	if refused == 0 || failed == 0 {
		t.Errorf("of %d damaged pages Open noticed %d, use %d", len(whole)/page-1, refused, failed)
	}
}

// useDamaged uses a database that Open would refuse, as if the damage had come
// later.
func useDamaged(t *testing.T, path string) error {
	t.Helper()
	pool, err := sql.Open(driver, dsn(path, "OFF"))
	if err != nil {
		t.Fatal(err)
	}
	defer pool.Close()
	db, ctx := &DB{pool: pool, turn: make(chan struct{}, 1)}, t.Context()
	_, err1 := db.Tanks(ctx, "reef", "wren")
	_, err2 := db.Entries(ctx, 1)
	_, err3 := db.AddEntry(ctx, store.Entry{Tank: 1, Key: "k", Values: []store.Value{{}}})
	_, _, err4 := db.Undo(ctx, "reef", "wren", "", "k", at(9))
	return errors.Join(err1, err2, err3, err4)
}

func TestPanicRollsBackAndFreesTheTurn(t *testing.T) {
	db := openNew(t)
	fill(t, db)
	before := dump(t, db)
	func() {
		defer func() { recover() }()
		db.write(t.Context(), "test", func(tx *sql.Tx) error {
			if _, err := tx.ExecContext(t.Context(), "DELETE FROM entry_values"); err != nil {
				t.Error(err)
			}
			panic("on purpose")
		})
	}()
	if after := dump(t, db); after != before {
		t.Errorf("left\n%s\nwant\n%s", after, before)
	}
	if err := db.SetUnits(t.Context(), "reef", "wren", store.Metric); err != nil {
		t.Error(err)
	}
}

func TestWaitingForTheLockEndsWithTheContext(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db, other := openFile(t, path), openFile(t, path)
	lock, err := other.pool.BeginTx(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer lock.Rollback()
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error)
	go func() { done <- db.SetUnits(ctx, "reef", "wren", store.Metric) }() // waits for the other's lock
	go func() { done <- db.SetUnits(ctx, "reef", "tern", store.Metric) }() // waits for its turn
	if _, err := db.Tanks(t.Context(), "reef", "wren"); err != nil {
		t.Errorf("a reader had to wait: %v", err)
	}
	cancel()
	for range 2 {
		if err := <-done; !errors.Is(err, context.Canceled) {
			t.Errorf("error is %v, want that it was canceled", err)
		}
	}
}

func TestWaitingForTheTurnEndsWithTheContext(t *testing.T) {
	db := openNew(t)
	db.turn <- struct{}{}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if err := db.SetUnits(ctx, "reef", "wren", store.Metric); !errors.Is(err, context.Canceled) {
		t.Errorf("error is %v, want that it was canceled", err)
	}
}

// TestSchemaRefuses checks the guards below the code, which looks before it
// writes and so never meets most of them.
func TestSchemaRefuses(t *testing.T) {
	const entry = "INSERT INTO entries (club, member, tank, kind, at_ms, recorded_ms, key, undone_key) VALUES "
	const tank = "INSERT INTO tanks (club, member, name, name_folded, started_ms) VALUES "
	tests := []struct{ name, first, then string }{
		{"EntryOfNoTank", "", entry + "('reef', 'wren', 99, 'log', 0, 0, NULL, NULL)"},
		{"EntryOfAnotherClub", "", entry + "('pond', 'wren', 1, 'log', 0, 0, NULL, NULL)"},
		{"KeyTwiceInAClub", entry + "('reef', 'wren', 1, 'log', 0, 0, 'k', NULL)", entry + "('reef', 'wren', 1, 'log', 0, 0, 'k', NULL)"},
		{"UndoKeyTwiceOfAMember", entry + "('reef', 'wren', 1, 'log', 0, 0, NULL, 'u')", entry + "('reef', 'wren', 1, 'log', 0, 0, NULL, 'u')"},
		{"OpenNameTwice", tank + "('reef', 'wren', 'Nano', 'nano', 0)", tank + "('reef', 'wren', 'NANO', 'nano', 0)"},
		{"TextForATime", "", tank + "('reef', 'wren', 'Cube', 'cube', 'noon')"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			db := openNew(t)
			fill(t, db)
			if _, err := db.pool.ExecContext(t.Context(), tt.first); err != nil {
				t.Fatal(err)
			}
			if _, err := db.pool.ExecContext(t.Context(), tt.then); !hasCode(err, sqlite3.SQLITE_CONSTRAINT) {
				t.Errorf("error is %v, want a broken constraint", err)
			}
		})
	}
}
