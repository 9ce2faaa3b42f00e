package storetest

import (
	"time"

	"ripen/store"
)

var addTank = []claim{
	{"OK", func(s suite) {
		setup := told(2, "k", store.Value{Name: "volume", Typed: "60", Unit: "L"}, store.Value{Name: "ph", Typed: "7,6"})
		t := s.addTank(tankOf("reef", "wren", "Nano"), setup)
		if t.ID == 0 {
			s.Error("the tank has no ID")
		}
		wantSame(s.T, t, store.Tank{ID: t.ID, Club: "reef", Member: "wren", Name: "Nano", Started: day(1)})
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{t})
		got := s.entries(t)
		if len(got) != 1 || got[0].ID == 0 {
			s.Fatalf("entries are %+v, want the setup with an ID", got)
		}
		setup.ID, setup.Tank, setup.Kind = got[0].ID, t.ID, store.KindSetup
		wantSame(s.T, got[0], setup)
	}},
	{"OpenWhateverItSays", func(s suite) {
		closed := tankOf("reef", "wren", "Nano")
		closed.ID, closed.Closed = 99, day(3)
		t := s.addTank(closed, told(1, "k"))
		if !t.Closed.IsZero() {
			s.Errorf("closed at %v, want open", t.Closed)
		}
	}},
	{"ErrNameTaken", func(s suite) {
		t := s.addTank(tankOf("reef", "wren", "Straße"), told(1, "k"))
		for _, name := range []string{"Straße", "STRASSE", "strasse"} {
			_, err := s.s.AddTank(s.Context(), tankOf("reef", "wren", name), told(2, "other "+name))
			s.wantErr(err, store.ErrNameTaken)
		}
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{t})
	}},
	{"ErrNameTakenWhateverTheKey", func(s suite) {
		s.addTank(tankOf("reef", "wren", "Nano"), told(1, "k"))
		_, err := s.s.AddTank(s.Context(), tankOf("reef", "wren", "Nano"), told(1, "k"))
		s.wantErr(err, store.ErrNameTaken)
	}},
	{"NameOfOthersIsFree", func(s suite) {
		s.addTank(tankOf("reef", "wren", "Nano"), told(1, "a"))
		s.addTank(tankOf("reef", "tern", "Nano"), told(1, "b"))
		s.addTank(tankOf("pond", "wren", "Nano"), told(1, "a"))
	}},
	{"NameOfAClosedTankIsFree", func(s suite) {
		s.closeTank(s.tank("Nano"), day(2), told(2, "close"))
		s.addTank(tankOf("reef", "wren", "Nano"), told(3, "again"))
	}},
	{"NameOfATankTakenBackIsFree", func(s suite) {
		s.tank("Nano")
		s.undo("u", day(2))
		s.addTank(tankOf("reef", "wren", "Nano"), told(3, "again"))
	}},
	{"KnownKeyAddsNothing", func(s suite) {
		t := s.addTank(tankOf("reef", "wren", "Nano"), told(1, "k"))
		s.editTank(t, "Cube", time.Time{}, told(2, "rename"))
		again := s.addTank(tankOf("reef", "wren", "Nano"), told(1, "k"))
		wantSame(s.T, again, s.now(t))
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{again})
	}},
}

var tanks = []claim{
	{"NoneAtFirst", func(s suite) {
		if all := s.tanks("reef", "wren"); len(all) != 0 {
			s.Errorf("tanks are %+v, want none", all)
		}
	}},
	{"ByStartThenID", func(s suite) {
		add := func(name string, started time.Time) store.Tank {
			t := tankOf("reef", "wren", name)
			t.Started = started
			return s.addTank(t, told(9, "setup "+name))
		}
		late, early, alike := add("late", day(5)), add("early", day(2)), add("alike", day(2))
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{early, alike, late})
	}},
	{"ClosedOnesToo", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(4), told(5, "close"))
		t.Closed = day(4)
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{t})
	}},
}

