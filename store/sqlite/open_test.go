package sqlite

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"ripen/store"
)

func TestOpenPragmasHoldOnEveryConnection(t *testing.T) {
	db := openNew(t)
	ctx := t.Context()
	for range maxConns { // all at once, so that each is another one
		c, err := db.pool.Conn(ctx)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		for pragma, want := range map[string]string{
			"journal_mode": "wal", "foreign_keys": "1", "busy_timeout": "5000", "synchronous": "2",
		} {
			var got string
			if err := c.QueryRowContext(ctx, "PRAGMA "+pragma).Scan(&got); err != nil || got != want {
				t.Errorf("%s is %q (%v), want %q", pragma, got, err, want)
			}
		}
	}
	if n := db.pool.Stats().OpenConnections; n != maxConns {
		t.Errorf("%d connections seen, want %d", n, maxConns)
	}
}

func TestOpenAnyFileName(t *testing.T) {
	for _, name := range []string{
		"plain.db", "no extension", "a?b", "a?mode=memory", "a#b", "100%", "%41", "a&b=c;d+e", "a'b\"c`d", "Größe 🐟",
		":memory:", "file:x", "a\nb", "bytes\xff\xfe", "-", "..db", `back\slash`,
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, name)
			db := openFile(t, path)
			if err := db.SetUnits(t.Context(), "reef", "wren", store.Units{Volume: "gal"}); err != nil {
				t.Fatal(err)
			}
			if err := db.Close(); err != nil {
				t.Fatal(err)
			}
			if files := list(t, dir); len(files) != 1 || files[0] != name {
				t.Errorf("files are %q, want %q alone", files, name)
			}
			m, err := openFile(t, path).Member(t.Context(), "reef", "wren")
			if err != nil || m.Units.Volume != "gal" {
				t.Errorf("after opening again: %+v, %v", m, err)
			}
		})
	}
}

func TestOpenRelativePath(t *testing.T) {
	t.Chdir(t.TempDir())
	openFile(t, "ripen.db")
	if files := list(t, "."); files[0] != "ripen.db" {
		t.Errorf("files are %q", files)
	}
}

func TestOpenFinishesWhatACrashLeft(t *testing.T) {
	tests := []struct {
		name string
		left func(t *testing.T, path string)
	}{
		{"EmptyFile", func(t *testing.T, path string) { write(t, path, nil) }},
		{"MarkedOnly", func(t *testing.T, path string) {
			if err := claim(t.Context(), path); err != nil {
				t.Fatal(err)
			}
		}},
		{"NothingMigrated", func(t *testing.T, path string) {
			if err := claim(t.Context(), path); err != nil {
				t.Fatal(err)
			}
			run(t, dsn(path, "FULL"), "SELECT 1")
		}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "ripen.db")
			tt.left(t, path)
			if _, err := openFile(t, path).Tanks(t.Context(), "reef", "wren"); err != nil {
				t.Error(err)
			}
		})
	}
}

func TestOpenAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			db, err := Open(path)
			if err != nil {
				t.Error(err)
				return
			}
			if _, err := db.Tanks(t.Context(), "reef", "wren"); err != nil {
				t.Error(err)
			}
			if err := db.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
}

