package sqlite

import (
	"path/filepath"
	"testing"

	"ripen/store"
	"ripen/store/storetest"
)

// openNew opens a new database file and closes it when the test ends.
func openNew(t testing.TB) *DB {
	t.Helper()
	return openFile(t, filepath.Join(t.TempDir(), "ripen.db"))
}

func openFile(t testing.TB, path string) *DB {
	t.Helper()
	db, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return db
}

func TestContract(t *testing.T) {
	storetest.Run(t, func(t *testing.T) store.Store { return openNew(t) })
}
