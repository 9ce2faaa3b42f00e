// Package year lives a simulated club through a year: its members type what keepers type,
// wrong logs and silences included, through the real commands and a real store; its
// summaries are posted on Mondays, late where the bot was away; and it learns each week from the tanks that are done.
package year

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"math/rand/v2"
	"slices"
	"time"

	"ripen/commands"
	"ripen/commands/weekly"
	"ripen/engine/study"
	"ripen/store"
)

// Year is what a year needs, and what it came to.
type Year struct {
	Members  int
	Seed     uint64
	Of       study.Club
	Store    store.Store
	Adviser  commands.Adviser // answers; one that is a commands.Learner is taught
	Version  string
	Now      func() time.Time // this machine's clock, for what it took
	Progress study.Progress

	Taught   []Taught       // outlooks that rested on what was learnt
	Learnt   []Lesson       // each week
	Lines    int            // typed
	Refused  map[string]int // of them, by code
	First    string         // the first that was refused, and why
	Posts    []commands.ClubWeek
	Wrong    []string        // what summaries have and logs do not, or the other way round
	Slow     []time.Duration // that /club slow took, each Monday
	Record   commands.ClubRecord
	Recorded string // the same in words
	Took     time.Duration

	done  map[string]bool    // members whose tanks were done at the last check
	truth map[string]float64 // day that each tank was truly done, 180 if it was not by then
	who   string             // types right now
}

// club is its name.
const club = "club"

// newYear is when the year begins, a Thursday.
var newYear = time.Date(2026, 1, 1, 9, 0, 0, 0, time.UTC)

// zone is where the club's clocks stand.
var zone = func() *time.Location {
	z, err := time.LoadLocation("Europe/Lisbon")
	if err != nil {
		panic(err) // it is built in
	}
	return z
}()

// lookAt is when the bot looks whether a summary is due: when it is, but in some weeks it
// is away until the next evening.
func lookAt(week int) time.Time {
	due := time.Date(2026, 1, 5+7*week, 18, 0, 0, 0, zone)
	if week%5 == 4 {
		due = due.Add(26 * time.Hour)
	}
	return due
}

// down says whether the bot is away for the whole week.
func down(week int) bool { return week%13 == 6 }

// Live lives the year through.
func (y *Year) Live(ctx context.Context) error {
	began := y.Now()
	y.Refused, y.done = map[string]int{}, map[string]bool{}
	var failed error
	watch := commands.NewWatch(Month{}, func(tank int64, err error) { failed = errors.Join(failed, err) })
	adviser, learns := y.Adviser, false
	if l, ok := y.Adviser.(commands.Learner); ok {
		adviser, learns = beside{l, y.both}, true
	}
	book := commands.New(y.Store, commands.WithAdviser(adviser), commands.WithVersion(y.Version), commands.WithWatch(watch))
	school := commands.New(y.Store, commands.WithAdviser(y.Adviser)) // learns with the engine that answers
	all, shown := y.script()
	at := newYear
	posts := weekly.Weekly{Store: y.Store, Book: book, Poster: y, Now: func() time.Time { return at }, Log: slog.New(slog.DiscardHandler)}
	if err := y.say(ctx, book, said{newYear, "moderator", "/club settings digest:on channel:c day:monday time:18:00 zone:" + zone.String()}, true); err != nil {
		return err
	}
	week := 0
	for i, s := range all {
		for ; s.at.After(lookAt(week)); week++ {
			if down(week) {
				continue
			}
			at = lookAt(week)
			if err := watch.Sweep(ctx, at); err != nil {
				return err
			}
			for range 3 {
				posts.Look(ctx)
				at = at.Add(10 * time.Minute)
			}
			if err := y.check(ctx, book, week, all[:i], shown); err != nil {
				return err
			}
			if err := y.slowly(ctx, book, at); err != nil {
				return err
			}
			if learns {
				p, err := school.Learn(ctx, club)
				if err != nil {
					return err
				}
				y.Learnt = append(y.Learnt, Lesson{at, p})
			}
		}
		if err := y.say(ctx, book, s, false); err != nil {
			return err
		}
		if y.Progress != nil {
			y.Progress(i+1, len(all))
		}
	}
	reply := book.Do(ctx, commands.Request{At: lookAt(week), Club: club, Member: "moderator", Moderator: true, Command: "club", Sub: "record"})
	if !reply.OK {
		return reply.Err
	}
	y.Record, y.Recorded = reply.Data.(commands.ClubRecord), reply.Text
	y.Took = y.Now().Sub(began)
	return failed
}

// script is what all members type in the year, and who may be shown.
func (y *Year) script() (all []said, shown map[string]bool) {
	shown, y.truth = map[string]bool{}, map[string]float64{}
	for i := range y.Members {
		rng := rand.New(rand.NewPCG(y.Seed, uint64(i)))
		start := newYear.Add(time.Duration(rng.Float64() * 330 * 24 * float64(time.Hour))).Truncate(time.Second)
		name := fmt.Sprintf("m%05d", i)
		kept := y.Of.Member(i)
		y.truth[name] = kept.Done
		life, agreed := lifeOf(name, kept, start, rng)
		all, shown[name] = append(all, life...), agreed
	}
	inOrder(all)
	return slices.DeleteFunc(all, func(s said) bool { return s.at.After(newYear.AddDate(1, 0, 0)) }), shown
}

// say types a line.
func (y *Year) say(ctx context.Context, book *commands.Book, s said, moderator bool) error {
	var r commands.Request
	var refused *commands.Error
	if r.Command, r.Sub, r.Options, refused = commands.ParseLine(s.line); refused != nil {
		return fmt.Errorf("%s: %w", s.line, refused)
	}
	y.Lines++
	y.who = s.member
	r.At, r.Club, r.Member, r.Moderator, r.Plain, r.Key = s.at, club, s.member, moderator, true, fmt.Sprint("year/", y.Lines)
	reply := book.Do(ctx, r)
	if reply.Err == nil {
		return nil
	}
	if cause := errors.Unwrap(reply.Err); cause != nil {
		return fmt.Errorf("%s of %s: %w", s.line, s.member, cause)
	}
	y.Refused[reply.Err.Code]++
	if y.First == "" {
		y.First = s.line + ": " + reply.Text
	}
	return nil
}

// PostReply takes a summary as a channel would.
func (y *Year) PostReply(_ context.Context, _ string, reply commands.Reply, _ string) error {
	y.Posts = append(y.Posts, reply.Data.(commands.ClubWeek))
	return nil
}

// slowly asks which tanks need somebody, and measures how long that takes.
func (y *Year) slowly(ctx context.Context, book *commands.Book, at time.Time) error {
	for range 5 {
		before := y.Now()
		reply := book.Do(ctx, commands.Request{At: at, Club: club, Member: "moderator", Moderator: true, Command: "club", Sub: "slow"})
		if !reply.OK {
			return reply.Err
		}
		y.Slow = append(y.Slow, y.Now().Sub(before))
	}
	return nil
}

var _ weekly.Poster = (*Year)(nil)
