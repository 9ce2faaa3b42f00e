// Package store defines what is kept of members, tanks and entries, and the
// contract of a store. Implementations live below it (sqlite).
//
// A store keeps what members said, as they typed it, with the units that the
// words were meant in. Everything else is recomputed.
//
// Times are kept to the millisecond and come back in UTC. Any string is kept
// byte for byte, be it empty, huge, or not text at all.
package store

import (
	"context"
	"errors"
	"time"
)

// Errors of every store. Test with errors.Is.
var (
	ErrNotFound    = errors.New("not found")
	ErrNameTaken   = errors.New("name taken")
	ErrClosed      = errors.New("tank closed")
	ErrNothingLeft = errors.New("nothing to undo")
	ErrNotLast     = errors.New("not the last entry")
	ErrNotDatabase = errors.New("not a database of this program")
	ErrReadOnly    = errors.New("database cannot be written")
)

// Units are a member's own units, for numbers typed without one.
type Units struct {
	Volume string `json:"volume"` // "L", "gal" (US) or "impgal"
	Temp   string `json:"temp"`   // "C" or "F"
	KH     string `json:"kh"`     // "dKH", "ppm" (as CaCO3) or "meq"
	Scale  string `json:"scale"`  // "ion" or "n"
}

// Metric are the units a new member starts with.
var Metric = Units{Volume: "L", Temp: "C", KH: "dKH", Scale: "ion"}

// Member is a person of a club.
type Member struct {
	Club, ID string
	Units    Units
}

// Tank is a member's tank. Its set-up and all changes are Entries.
type Tank struct {
	ID           int64
	Club, Member string
	Name         string // unique among the member's open tanks, as Fold compares
	Started      time.Time
	Closed       time.Time // zero while open
}

// Kind tells what an Entry is.
type Kind string

// The kinds of entries.
const (
	KindSetup   Kind = "setup"   // the tank as registered
	KindEdit    Kind = "edit"    // a change of the set-up, from At on
	KindReading Kind = "reading" // kit readings
	KindLog     Kind = "log"     // something done or seen
)

// Value is one option of an entry as the member typed it. Unit is what a bare
// number meant when it was typed ("F", "ppm", "n" ...), "" where that is fixed.
type Value struct {
	Name, Typed, Unit string
}

// Entry is one thing a member told about a tank.
type Entry struct {
	ID       int64
	Tank     int64
	Kind     Kind
	At       time.Time // when it happened, UTC
	Recorded time.Time // when it was told, UTC
	Key      string    // idempotency key, unique in a club; a repeated key adds nothing; "" is no key
	Again    bool      // a Key whose entry was taken back is free for this one; not kept
	Values   []Value   // in the order typed
	Undone   time.Time // zero unless taken back; undone entries stay as history
}

// Value returns the typed text of the option of that name, "" if absent.
func (e Entry) Value(name string) string {
	for _, v := range e.Values {
		if v.Name == name {
			return v.Typed
		}
	}
	return ""
}

// Members keeps members' preferences.
type Members interface {
	// Member returns the member, with Metric units when nothing is known yet.
	Member(ctx context.Context, club, id string) (Member, error)
	// SetUnits stores the member's own units.
	SetUnits(ctx context.Context, club, id string, u Units) error
	// Erase removes all that is kept of the member in the club: units, tanks,
	// entries, those taken back too, what was foretold and worked out of the tanks,
	// and the member's notes. It is no error if there was nothing. The files hold bytes
	// of it until Sweep.
	Erase(ctx context.Context, club, id string) error
}

// Tanks keeps the tanks of a club's members.
type Tanks interface {
	// AddTank stores a tank and its setup entry in one transaction and returns
	// the tank with its ID; it is open, whatever t says. ErrNameTaken if the
	// member has an open tank of that name, whatever the key. Else, if the key
	// is known, nothing is added and the tank of that key's entry comes back.
	AddTank(ctx context.Context, t Tank, setup Entry) (Tank, error)
	// Tanks lists the member's tanks by Started, then by ID, closed ones too; a
	// tank whose setup entry was taken back is left out.
	Tanks(ctx context.Context, club, member string) ([]Tank, error)
	// EditTank stores an edit entry and, where they are not zero, a new name
	// and a new start of the tank, in one transaction. added is false, and
	// nothing changes, when the key is known, even if the tank was closed or
	// taken back since. ErrNameTaken, ErrNotFound, ErrClosed.
	EditTank(ctx context.Context, tank int64, name string, started time.Time, edit Entry) (added bool, err error)
	// CloseTank closes the tank at a time, with an edit entry that says so. A
	// known key changes nothing and is no error. ErrClosed, ErrNotFound.
	CloseTank(ctx context.Context, tank int64, at time.Time, edit Entry) error
}

