// Package storetest holds the suite that every store passes.
package storetest

import (
	"context"
	"errors"
	"reflect"
	"testing"
	"time"

	"ripen/store"
)

// Run checks that a store keeps the contract of package store. open returns an
// empty store and closes it when its test ends.
func Run(t *testing.T, open func(t *testing.T) store.Store) {
	for _, group := range []struct {
		name   string
		claims []claim
	}{
		{"Members", members},
		{"AddTank", addTank},
		{"Tanks", tanks},
		{"EditTank", editTank},
		{"CloseTank", closeTank},
		{"AddEntry", addEntry},
		{"Entries", entries},
		{"Undo", undo},
		{"AddLogs", addLogs},
		{"Notes", notes},
		{"Clubs", clubs},
		{"Outlooks", outlooks},
		{"Verdicts", verdicts},
		{"Weeks", weeks},
		{"Strings", anyStrings},
		{"Trouble", trouble},
		{"AtOnce", atOnce},
	} {
		t.Run(group.name, func(t *testing.T) {
			for _, c := range group.claims {
				t.Run(c.name, func(t *testing.T) { c.check(suite{T: t, s: open(t)}) })
			}
		})
	}
	t.Run("Random", func(t *testing.T) {
		if testing.Short() {
			t.Skip("long, and one caller only, so nothing for the race detector")
		}
		random(t, open(t))
	})
}

// claim is one sentence of the contract.
type claim struct {
	name  string
	check func(suite)
}

// suite is a store under test. Its methods are for calls that must succeed.
type suite struct {
	*testing.T
	s store.Store
}

// day returns nine o'clock of a day in March 2026.
func day(n int) time.Time { return time.Date(2026, 3, n, 9, 0, 0, 0, time.UTC) }

// tankOf returns a tank to add, started on day 1.
func tankOf(club, member, name string) store.Tank {
	return store.Tank{Club: club, Member: member, Name: name, Started: day(1)}
}

// told returns an entry that happened and was told on a day.
func told(n int, key string, values ...store.Value) store.Entry {
	return store.Entry{Kind: store.KindReading, At: day(n), Recorded: day(n), Key: key, Values: values}
}

// on returns the entry, told of a tank.
func on(tank store.Tank, e store.Entry) store.Entry {
	e.Tank = tank.ID
	return e
}

// tank adds wren's tank in the club "reef" on day 1.
func (s suite) tank(name string) store.Tank {
	s.Helper()
	return s.addTank(tankOf("reef", "wren", name), told(1, "setup "+name))
}

func (s suite) addTank(t store.Tank, setup store.Entry) store.Tank {
	s.Helper()
	added, err := s.s.AddTank(s.Context(), t, setup)
	s.must(err)
	return added
}

func (s suite) addEntry(e store.Entry) (added bool) {
	s.Helper()
	added, err := s.s.AddEntry(s.Context(), e)
	s.must(err)
	return added
}

func (s suite) editTank(t store.Tank, name string, started time.Time, edit store.Entry) (added bool) {
	s.Helper()
	added, err := s.s.EditTank(s.Context(), t.ID, name, started, edit)
	s.must(err)
	return added
}

func (s suite) closeTank(t store.Tank, at time.Time, edit store.Entry) {
	s.Helper()
	s.must(s.s.CloseTank(s.Context(), t.ID, at, edit))
}

// undo takes back wren's last entry in the club "reef".
func (s suite) undo(key string, at time.Time) (store.Entry, store.Tank) {
	s.Helper()
	e, t, err := s.s.Undo(s.Context(), "reef", "wren", "", key, at)
	s.must(err)
	return e, t
}

func (s suite) tanks(club, member string) []store.Tank {
	s.Helper()
	all, err := s.s.Tanks(s.Context(), club, member)
	s.must(err)
	return all
}

func (s suite) entries(t store.Tank) []store.Entry {
	s.Helper()
	all, err := s.s.Entries(s.Context(), t.ID)
	s.must(err)
	return all
}

// now returns the tank as the store has it.
func (s suite) now(t store.Tank) store.Tank {
	s.Helper()
	for _, has := range s.tanks(t.Club, t.Member) {
		if has.ID == t.ID {
			return has
		}
	}
	s.Fatalf("tank %d is not listed", t.ID)
	return store.Tank{}
}

// must ends the test on an error.
func (s suite) must(err error) {
	s.Helper()
	if err != nil {
		s.Fatal(err)
	}
}

// wantErr ends the test unless err is want.
func (s suite) wantErr(err, want error) {
	s.Helper()
	if !errors.Is(err, want) {
		s.Fatalf("error is %v, want %v", err, want)
	}
}

// wantKeys ends the test unless the tank's entries have these keys, in order.
func (s suite) wantKeys(t store.Tank, want ...string) {
	s.Helper()
	var got []string
	for _, e := range s.entries(t) {
		got = append(got, e.Key)
	}
	wantSame(s.T, got, want)
}

// wantSame ends the test unless got and want are equal in every field.
func wantSame[T any](t failer, got, want T) {
	t.Helper()
	if !reflect.DeepEqual(got, want) {
		t.Fatalf("got  %+v\nwant %+v", got, want)
	}
}

// failer is what *testing.T and *rapid.T have in common.
type failer interface {
	Helper()
	Fatalf(format string, args ...any)
}

// canceled returns a context that is done.
func canceled() context.Context {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	return ctx
}
