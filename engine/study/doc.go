// Package study asks how well the engine does, on tanks whose truth is known.
//
// Calibrate draws tanks from the engine's own model and asks whether the fit
// gives back what was put in: simulation-based calibration (Talts, Betancourt,
// Simpson, Vehtari & Gelman 2018, arXiv:1804.06788).
//
// Walking.Walk compares the fit with long random walks over the same posterior.
//
// Truth draws tanks from a wider truth, whose simulation shares no code with the
// model, and scores outlooks on the way against the day on which each tank was
// truly done.
//
// Faults draws tanks of that wider truth that a known fault holds up, beside their
// twins without it, and scores what the diagnosis says of them.
//
// Everything follows from a seed: the same arguments give the same tables.
package study
