package store

import (
	"context"
	"time"
)

// Outlook is an outlook as a member was given it.
type Outlook struct {
	Tank     int64
	Asked    string // the command that asked: "outlook", "why"
	Own      bool   // the tank's member asked, not a moderator
	At       time.Time
	Day      float64 // of the tank, then
	Stage    string
	Readings int
	Done     [7]float64 // days of the tank at Quantiles; +Inf past the horizon
	Engine   string     // version of the engine that made it
	Prior    string     // what that believed of tanks beforehand
}

// Quantiles are the shares of the distribution that an Outlook's Done are of.
var Quantiles = [7]float64{0.025, 0.1, 0.25, 0.5, 0.75, 0.9, 0.975}

// Outlooks keeps what was foretold.
type Outlooks interface {
	// KeepOutlook stores an outlook. The same of a tank, a command and a moment is
	// kept once. ErrNotFound if there is no such tank.
	KeepOutlook(ctx context.Context, o Outlook) error
	// TankOutlooks lists those of a tank by At.
	TankOutlooks(ctx context.Context, tank int64) ([]Outlook, error)
	// ClubOutlooks lists those later than a time of all tanks of the club that were not
	// taken back, by tank, then by At.
	ClubOutlooks(ctx context.Context, club string, since time.Time) ([]Outlook, error)
	// CountOutlooks counts those that a command asked for, of the same tanks.
	CountOutlooks(ctx context.Context, club, asked string) (map[int64]int, error)
}

// Verdict is what was last worked out of a tank, in a form of the caller's.
type Verdict struct {
	Tank     int64
	Revision string    // of the log that it is about
	At       time.Time // the moment that it is about
	Data     string
}

// Standing is a tank with what was last worked out of it.
type Standing struct {
	Tank
	Revision string  // of its log now: another one whenever an entry was added or taken back
	Verdict  Verdict // zero if there is none
}

// Verdicts keeps what was worked out of tanks, so that it need not be again. All of it
// can be worked out anew.
type Verdicts interface {
	// Standings lists the open tanks of the club's members, or the closed ones, as
	// ClubTanks does.
	Standings(ctx context.Context, club string, closed bool) ([]Standing, error)
	// Standing returns one tank, open or closed. ErrNotFound.
	Standing(ctx context.Context, tank int64) (Standing, error)
	// Outdated lists the tanks of all clubs whose verdict is missing, of another revision
	// than their log's, or, of open ones, of a moment before a time; the oldest first.
	Outdated(ctx context.Context, before time.Time) ([]int64, error)
	// SetVerdict puts the verdict in the place of the one before. ErrNotFound if
	// there is no such tank.
	SetVerdict(ctx context.Context, v Verdict) error
}

// Week is the weekly summary of one week of a club, from the moment on that somebody
// set out to post it.
type Week struct {
	Club, Name string    // the name as "2026-W10"
	Turn       int64     // counts its changes, from 1
	Claimed    time.Time // when it was set out to be posted, last; up to then it tells
	Sent       time.Time // right before it was handed over; zero until then
	Ended      time.Time // when the outcome was known; zero until then
	Trouble    string    // why it was not posted, for people; "" if it was
}

// Weeks keeps which weekly summaries were posted.
type Weeks interface {
	// DigestClubs lists the clubs that want a weekly summary.
	DigestClubs(ctx context.Context) ([]string, error)
	// Week returns what is kept of a week, only Club and Name set if nothing is.
	Week(ctx context.Context, club, name string) (Week, error)
	// LastWeek returns the week of the club with the latest name, the zero Week if
	// there is none.
	LastWeek(ctx context.Context, club string) (Week, error)
	// WeekBefore returns the week of the club with the latest name before that one, the
	// zero Week if there is none.
	WeekBefore(ctx context.Context, club, name string) (Week, error)
	// SetWeek stores w with a Turn one higher, if the Turn kept is still w's (0 for
	// a week of which nothing is kept). Of several who try at once, one wins.
	SetWeek(ctx context.Context, w Week) (won bool, err error)
	// DropWeek forgets a week, so that it may be posted after all.
	DropWeek(ctx context.Context, club, name string) error
}