// Entries keeps what members told about their tanks.
type Entries interface {
	// AddEntry stores an entry; its ID and Undone are the store's to set. added
	// is false, and nothing changes, when the club already has an entry of that
	// key, even if the tank was closed or taken back since. ErrNotFound, ErrClosed.
	AddEntry(ctx context.Context, e Entry) (added bool, err error)
	// Entries lists a tank's entries that were not taken back, by At, then by
	// ID. ErrNotFound if there is no such tank or its setup was taken back.
	Entries(ctx context.Context, tank int64) ([]Entry, error)
	// Undo takes back the entry of the member in the club that was stored last, by
	// ID, and is not undone yet, and returns it with its tank. Undoing an edit restores the name and start that it changed;
	// undoing a closing opens the tank again (ErrNameTaken, and nothing changes,
	// if the name is in use); undoing a setup hides the tank, with whatever else
	// was told about it. of is the key of the entry that is meant, "" for whichever is
	// the last: ErrNotLast, and nothing changes, if it is not the last. key makes it
	// idempotent: a repeated key of the member undoes nothing more and returns the same
	// entry; "" is no key. ErrNothingLeft.
	Undo(ctx context.Context, club, member, of, key string, at time.Time) (Entry, Tank, error)
}

// Log is a tank with all that was told of it: the set-up first.
type Log struct {
	Tank    Tank // Name, Started and, if it is closed, Closed count
	Entries []Entry
}

// Added is what was new of logs.
type Added struct {
	Tanks, Entries int
	Units          bool // the member had none
}

// Logs takes in whole tanks, as from a copy.
type Logs interface {
	// AddLogs stores tanks with their entries for the member, and units for who has none
	// yet, all or nothing. Every entry has a key; what is known by its key and was not taken
	// back is not stored again, so that the same logs add nothing and longer ones what is
	// new, while the tank is open. The name and start of Tank hold from the set-up on, and
	// for a tank that is known from a new entry with a value "name" or "started" on; one
	// with a value "closed" closes the tank. ErrNameTaken as AddTank.
	AddLogs(ctx context.Context, club, member string, u Units, logs []Log) (Added, error)
}

// Notes keeps small texts by name, such as what a member is about to send, or what a
// club's tanks taught. A name holds one text; it is for the caller to bound the names.
//
// So that MemberNotes and Erase find them, a member's own notes are named by a word, a slash and
// the member, as "form/wren"; and notes about a member's tank by "tie/" and a place,
// with a text of the tank, a blank and the member.
type Notes interface {
	// Note returns the text of that name in the club, "" when there is none.
	Note(ctx context.Context, club, name string) (string, error)
	// SetNote puts the text in the place of the one before; "" removes it.
	SetNote(ctx context.Context, club, name, text string) error
	// MemberNotes returns the member's own notes and those about the member's tanks, by
	// name.
	MemberNotes(ctx context.Context, club, member string) (map[string]string, error)
}

// Settings are what a club's moderators chose. "" and false are what a club
// starts with.
type Settings struct {
	Channel string // where the weekly summary goes
	Day     string // of the week, "monday"
	Time    string // of that day, "18:00"
	Zone    string // name of an IANA time zone
	Digest  bool   // whether the summary is posted
	Share   bool   // whether tanks are shown of members who said neither yes nor no
	Plain   bool   // whether replies stay in the program's own words
}

// Clubs keeps what is a club's as a whole.
type Clubs interface {
	// AllClubs lists the clubs that have tanks.
	AllClubs(ctx context.Context) ([]string, error)
	// ClubTanks lists the tanks of all members of the club by member, then as
	// Tanks does.
	ClubTanks(ctx context.Context, club string) ([]Tank, error)
	// Settings returns the club's settings, the zero value when none were made.
	Settings(ctx context.Context, club string) (Settings, error)
	// SetSettings puts the settings in the place of those before.
	SetSettings(ctx context.Context, club string, s Settings) error
}

// Store is all of it. Every method is one transaction, but for Sweep.
type Store interface {
	Members
	Tanks
	Entries
	Logs
	Notes
	Clubs
	Outlooks
	Verdicts
	Weeks
	// Sweep takes the bytes of what was erased out of the store's files, while writers
	// wait; it does nothing if nothing was erased since it last did. What it could not
	// sweep stays to be swept, after a restart too.
	Sweep(ctx context.Context) error
	Close() error
}