func TestOpenErrNotDatabase(t *testing.T) {
	own := ownFile(t)
	foreign := func(setUp ...string) func(*testing.T, string) {
		return func(t *testing.T, path string) { run(t, plainDSN(path), setUp...) }
	}
	content := func(b []byte) func(*testing.T, string) {
		return func(t *testing.T, path string) { write(t, path, b) }
	}
	tests := []struct {
		name string
		put  func(t *testing.T, path string)
	}{
		{"Folder", func(t *testing.T, path string) { os.Mkdir(path, 0o755) }},
		{"OneByte", content([]byte("x"))},
		{"ShortText", content([]byte("day 1: ammonia 2 ppm\n"))},
		{"LongText", content([]byte(strings.Repeat("day 1: ammonia 2 ppm\n", 1000)))},
		{"Zeros", content(make([]byte, 8192))},
		{"MagicOnly", content(own[:16])},
		{"HeaderOnly", content(own[:100])},
		{"HalfOfIt", content(own[:len(own)/2])},
		{"GarbageInside", content(append(bytes.Clone(own[:100]), bytes.Repeat([]byte{0xa5}, len(own)-100)...))},
		{"OtherProgram", foreign("CREATE TABLE other (x)")},
		{"OtherProgramInWAL", foreign("PRAGMA journal_mode = WAL", "CREATE TABLE other (x)")},
		{"OtherProgramOfThatTable", foreign("CREATE TABLE tanks (id INTEGER PRIMARY KEY)")},
		{"OtherApplicationID", foreign("PRAGMA application_id = 1")},
		{"OtherUserVersion", foreign("PRAGMA user_version = 1")},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "ripen.db")
			tt.put(t, path)
			before, _ := os.ReadFile(path)
			db, err := Open(path)
			if !errors.Is(err, store.ErrNotDatabase) {
				t.Errorf("error is %v, want ErrNotDatabase", err)
			}
			if err == nil {
				db.Close()
			} else if !strings.Contains(err.Error(), path) {
				t.Errorf("error %q does not name the file", err)
			}
			if after, _ := os.ReadFile(path); !bytes.Equal(after, before) {
				t.Error("the file was changed")
			}
			if files := list(t, dir); len(files) != 1 {
				t.Errorf("files are %q, want one", files)
			}
		})
	}
}

func TestOpenErrReadOnly(t *testing.T) {
	dir := t.TempDir()
	write(t, filepath.Join(dir, "file"), []byte("x"))
	tests := []struct{ name, path string }{
		{"NoFolder", filepath.Join(dir, "none", "ripen.db")},
		{"FileForFolder", filepath.Join(dir, "file", "ripen.db")},
		{"NULInName", filepath.Join(dir, "a\x00b")},
		{"NameTooLong", filepath.Join(dir, strings.Repeat("x", 5000))},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, err := Open(tt.path); !errors.Is(err, store.ErrReadOnly) {
				t.Errorf("error is %v, want ErrReadOnly", err)
			}
		})
	}
}

func TestOpenTemp(t *testing.T) {
	dir := t.TempDir()
	db, err := OpenTemp(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := db.SetUnits(t.Context(), "reef", "wren", store.Metric); err != nil {
		t.Error(err)
	}
	if files := list(t, dir); len(files) != 1 {
		t.Errorf("files are %q, want one folder", files)
	}
	for range 2 {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	}
	if files := list(t, dir); len(files) != 0 {
		t.Errorf("files left are %q", files)
	}
	if _, err := OpenTemp(filepath.Join(dir, "none")); !errors.Is(err, store.ErrReadOnly) || !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("error is %v, want ErrReadOnly for want of a folder", err)
	}
}

// ownFile returns the bytes of a closed database of this program.
func ownFile(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "own.db")
	db := openFile(t, path)
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	b, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// run runs statements on a connection of its own.
func run(t *testing.T, dsn string, statements ...string) {
	t.Helper()
	pool, err := sql.Open(driver, dsn)
	if err != nil {
		t.Fatal(err)
	}
	defer pool.Close()
	pool.SetMaxOpenConns(1)
	for _, s := range statements {
		if _, err := pool.ExecContext(context.Background(), s); err != nil {
			t.Fatal(err)
		}
	}
}

func write(t *testing.T, path string, b []byte) {
	t.Helper()
	if err := os.WriteFile(path, b, 0o644); err != nil {
		t.Fatal(err)
	}
}

// list returns the names of the files in a folder.
func list(t *testing.T, dir string) (names []string) {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		names = append(names, f.Name())
	}
	return names
}
