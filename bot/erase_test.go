package main

import (
	"bytes"
	"context"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"testing"
	"time"

	"ripen/commands"
	"ripen/store"
	"ripen/store/sqlite"
)

// stands says whether a database's files hold a text.
func stands(t *testing.T, path, text string) bool {
	t.Helper()
	for _, f := range []string{path, path + "-wal"} {
		raw, err := os.ReadFile(f)
		if err != nil && !os.IsNotExist(err) {
			t.Fatal(err)
		}
		if bytes.Contains(raw, []byte(text)) {
			return true
		}
	}
	return false
}

// What a member erased in the chat is out of the file when the chat has ended; what
// another told stays.
func TestErasedIsOutOfTheFileAfterTheChat(t *testing.T) {
	path := filepath.Join(t.TempDir(), "club.db")
	chat := func(member, in string) {
		t.Helper()
		m := machine(t, t.TempDir())
		m.Session = in
		if r := m.run(t, in, "--db", path, "--member", member); r.code != exitOK {
			t.Fatal(r.err)
		}
	}
	chat("tern", "/tank new name:keptpool volume:60L\n")
	chat("wren", "/tank new name:gonepool volume:60L\n")
	if !stands(t, path, "gonepool") {
		t.Fatal("the file does not hold what was told, so this test shows nothing")
	}
	chat("wren", "/data erase confirm:yes\n")
	if stands(t, path, "gonepool") || !stands(t, path, "keptpool") {
		t.Errorf("erased stands there: %v, another's: %v", stands(t, path, "gonepool"), stands(t, path, "keptpool"))
	}
}

// While clubs are served it is a chore, which also sweeps what an earlier run left.
func TestErasedIsSweptWhileServing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "club.db")
	st, err := sqlite.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	b := commands.New(st)
	for _, line := range []string{"/tank new name:gonepool volume:60L", "/data erase confirm:yes"} {
		r := commands.Request{At: clock, Club: "c", Member: "wren"}
		r.Command, r.Sub, r.Options, _ = commands.ParseLine(line)
		if reply := b.Do(t.Context(), r); !reply.OK || !stands(t, path, "gonepool") {
			t.Fatalf("%s: %s, or it is not in the file", line, reply.Text)
		}
	}
	if err := st.Close(); err != nil {
		t.Fatal(err)
	}
	_, client, _, _ := choring(t)
	log := slog.New(slog.DiscardHandler)
	w := newWatch(newEngine(), log)
	a, err := openFile(path, io.Discard, commands.WithWatch(w))
	if err != nil {
		t.Fatal(err)
	}
	defer a.store.Close()
	ctx, stop := context.WithCancel(t.Context())
	told := make(chan error, 1)
	a.store = &sweeping{a.store, told}
	wait := chores(ctx, a, w, poster{client}, client, func() time.Time { return clock }, log)
	if err := <-told; err != nil || stands(t, path, "gonepool") {
		t.Errorf("it stands in the file still: %v", err)
	}
	stop()
	wait()
}

// sweeping is a store that tells how its first sweep ended.
type sweeping struct {
	store.Store
	told chan error
}

func (s *sweeping) Sweep(ctx context.Context) error {
	err := s.Store.Sweep(ctx)
	select {
	case s.told <- err:
	default:
	}
	return err
}
