package testdata

import _ "embed"

// What the guard of words is checked on; words/README.md says what it is.
var (
	// Drafts are answers of the engine, one JSON object a line.
	//
	//go:embed words/drafts.jsonl
	Drafts string

	// FaithfulDev and FaithfulHeld are answers in other words, written by hand.
	//
	//go:embed words/faithful-dev.txt
	FaithfulDev string

	//go:embed words/faithful-held.txt
	FaithfulHeld string

	// LateDrafts and FaithfulLate came after the guard.
	//
	//go:embed words/late.jsonl
	LateDrafts string

	//go:embed words/faithful-late.txt
	FaithfulLate string

	// FaithfulLast are of all drafts.
	//
	//go:embed words/faithful-last.txt
	FaithfulLast string

	// FreshDrafts are of a third lot of tanks, with three batches of answers.
	//
	//go:embed words/fresh.jsonl
	FreshDrafts string

	//go:embed words/faithful-fresh-a.txt
	FaithfulFreshA string

	//go:embed words/faithful-fresh-b.txt
	FaithfulFreshB string

	//go:embed words/faithful-fresh-c.txt
	FaithfulFreshC string

	//go:embed words/faithful-fresh-d.txt
	FaithfulFreshD string

	//go:embed words/faithful-fresh-e.txt
	FaithfulFreshE string
)