var editTank = []claim{
	{"OK", func(s suite) {
		t := s.tank("Nano")
		edit := told(3, "edit", store.Value{Name: "temp", Typed: "77F"})
		if !s.editTank(t, "Cube", day(2), edit) {
			s.Error("the edit was not added")
		}
		t.Name, t.Started = "Cube", day(2)
		wantSame(s.T, s.now(t), t)
		got := s.entries(t)[1]
		edit.ID, edit.Tank, edit.Kind = got.ID, t.ID, store.KindEdit
		wantSame(s.T, got, edit)
	}},
	{"ZeroStays", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "", time.Time{}, told(3, "edit"))
		wantSame(s.T, s.now(t), t)
		s.wantKeys(t, "setup Nano", "edit")
	}},
	{"OwnNameInOtherCase", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "NANO", time.Time{}, told(3, "edit"))
		wantSame(s.T, s.now(t).Name, "NANO")
	}},
	{"OldNameIsFree", func(s suite) {
		s.editTank(s.tank("Nano"), "Cube", time.Time{}, told(3, "edit"))
		s.addTank(tankOf("reef", "wren", "Nano"), told(3, "other"))
	}},
	{"ErrNameTaken", func(s suite) {
		t := s.tank("Nano")
		s.tank("Cube")
		added, err := s.s.EditTank(s.Context(), t.ID, "cube", day(3), told(3, "edit"))
		s.wantErr(err, store.ErrNameTaken)
		wantSame(s.T, added, false)
		wantSame(s.T, s.now(t), t)
		s.wantKeys(t, "setup Nano")
	}},
	{"ErrNotFound", func(s suite) {
		t := s.tank("Nano")
		s.undo("u", day(2))
		for _, id := range []int64{t.ID, t.ID + 1, 0, -1} {
			_, err := s.s.EditTank(s.Context(), id, "Cube", day(3), told(3, "edit"))
			s.wantErr(err, store.ErrNotFound)
		}
	}},
	{"ErrClosed", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(2), told(2, "close"))
		_, err := s.s.EditTank(s.Context(), t.ID, "Cube", day(3), told(3, "edit"))
		s.wantErr(err, store.ErrClosed)
		wantSame(s.T, s.now(t).Name, "Nano")
	}},
	{"KnownKeyChangesNothing", func(s suite) {
		t := s.tank("Nano")
		s.editTank(t, "Cube", time.Time{}, told(2, "edit"))
		s.editTank(t, "Pico", time.Time{}, told(3, "edit 2"))
		wantSame(s.T, s.editTank(t, "Cube", time.Time{}, told(2, "edit")), false)
		wantSame(s.T, s.now(t).Name, "Pico")
		s.wantKeys(t, "setup Nano", "edit", "edit 2")
	}},
}

var closeTank = []claim{
	{"OK", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(3), told(4, "close"))
		wantSame(s.T, s.now(t).Closed, day(3))
		s.wantKeys(t, "setup Nano", "close")
		wantSame(s.T, s.entries(t)[1].Kind, store.KindEdit)
	}},
	{"ErrClosed", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(3), told(3, "close"))
		s.wantErr(s.s.CloseTank(s.Context(), t.ID, day(4), told(4, "again")), store.ErrClosed)
		wantSame(s.T, s.now(t).Closed, day(3))
	}},
	{"ErrNotFound", func(s suite) {
		t := s.tank("Nano")
		s.undo("u", day(2))
		for _, id := range []int64{t.ID, t.ID + 1} {
			s.wantErr(s.s.CloseTank(s.Context(), id, day(3), told(3, "close")), store.ErrNotFound)
		}
	}},
	{"KnownKeyChangesNothing", func(s suite) {
		t := s.tank("Nano")
		s.closeTank(t, day(3), told(3, "close"))
		s.closeTank(t, day(4), told(4, "close"))
		wantSame(s.T, s.now(t).Closed, day(3))
	}},
	{"NoTimeIsAnError", func(s suite) {
		t := s.tank("Nano")
		if err := s.s.CloseTank(s.Context(), t.ID, time.Time{}, told(3, "close")); err == nil {
			s.Error("closed at no time")
		}
		wantSame(s.T, s.now(t), t)
		s.wantKeys(t, "setup Nano")
	}},
}
