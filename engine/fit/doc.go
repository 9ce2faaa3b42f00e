// Package fit finds which tanks, out of all that the prior allows, could have
// given the readings of a log, and how likely each is.
//
// The sampler is a sequential Monte Carlo over the readings in order of time:
// each reading re-weights the draws, and when their weights grow uneven a new
// population is drawn from them, by chains of Metropolis steps that leave the
// posterior unchanged. A surprising reading is taken in by degrees. It is deterministic:
// its random numbers come from the log's content, and results depend neither on
// the number of cores nor on map order.
package fit
