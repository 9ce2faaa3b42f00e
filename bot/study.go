package main

import (
	"fmt"

	"ripen/engine/study"
)

// StudyConfig asks how well the engine does, on tanks whose truth is known.
type StudyConfig struct {
	Truth TruthConfig `cmd:"" help:"Score outlooks on simulated tanks that follow other laws than the engine's."`
}

// TruthConfig asks for the study of outlooks.
type TruthConfig struct {
	Tanks int    `default:"150" help:"How many tanks (default ${default})."`
	Seed  uint64 `default:"1" help:"What all chance follows from (default ${default})."`
	Draws int    `default:"2048" help:"Draws of each fit (default ${default})."`
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
func runStudy(m Machine, c StudyConfig, command string) error {
	progress := func(done, of int) { fmt.Fprintf(m.Err, "\r%d of %d tanks", done, of) }
	if !m.Terminal {
		progress = nil
	}
	switch command {
	case "study truth":
		r := study.Truth(c.Truth.Tanks, c.Truth.Draws, c.Truth.Seed, progress)
		if progress != nil {
			fmt.Fprintln(m.Err)
		}
		if c.Truth.Each {
			fmt.Fprintln(m.Out, r.Lines())
		}
		fmt.Fprintln(m.Out, r.Table())
	}
	return nil
}
