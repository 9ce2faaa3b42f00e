package main

import (
	"fmt"

	"ripen/engine/study"
)

// RanksConfig asks for the calibration of the fit.
type RanksConfig struct {
	Tanks int    `default:"500" help:"How many tanks (default ${default})."`
	Seed  uint64 `default:"1" help:"What all chance follows from (default ${default})."`
	Draws int    `default:"2048" help:"Draws of each fit (default ${default})."`
}

// Validate says what is out of range.
func (c RanksConfig) Validate() error {
	switch {
	case c.Tanks < 80 || c.Tanks > 100000: // 5 to each bin of the histograms
		return fmt.Errorf("--tanks: %d is not within 80 to 100000", c.Tanks)
	case c.Draws < 64 || c.Draws > 100000:
		return fmt.Errorf("--draws: %d is not within 64 to 100000", c.Draws)
	}
	return nil
}

func (c RanksConfig) run(progress study.Progress) string {
	return study.RanksTable(study.Calibrate(c.Tanks, c.Draws, c.Seed, progress))
}

// WalkConfig asks for the comparison of the fit with random walks.
type WalkConfig struct {
	Steps int    `default:"1000000" help:"Steps of the walks on each of the five tanks (default ${default})."`
	Seed  uint64 `default:"1" help:"What all chance follows from (default ${default})."`
	Draws int    `default:"2048" help:"Draws of each fit (default ${default})."`
	All   bool   `help:"Print the unknowns that the readings hardly narrowed as well."`
}

// Validate says what is out of range.
func (c WalkConfig) Validate() error {
	switch {
	case c.Steps < 20000 || c.Steps > 1000000000:
		return fmt.Errorf("--steps: %d is not within 20000 to 1000000000", c.Steps)
	case c.Draws < 64 || c.Draws > 100000:
		return fmt.Errorf("--draws: %d is not within 64 to 100000", c.Draws)
	}
	return nil
}

func (c WalkConfig) run(progress study.Progress) string {
	const each = 4
	how := study.Walking{Walks: each, Steps: c.Steps / each, Thin: 50, Fits: 8, Draws: c.Draws}
	found := how.Walk(c.Seed, progress)
	return found.Table(c.All)
}
