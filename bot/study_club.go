package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"ripen/commands/year"
	"ripen/engine/advise"
	"ripen/engine/study"
	"ripen/store/sqlite"
)

// ClubConfig asks for a year of a simulated club, through the commands and the store.
type ClubConfig struct {
	Members int     `default:"24" help:"How many members (default ${default})."`
	Seed    uint64  `default:"1" help:"What all chance follows from (default ${default})."`
	Plain   bool    `help:"Let an engine answer that says a month to all, to see what the rest costs."`
	Wide    bool    `help:"Let tanks follow wider laws than the engine's."`
	Mean    float64 `default:"0" help:"Of tanks of the engine's laws: mean score of what they begin with; 0 (default) as the prior has it."`
	Spread  float64 `default:"1" help:"The spread of the same (default ${default})."`
}

// Validate says what is out of range.
func (c ClubConfig) Validate() error {
	switch {
	case c.Members < 1 || c.Members > 100000:
		return fmt.Errorf("--members: %d is not within 1 to 100000", c.Members)
	case c.Mean < -3 || c.Mean > 3 || c.Spread < 0.1 || c.Spread > 3:
		return fmt.Errorf("--mean and --spread: %g and %g are not within -3 to 3 and 0.1 to 3", c.Mean, c.Spread)
	}
	return nil
}

// run lives the year through on a database of its own and says what it came to.
func (c ClubConfig) run(ctx context.Context, m Machine, progress study.Progress) (text string, err error) {
	dir, err := os.MkdirTemp("", "ripen-club-")
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	path := filepath.Join(dir, "ripen.db")
	db, err := sqlite.Open(path)
	if err != nil {
		return "", err
	}
	y := &year.Year{Members: c.Members, Seed: c.Seed, Of: study.Club{Seed: c.Seed, Own: !c.Wide, Mean: c.Mean, Spread: c.Spread},
		Store: db, Adviser: learner{advise.New(2)}, Version: version, Now: m.Now, Progress: progress}
	if c.Plain {
		y.Adviser = year.Month{}
	}
	if err := errors.Join(y.Live(ctx), db.Close()); err != nil {
		return "", err
	}
	info, err := os.Stat(path)
	if err != nil {
		return "", err
	}
	return fmt.Sprintf("%sThe database has %.1f MB.\n", y.Report(), float64(info.Size())/1e6), nil
}
