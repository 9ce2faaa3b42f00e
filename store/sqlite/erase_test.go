package sqlite

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"ripen/store"
)

// TestEraseLeavesNoBytes reads the files of an open database: swept after an erase they hold
// nothing of the member, written over and taken back included, and all of the others.
// The rows of several members in turns make full pages split, which leaves copies.
func TestEraseLeavesNoBytes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	ctx := t.Context()
	rng := rand.New(rand.NewPCG(1, 4))
	start := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	members := []string{"gone-member", "kept-member", "kept-too"}
	tanks := map[string]store.Tank{}
	for _, m := range members {
		tank, err := db.AddTank(ctx, store.Tank{Club: "reef", Member: m, Name: m + "'s tank", Started: start},
			store.Entry{Kind: store.KindSetup, At: start, Recorded: start, Key: m})
		if err != nil {
			t.Fatal(err)
		}
		tanks[m] = tank
	}
	kept := 0
	for i := range 400 {
		m := members[rng.IntN(len(members))]
		words := strings.Repeat(m+" ", 1+rng.IntN(16))
		if rng.IntN(5) == 0 {
			words = strings.Repeat(m+" ", 1+rng.IntN(400))
		}
		at := start.Add(time.Duration(rng.IntN(1000)) * time.Hour)
		if _, err := db.AddEntry(ctx, store.Entry{Tank: tanks[m].ID, Kind: store.KindLog, At: at, Recorded: at, Key: fmt.Sprintf("%s %d", m, i),
			Values: []store.Value{{Name: "detail", Typed: words}}}); err != nil {
			t.Fatal(err)
		}
		if m == "kept-member" {
			kept++
		}
		if err := db.SetNote(ctx, "reef", fmt.Sprintf("form%d/%s", rng.IntN(20), m), strings.Repeat(m+" ", rng.IntN(300))); err != nil {
			t.Fatal(err)
		}
	}
	if _, _, err := db.Undo(ctx, "reef", "gone-member", "", "gone-member takes back", start.Add(2000*time.Hour)); err != nil {
		t.Fatal(err)
	}
	if held(t, path, "gone-member") == 0 {
		t.Fatal("the files hold nothing of the member before the erase, so this test shows nothing")
	}
	if err := db.Erase(ctx, "reef", "gone-member"); err != nil {
		t.Fatal(err)
	}
	if err := db.Sweep(ctx); err != nil {
		t.Fatal(err)
	}
	if n := held(t, path, "gone-member"); n > 0 {
		t.Errorf("the files of the open database hold %d traces of the erased member", n)
	}
	if n := held(t, path, "kept-member"); n < kept {
		t.Errorf("the files name another member %d times, in %d entries", n, kept)
	}
	if entries, err := db.Entries(ctx, tanks["kept-member"].ID); err != nil || len(entries) != kept+1 {
		t.Errorf("%d entries of another member, want %d: %v", len(entries), kept+1, err)
	}
}

// TestEraseBesideReader: a reader does not keep anything from being erased; what it holds
// in the write-ahead log is told, and swept after it.
func TestEraseBesideReader(t *testing.T) {
	t.Parallel() // it waits the busy timeout
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	ctx := t.Context()
	if err := db.SetNote(ctx, "reef", "form/wren", "gone words"); err != nil {
		t.Fatal(err)
	}
	c, err := db.pool.Conn(ctx)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	if _, err := c.ExecContext(ctx, "BEGIN"); err != nil {
		t.Fatal(err)
	}
	var n int
	if err := c.QueryRowContext(ctx, "SELECT count(*) FROM notes").Scan(&n); err != nil || n != 1 {
		t.Fatal(n, err)
	}
	if err := db.Sweep(ctx); err != nil {
		t.Errorf("where nothing was erased: %v", err)
	}
	if err := db.Erase(ctx, "reef", "wren"); err != nil {
		t.Fatal(err)
	}
	if err := db.Sweep(ctx); !errors.Is(err, errHeld) {
		t.Errorf("beside a reader: %v, want %v", err, errHeld)
	}
	if note, err := db.Note(ctx, "reef", "form/wren"); err != nil || note != "" {
		t.Errorf("the note is still told: %q, %v", note, err)
	}
	if _, err := c.ExecContext(ctx, "COMMIT"); err != nil {
		t.Fatal(err)
	}
	if err := db.Sweep(ctx); err != nil {
		t.Fatal(err)
	}
	if n := held(t, path, "gone words"); n > 0 {
		t.Errorf("%d traces after the reader ended", n)
	}
}

// TestSweepAfterRestart: what was not swept before the program ended is swept after, once.
func TestSweepAfterRestart(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	db := openFile(t, path)
	ctx := t.Context()
	if err := errors.Join(db.SetNote(ctx, "reef", "form/wren", "gone words"), db.Erase(ctx, "reef", "wren"), db.Erase(ctx, "reef", "tern"), db.Close()); err != nil {
		t.Fatal(err)
	}
	db = openFile(t, path)
	if held(t, path, "gone words") == 0 {
		t.Fatal("the files hold nothing before the sweep, so this test shows nothing")
	}
	for _, want := range []int{2, 0} {
		if n, err := unswept(ctx, db.pool); err != nil || n != want {
			t.Errorf("%d to be swept, want %d: %v", n, want, err)
		}
		if err := db.Sweep(ctx); err != nil {
			t.Fatal(err)
		}
	}
	if n := held(t, path, "gone words"); n > 0 {
		t.Errorf("%d traces after the sweep", n)
	}
}

// held counts a text in the database file and its write-ahead log.
func held(t *testing.T, path, text string) (n int) {
	t.Helper()
	for _, f := range []string{path, path + "-wal"} {
		raw, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		n += bytes.Count(raw, []byte(text))
	}
	return n
}
