package model

import "golang.org/x/sys/cpu"

// fourWide says whether four runs can be stepped at once.
var fourWide = cpu.X86.HasAVX

// The step of four runs, written by vectorise: up to where the stretches of alkalinity
// at the end must be known, and from there on. The bare ones are for tanks without plants,
// soil and chlorine.

//go:noescape
func first(l *lanes)

//go:noescape
func second(l *lanes)

//go:noescape
func firstBare(l *lanes)

//go:noescape
func secondBare(l *lanes)

// commit takes over the ends of the steps that were accepted.
//
//go:noescape
func commit(l *lanes)
