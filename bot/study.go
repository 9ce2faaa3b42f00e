package main

import (
	"context"
	"fmt"

	"ripen/engine/study"
)

// StudyConfig asks how well the engine does, on tanks whose truth is known.
type StudyConfig struct {
	Truth  TruthConfig  `cmd:"" help:"Score outlooks on simulated tanks that follow other laws than the engine's."`
	Faults FaultsConfig `cmd:"" help:"Diagnose simulated tanks that a known fault holds up."`
	Club   ClubConfig   `cmd:"" help:"Live a simulated club through a year: summaries, what the rest costs, and what learning is worth."`
	Ranks  RanksConfig  `cmd:"" help:"Ask whether the fit gives back what made the readings: ranks of the truth among its draws."`
	Walk   WalkConfig   `cmd:"" help:"Compare the fit with long random walks on five tanks."`
}

// TruthConfig asks for the study of outlooks.
type TruthConfig struct {
	Tanks int    `default:"150" help:"How many tanks (default ${default})."`
	Seed  uint64 `default:"1" help:"What all chance follows from (default ${default})."`
	Draws int    `default:"2048" help:"Draws of each fit (default ${default})."`
	Own   bool   `help:"Let the tanks follow the engine's own laws, kept and read the same way: the best that such logs allow."`
	Tidy  bool   `help:"Let keepers read each evening and write all down as it is: what good logs allow."`
	Bare  bool   `help:"Score the draws alone, without what outlooks allow for beyond them: with --own --tidy the most that kits can tell."`
	Each  bool   `help:"Print a line for each tank as well."`
}

// Validate says what is out of range.
func (c TruthConfig) Validate() error {
	switch {
	case c.Tanks < 1 || c.Tanks > 100000:
		return fmt.Errorf("--tanks: %d is not within 1 to 100000", c.Tanks)
	case c.Draws < 64 || c.Draws > 100000:
		return fmt.Errorf("--draws: %d is not within 64 to 100000", c.Draws)
	}
	return nil
}

// runStudy runs one study and prints its table.
func runStudy(ctx context.Context, m Machine, c StudyConfig, command string) (err error) {
	progress := func(done, of int) { fmt.Fprintf(m.Err, "\r%d of %d", done, of) }
	if !m.Terminal {
		progress = nil
	}
	var text string
	switch command {
	case "study truth":
		r := study.Truth(study.Question{Tanks: c.Truth.Tanks, Draws: c.Truth.Draws, Seed: c.Truth.Seed, Own: c.Truth.Own, Tidy: c.Truth.Tidy, Bare: c.Truth.Bare}, progress)
		if c.Truth.Each {
			text = r.Lines() + "\n"
		}
		text += r.Table()
	case "study faults":
		text = c.Faults.run(progress)
	case "study club":
		text, err = c.Club.run(ctx, m, progress)
	case "study ranks":
		text = c.Ranks.run(progress)
	case "study walk":
		text = c.Walk.run(progress)
	}
	if progress != nil {
		fmt.Fprintln(m.Err)
	}
	if err != nil {
		return err
	}
	fmt.Fprintln(m.Out, text)
	return nil
}
