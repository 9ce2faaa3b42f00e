package main

import (
	"fmt"

	"ripen/engine/study"
)

// FaultsConfig asks for the study of diagnoses.
type FaultsConfig struct {
	Tanks int    `default:"40" help:"How many tanks for each cause (default ${default})."`
	Seed  uint64 `default:"1" help:"What all chance follows from (default ${default})."`
	Draws int    `default:"2048" help:"Draws of each fit (default ${default})."`
	Each  bool   `help:"Print a line for each tank as well."`
}

// Validate says what is out of range.
func (c FaultsConfig) Validate() error {
	switch {
	case c.Tanks < 1 || c.Tanks > 10000:
		return fmt.Errorf("--tanks: %d is not within 1 to 10000", c.Tanks)
	case c.Draws < 64 || c.Draws > 100000:
		return fmt.Errorf("--draws: %d is not within 64 to 100000", c.Draws)
	}
	return nil
}

func (c FaultsConfig) run(progress study.Progress) string {
	all := study.Faults(study.Question{Tanks: c.Tanks, Draws: c.Draws, Seed: c.Seed}, progress)
	text := study.FaultsTable(all)
	if c.Each {
		text = study.FaultsLines(all) + "\n" + text
	}
	return text
}
