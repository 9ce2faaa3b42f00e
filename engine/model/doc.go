// Package model simulates the nitrogen of one tank: four guilds of attached
// nitrifiers, the water they change, and what its keeper does.
//
// A Case is what is known of a tank. NewPlan works it out into what happens
// when; a Run takes one draw of the unknown Params through it. Pools are in mg
// N/L, days count from the tank's start. See the root package engine for the
// equations' sources.
//
// The system is integrated by an exponential scheme that puts what leaves one
// pool into another, so that nitrogen balances to rounding whatever the step, and
// that refuses steps which leave a pool below nil; see kin.step. It agrees with
// other solvers within 0.5 % of each pool's peak; see testdata/solvers. Each steps
// several runs at once, in assembly that vectorise writes from step's source.
//
// What the model does not know: diffusion inside the film, predators,
// heterotrophs competing for room and oxygen, light, and any toxin but
// ammonia, nitrous acid, chlorine and "medicine".
package model
