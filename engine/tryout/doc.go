// Package tryout asks of a fitted tank what would happen if something were changed
// now: the draws of the posterior are run once as things are and once for each
// change, so that every draw is compared with itself and what it does not know of
// the tank falls out of the difference.
//
// Up to Most changes can be tried at once; each is tried alone, and all together.
// Whatever is not tried stays as it is, the keeper's habit too. Days are those of
// the model alone, without what package outlook adds for the unforeseen, which
// would fall on both sides alike.
//
// Changes act within five minutes after now, after all that was logged: hardness
// is added first, then the surroundings change, then comes what is done once
// (water change, dose, seed, culture).
//
// GainOf asks the same of what was done already: the draws are run with an event of
// the log and without it.
package tryout
