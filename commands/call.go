// Package commands is the command book: what members and moderators can ask,
// and what they get back, the same for every front end.
//
// A front end turns what was typed into a Request and hands it to Book.Do. Each
// command is one file with its description (Spec), its handler, its typed result
// and the words made from that result. Times are UTC; Request.At is the clock.
package commands

import (
	"time"
)

// Request is one command of a member, whatever way it came in.
type Request struct {
	At        time.Time // now, for this request
	Club      string    // the club it was asked in
	Member    string    // nickname or platform ID
	Moderator bool
	Key       string            // idempotency key of the delivery
	Command   string            // "reading", "tank", "add", ...
	Sub       string            // "new", "show" ... or ""
	Options   map[string]string // as typed, by option name
	Post      string            // the post's text, for "add"
	Since     time.Time         // of a weekly summary: the end of the one before; zero for a week ago
	Plain     bool              // no pictures where the text draws the same; /chart has one all the same
	Bare      bool              // no drawing in letters where a picture shows the same
	Place     string            // the thread it was asked in, "" where there are none
	Look      bool              // of "add": only say what would be stored
	Again     bool              // of "add": take the post though its entry was taken back before
	Of        string            // of "undo": key of the entry that is meant; "" for the last, whichever it is
	Files     []File            // handed over with it, for options of TypeFile
}

// Reply is the answer to a Request. Text holds no number that Data does not.
type Reply struct {
	OK      bool
	Private bool
	Text    string
	Data    any // marshals to the JSON object of the command book
	Files   []File
	Err     *Error
	Draft   *Draft // what may be said in other words, nil where nothing may
}

// File is an attachment of a request or of a reply.
type File struct {
	Name string
	Alt  string // what a picture shows, for who does not see it
	Data []byte
}

// Error is a refusal that a person can act on. Message names the value, the
// allowed range and what to try.
type Error struct {
	Code    string `json:"code"`             // for programs, as "range", "unknown-tank"
	Message string `json:"message"`          // for people
	Option  string `json:"option,omitempty"` // the option at fault, if one is

	cause error
}

func (e *Error) Error() string { return e.Message }

// Unwrap returns the failure behind codes "database" and "internal", for the
// operator's log; nil for refusals.
func (e *Error) Unwrap() error { return e.cause }
