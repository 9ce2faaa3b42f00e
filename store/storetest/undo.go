package storetest

import (
	"time"

	"ripen/store"
)

var undo = []claim{
	{"OK", func(s suite) {
		t := s.tank("Nano")
		e := on(t, told(2, "k", store.Value{Name: "ph", Typed: "7.4"}, store.Value{Name: "temp", Typed: "24", Unit: "C"}))
		s.addEntry(e)
		e.ID, e.Undone = s.entries(t)[1].ID, day(3)
		got, of := s.undo("u", day(3))
		wantSame(s.T, got, e)
		wantSame(s.T, of, t)
		s.wantKeys(t, "setup Nano")
	}},
	{"LastStoredFirst", func(s suite) {
		t := s.tank("Nano")
		for _, e := range []store.Entry{ // told late of early days, and by clocks that were set back
			{At: day(8), Recorded: day(10), Key: "fourth"},
			{At: day(2), Recorded: day(11), Key: "third"},
			{At: day(1), Recorded: day(11), Key: "second"},
			{At: day(9), Recorded: day(9), Key: "first"},
		} {
			s.addEntry(on(t, e))
		}
		for _, want := range []string{"first", "second", "third", "fourth", "setup Nano"} {
			got, _ := s.undo("u "+want, day(20))
			wantSame(s.T, got.Key, want)
		}
	}},
	{"OfAnyTank", func(s suite) {
		a, b := s.tank("Nano"), s.tank("Cube")
		s.addEntry(on(b, told(2, "b")))
		s.addEntry(on(a, told(3, "a")))
		_, of := s.undo("u1", day(4))
		wantSame(s.T, of, a)
		_, of = s.undo("u2", day(4))
		wantSame(s.T, of, b)
	}},
	{"ErrNothingLeft", func(s suite) {
		_, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u1", day(2))
		s.wantErr(err, store.ErrNothingLeft)
		s.tank("Nano")
		s.undo("u2", day(2))
		_, _, err = s.s.Undo(s.Context(), "reef", "wren", "", "u3", day(2))
		s.wantErr(err, store.ErrNothingLeft)
	}},
	{"OthersKeepTheirs", func(s suite) {
		s.addTank(tankOf("reef", "tern", "Nano"), told(3, "a"))
		s.addTank(tankOf("pond", "wren", "Nano"), told(3, "b"))
		_, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u", day(4))
		s.wantErr(err, store.ErrNothingLeft)
		wantSame(s.T, len(s.tanks("reef", "tern"))+len(s.tanks("pond", "wren")), 2)
	}},
	{"KnownKeyUndoesNothingMore", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "a")))
		s.addEntry(on(t, told(3, "b")))
		first, _ := s.undo("u", day(4))
		s.addEntry(on(t, told(5, "c")))
		again, of := s.undo("u", day(6))
		wantSame(s.T, again, first)
		wantSame(s.T, of, t)
		s.wantKeys(t, "setup Nano", "a", "c")
	}},
	{"KeyOfAnotherMemberIsNew", func(s suite) {
		s.tank("Nano")
		s.addTank(tankOf("reef", "tern", "Nano"), told(2, "other"))
		s.undo("u", day(4))
		e, _, err := s.s.Undo(s.Context(), "reef", "tern", "", "u", day(4))
		s.must(err)
		wantSame(s.T, e.Key, "other")
	}},
	{"OfTheLastOnly", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "a")))
		s.addEntry(on(t, told(3, "b")))
		_, _, err := s.s.Undo(s.Context(), "reef", "wren", "a", "u1", day(4))
		s.wantErr(err, store.ErrNotLast)
		s.wantKeys(t, "setup Nano", "a", "b")
		for range 2 { // the same delivery again
			e, _, err := s.s.Undo(s.Context(), "reef", "wren", "b", "u2", day(4))
			s.must(err)
			wantSame(s.T, e.Key, "b")
		}
		_, _, err = s.s.Undo(s.Context(), "reef", "wren", "b", "u3", day(4))
		s.wantErr(err, store.ErrNotLast)
		s.wantKeys(t, "setup Nano", "a")
		s.undo("u4", day(5))
		s.undo("u5", day(5))
		_, _, err = s.s.Undo(s.Context(), "reef", "wren", "b", "u6", day(6))
		s.wantErr(err, store.ErrNotLast)
	}},
	{"NoKeyIsNeverKnown", func(s suite) {
		t := s.tank("Nano")
		s.addEntry(on(t, told(2, "a")))
		s.addEntry(on(t, told(3, "b")))
		s.undo("", day(4))
		s.undo("", day(4))
		s.wantKeys(t, "setup Nano")
	}},
	{"EditRestoresNameAndStart", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "Cube", day(2), told(3, "edit"))
		_, of := s.undo("u", day(4))
		wantSame(s.T, of, t)
		wantSame(s.T, s.now(t), t)
	}},
	{"EditRestoresOnlyWhatItChanged", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "Cube", time.Time{}, told(3, "rename"))
		s.editTank(t, "", day(2), told(4, "restart"))
		s.undo("u1", day(5))
		wantSame(s.T, s.now(t).Name, "Cube")
		wantSame(s.T, s.now(t).Started, t.Started)
		s.undo("u2", day(6))
		wantSame(s.T, s.now(t), t)
	}},
	{"EditToldOutOfOrder", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "Cube", time.Time{}, told(9, "added first, told last"))
		s.editTank(t, "Pico", time.Time{}, told(8, "added last"))
		_, of := s.undo("u1", day(10))
		wantSame(s.T, of.Name, "Cube")
		_, of = s.undo("u2", day(10))
		wantSame(s.T, of.Name, "Nano")
	}},
	{"CloseOpensAgain", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(3), told(3, "close"))
		_, of := s.undo("u", day(4))
		wantSame(s.T, of, t)
		wantSame(s.T, s.now(t), t)
		wantSame(s.T, s.addEntry(on(t, told(5, "k"))), true)
	}},
	{"CloseErrNameTaken", func(s suite) {
		s.tank("Nano")
		s.addLogs(1, 4, closing(logOf("nano", "a"), 4, "a4"))
		t := s.tanks("reef", "wren")[1]
		_, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u", day(10))
		s.wantErr(err, store.ErrNameTaken)
		wantSame(s.T, s.now(t).Closed, day(4))
		s.wantKeys(t, "a1", "a2", "a3", "a4")
	}},
	{"SetupHidesTheTank", func(s suite) {
		kept, t := s.tank("Cube"), s.tank("Nano")
		e, of := s.undo("u", day(3))
		wantSame(s.T, e.Key, "setup Nano")
		wantSame(s.T, of, t)
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{kept})
	}},
	{"SetupIsTheLastOfItsTank", func(s suite) {
		t := s.addTank(tankOf("reef", "wren", "Nano"), told(9, "setup, told last"))
		s.addEntry(on(t, told(2, "k")))
		e, _ := s.undo("u1", day(10))
		wantSame(s.T, e.Key, "k")
		wantSame(s.T, s.now(t), t)
		s.undo("u2", day(10))
		_, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u3", day(10))
		s.wantErr(err, store.ErrNothingLeft)
	}},
	{"NoTimeIsAnError", func(s suite) {
		t := s.tank("Nano")
		if _, _, err := s.s.Undo(s.Context(), "reef", "wren", "", "u", time.Time{}); err == nil {
			s.Error("taken back at no time")
		}
		s.wantKeys(t, "setup Nano")
	}},
}
