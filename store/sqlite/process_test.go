package sqlite

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"testing"

	"ripen/store"
)

// TestMain lets the test program be another process that uses a database.
func TestMain(m *testing.M) {
	if path := os.Getenv("STORE_TEST_CHILD"); path != "" {
		if err := child(path, os.Getenv("STORE_TEST_NAME")); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// child adds a tank of that name and entries to it, and prints each key once
// it is stored, until nobody reads on.
func child(path, name string) error {
	db, err := Open(path)
	if err != nil {
		return err
	}
	ctx := context.Background()
	tank, err := db.AddTank(ctx, store.Tank{Club: "reef", Member: name, Name: name, Started: at(1)}, store.Entry{Key: name})
	if err != nil {
		return err
	}
	for i := 0; ; i++ {
		key := name + strconv.Itoa(i)
		values := []store.Value{{Name: "ph", Typed: "7.6"}, {Name: "kh", Typed: "6", Unit: "dKH"}}
		added, err := db.AddEntry(ctx, store.Entry{Tank: tank.ID, Kind: store.KindReading, At: at(2), Key: key, Values: values})
		if err != nil || !added {
			return fmt.Errorf("%s: added %v, %w", key, added, err)
		}
		if _, err := fmt.Println(key); err != nil {
			return db.Close()
		}
	}
}

// start runs a child and returns what it prints.
func start(t *testing.T, path, name string) (*exec.Cmd, *bufio.Scanner, io.Closer) {
	t.Helper()
	exe, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.CommandContext(t.Context(), exe)
	cmd.Env = append(os.Environ(), "STORE_TEST_CHILD="+path, "STORE_TEST_NAME="+name)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewScanner(out), out
}

func TestCommittedEntriesSurviveAKill(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	cmd, keys, _ := start(t, path, "wren")
	var stored []string
	for len(stored) < 20 && keys.Scan() {
		stored = append(stored, keys.Text())
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	for keys.Scan() { // what was in the pipe
		stored = append(stored, keys.Text())
	}
	cmd.Wait() // reports the kill

	if len(stored) < 20 {
		t.Fatalf("only %q were stored", stored)
	}
	wantStored(t, openFile(t, path), "wren", stored)
}

func TestProcessesShareAFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "ripen.db")
	names := []string{"wren", "tern", "lark"} // all make the new file at once
	stored := make([][]string, len(names))
	var wg sync.WaitGroup
	for i, name := range names {
		cmd, keys, out := start(t, path, name)
		wg.Go(func() {
			for len(stored[i]) < 20 && keys.Scan() {
				stored[i] = append(stored[i], keys.Text())
			}
			out.Close()
			cmd.Wait() // reports the pipe that broke
		})
	}
	wg.Wait()
	db := openFile(t, path)
	for i, name := range names {
		if len(stored[i]) != 20 {
			t.Errorf("%s stored %d entries, want 20", name, len(stored[i]))
		}
		wantStored(t, db, name, stored[i])
	}
}

// wantStored ends the test unless the member's one tank has the entries of
// these keys, whole.
func wantStored(t *testing.T, db *DB, member string, keys []string) {
	t.Helper()
	tanks, err := db.Tanks(t.Context(), "reef", member)
	if err != nil || len(tanks) != 1 {
		t.Fatalf("tanks are %v, %v", tanks, err)
	}
	entries, err := db.Entries(t.Context(), tanks[0].ID)
	if err != nil {
		t.Fatal(err)
	}
	values := map[string]int{}
	for _, e := range entries {
		values[e.Key] = len(e.Values)
	}
	for _, key := range keys {
		if values[key] != 2 {
			t.Errorf("entry %s has %d values, want 2", key, values[key])
		}
	}
}
