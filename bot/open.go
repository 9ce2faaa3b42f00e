package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"ripen/bot/words"
	"ripen/commands"
	"ripen/engine/advise"
	"ripen/engine/pool"
	"ripen/store"
	"ripen/store/sqlite"
)

// version is what /method names.
const version = "0.1"

// fitsKept is how many tanks' fits stay in memory, about 2 MB each, so that a
// further reading is answered at once.
const fitsKept = 24

// app is the command book on an open store.
type app struct {
	*commands.Book
	words *words.Stage // nil for none
	store store.Store
	log   io.Writer
	clean func() error                      // takes away what was only for this run
	files func(name string) ([]byte, error) // reads files that requests name; nil where they come with them
}

// learner is an engine that the tanks of a club can teach.
type learner struct{ *advise.Engine }

// Learned returns an engine that takes what was learnt into account.
func (l learner) Learned(p pool.Prior) commands.Adviser { return l.Engine.Learned(p) }

func newEngine() *advise.Engine { return advise.New(fitsKept).Hourly() }

// openFile opens the command book on a database file, which is made when it is
// not there. The error says which file and what to try.
func openFile(path string, log io.Writer, more ...commands.Setting) (*app, error) {
	dir := filepath.Dir(path)
	if info, err := os.Stat(dir); err != nil || !info.IsDir() {
		return nil, fmt.Errorf("can't open the database %s: there is no folder %s; make it, or name another file with --db", path, dir)
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("can't open the database %s: it is not a file; name a file with --db", path)
	}
	st, err := sqlite.Open(path)
	switch {
	case errors.Is(err, store.ErrNotDatabase):
		return nil, fmt.Errorf("%s is %w; it was left as it is; name another file with --db", path, store.ErrNotDatabase)
	case errors.Is(err, store.ErrReadOnly):
		return nil, fmt.Errorf("can't open the database %s: %w; allow writing in %s, or name another file with --db", path, store.ErrReadOnly, dir)
	case err != nil:
		return nil, fmt.Errorf("can't open the database %s: %w; name another file with --db", path, err)
	}
	book := commands.New(st, append([]commands.Setting{commands.WithVersion(version), commands.WithAdviser(learner{newEngine()})}, more...)...)
	return &app{Book: book, store: st, log: log, clean: func() error { return nil }}, nil
}

// openTemporary opens the command book on a fresh database that goes with the app.
func openTemporary(log io.Writer, more ...commands.Setting) (*app, error) {
	dir, err := os.MkdirTemp("", "ripen-")
	if err != nil {
		return nil, fmt.Errorf("no place for a temporary database: %w; name a file with --db", err)
	}
	a, err := openFile(filepath.Join(dir, "ripen.db"), log, more...)
	if err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	a.clean = func() error { return os.RemoveAll(dir) }
	return a, nil
}

// makeFolder makes the folder of the standard database.
func makeFolder(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return fmt.Errorf("can't make a folder for the database: %w; name another place with --db FILE", err)
	}
	return nil
}

// closeInto sweeps what was erased, closes the store and sets err if that fails and nothing
// did before.
func (a *app) closeInto(err *error) {
	if closed := errors.Join(a.store.Sweep(context.Background()), a.store.Close(), a.clean()); closed != nil && *err == nil {
		*err = fmt.Errorf("closing the database: %w", closed)
	}
}

// Do answers a request, in a model's words where that is wanted; what went wrong below
// the commands is logged.
func (a *app) Do(ctx context.Context, r commands.Request) commands.Reply {
	if refused := a.attach(&r); refused != nil {
		return commands.Reply{Private: true, Text: refused.Message, Err: refused}
	}
	reply := a.Book.Do(ctx, r)
	if reply.Err != nil {
		if cause := errors.Unwrap(reply.Err); cause != nil {
			fmt.Fprintf(a.log, "bot: %s: %s\n", reply.Err.Code, oneLine(cause))
		}
	}
	return a.words.Say(ctx, r, reply)
}

// openTanks returns the names of a member's open tanks, oldest first.
func (a *app) openTanks(ctx context.Context, member string) ([]string, error) {
	tanks, err := a.store.Tanks(ctx, club, member)
	var names []string
	for _, t := range tanks {
		if t.Closed.IsZero() {
			names = append(names, t.Name)
		}
	}
	return names, err
}
