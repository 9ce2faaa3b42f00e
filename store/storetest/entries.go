package storetest

import (
	"time"

	"ripen/store"
)

var addEntry = []claim{
	{"OK", func(s suite) {
		t := s.tank("Nano")
		e := on(t, told(2, "k",
			store.Value{Name: "nitrite", Typed: "5+"},
			store.Value{Name: "ammonia", Typed: "0,25", Unit: "n"},
			store.Value{Name: "temp", Typed: "77", Unit: "F"},
			store.Value{Name: "nitrite", Typed: "again"},
		))
		e.Kind = store.KindLog
		wantSame(s.T, s.addEntry(e), true)
		got := s.entries(t)[1]
		if got.ID == 0 {
			s.Error("the entry has no ID")
		}
		e.ID = got.ID
		wantSame(s.T, got, e)
	}},
	{"TimesInUTCToTheMillisecond", func(s suite) {
		t := s.tank("Nano")
		zone := time.FixedZone("", -7*3600)
		e := on(t, told(2, "k"))
		e.At = time.Date(1969, 12, 31, 16, 59, 59, 999_999_999, zone)
		e.Recorded = time.Date(2026, 3, 2, 23, 30, 0, 123_456_789, zone)
		s.addEntry(e)
		got := s.entries(t)[0] // before the setup
		wantSame(s.T, got.At, time.Date(1969, 12, 31, 23, 59, 59, 999_000_000, time.UTC))
		wantSame(s.T, got.Recorded, time.Date(2026, 3, 3, 6, 30, 0, 123_000_000, time.UTC))
	}},
	{"IDAndUndoneAreTheStores", func(s suite) {
		t := s.tank("Nano")
		e := on(t, told(2, "k"))
		e.ID, e.Undone = 1, day(3)
		s.addEntry(e)
		got := s.entries(t)
		if len(got) != 2 || got[0].ID == got[1].ID || !got[1].Undone.IsZero() {
			s.Errorf("entries are %+v, want two standing ones", got)
		}
	}},
	{"ErrNotFound", func(s suite) {
		t := s.tank("Nano")
		s.undo("u", day(2))
		for _, id := range []int64{t.ID, t.ID + 1, 0, -1} {
			e := told(2, "k")
			e.Tank = id
			added, err := s.s.AddEntry(s.Context(), e)
			s.wantErr(err, store.ErrNotFound)
			wantSame(s.T, added, false)
		}
	}},
	{"ErrClosed", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(3), told(3, "close"))
		_, err := s.s.AddEntry(s.Context(), on(t, told(2, "k")))
		s.wantErr(err, store.ErrClosed)
		s.wantKeys(t, "setup Nano", "close")
	}},
	{"KnownKeyAddsNothing", func(s suite) {
		a, b := s.tank("Nano"), s.tank("Cube")
		wantSame(s.T, s.addEntry(on(a, told(2, "k"))), true)
		wantSame(s.T, s.addEntry(on(a, told(3, "k"))), false)
		wantSame(s.T, s.addEntry(on(b, told(4, "k"))), false)
		s.wantKeys(a, "setup Nano", "k")
		s.wantKeys(b, "setup Cube")
	}},
	{"KnownKeyOfAnUndoneEntry", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "k")))
		s.undo("u", day(3))
		wantSame(s.T, s.addEntry(on(t, told(2, "k"))), false)
		s.wantKeys(t, "setup Nano")
	}},
	{"KeyOfAnUndoneEntryIsFreeAgain", func(s suite) {
		a, b := s.tank("Nano"), s.tank("Cube")
		again := told(2, "k")
		again.Again = true
		s.addEntry(on(a, told(2, "k")))
		wantSame(s.T, s.addEntry(on(b, again)), false) // it stands
		s.undo("u1", day(3))
		wantSame(s.T, s.addEntry(on(b, again)), true)
		wantSame(s.T, s.addEntry(on(a, again)), false)
		s.wantKeys(a, "setup Nano")
		s.wantKeys(b, "setup Cube", "k")
		e, _ := s.undo("u2", day(4))
		wantSame(s.T, e.Tank, b.ID)
		wantSame(s.T, s.addEntry(on(a, told(2, "k"))), false) // a delivery that comes again
		s.wantKeys(a, "setup Nano")
	}},
	{"KnownKeyOfATankClosedSince", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "k")))
		s.closeTank(t, day(3), told(3, "close"))
		wantSame(s.T, s.addEntry(on(t, told(2, "k"))), false)
	}},
	{"KnownKeyOfATankTakenBackSince", func(s suite) {
		t := s.tank("Nano")
		s.undo("u", day(2))
		wantSame(s.T, s.addEntry(on(t, told(1, "setup Nano"))), false)
	}},
	{"KeyOfAnotherClubIsNew", func(s suite) {
		a := s.tank("Nano")
		b := s.addTank(tankOf("pond", "wren", "Nano"), told(1, "setup"))
		wantSame(s.T, s.addEntry(on(a, told(2, "k"))), true)
		wantSame(s.T, s.addEntry(on(b, told(2, "k"))), true)
	}},
	{"NoKeyIsNeverKnown", func(s suite) {
		t := s.tank("Nano")
		wantSame(s.T, s.addEntry(on(t, told(2, ""))), true)
		wantSame(s.T, s.addEntry(on(t, told(2, ""))), true)
		s.wantKeys(t, "setup Nano", "", "")
	}},
}

var entries = []claim{
	{"ByAtThenID", func(s suite) {
		t := s.tank("Nano")
		for _, e := range []store.Entry{told(3, "late"), told(2, "early"), told(3, "late too"), told(2, "early too")} {
			e.Recorded = day(9)
			s.addEntry(on(t, e))
		}
		s.wantKeys(t, "setup Nano", "early", "early too", "late", "late too")
	}},
	{"OfThisTankOnly", func(s suite) {
		a, b := s.tank("Nano"), s.tank("Cube")
		s.addEntry(on(a, told(2, "a", store.Value{Name: "ph", Typed: "6"})))
		s.addEntry(on(b, told(2, "b", store.Value{Name: "ph", Typed: "8"})))
		wantSame(s.T, s.entries(b)[1].Values, []store.Value{{Name: "ph", Typed: "8"}})
		s.wantKeys(a, "setup Nano", "a")
	}},
	{"UndoneOnesLeftOut", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "a")))
		s.addEntry(on(t, told(3, "b")))
		s.undo("u", day(4))
		s.wantKeys(t, "setup Nano", "a")
	}},
	{"ErrNotFound", func(s suite) {
		t := s.tank("Nano")
		s.undo("u", day(2))
		for _, id := range []int64{t.ID, t.ID + 1, 0, -1} {
			_, err := s.s.Entries(s.Context(), id)
			s.wantErr(err, store.ErrNotFound)
		}
	}},
}
