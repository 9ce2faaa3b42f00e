package main

import (
	"context"
	"fmt"
	"os"

	"ripen/commands"
)

// LearnConfig asks for learning, off the clock.
type LearnConfig struct {
	DB string `name:"db" placeholder:"FILE" help:"Database file. Default: as of the chat in this terminal."`
}

// runLearn learns in every club of a database and says what. The chat and replay rest on
// what was learnt there and never learn by themselves, so that a script answers the same
// whenever it is run.
func runLearn(ctx context.Context, m Machine, c LearnConfig) (err error) {
	path, _, err := DatabasePath(c.DB, m)
	if err != nil {
		return err
	}
	if _, err := os.Stat(path); err != nil {
		return fmt.Errorf("there is no database %s to learn from; name one with --db FILE", path)
	}
	a, err := openFile(path, m.Err)
	if err != nil {
		return err
	}
	defer a.closeInto(&err)
	clubs, err := a.store.AllClubs(ctx)
	if err != nil {
		return err
	}
	if len(clubs) == 0 {
		fmt.Fprintln(m.Out, "Nobody has a tank in", path, "yet.")
	}
	for _, club := range clubs {
		p, err := a.Learn(ctx, club)
		if err != nil {
			return fmt.Errorf("learning from club %q: %w", club, err)
		}
		fmt.Fprintf(m.Out, "%s: %s\n", club, commands.LearnedOf(p))
	}
	return nil
}
