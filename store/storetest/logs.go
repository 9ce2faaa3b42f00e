package storetest

import (
	"time"

	"ripen/store"
)

// logOf is a tank with a set-up and two readings, whose keys begin with a word.
func logOf(name, key string) store.Log {
	return store.Log{Tank: store.Tank{Name: name, Started: day(1)}, Entries: []store.Entry{
		{Kind: store.KindSetup, At: day(1), Recorded: day(1), Key: key + "1"}, told(2, key+"2"), told(3, key+"3")}}
}

// closing is the log, closed on a day.
func closing(l store.Log, n int, key string) store.Log {
	l.Tank.Closed = day(n)
	e := told(n, key, store.Value{Name: "closed", Typed: "yes"})
	e.Kind = store.KindEdit
	l.Entries = append(l.Entries, e)
	return l
}

var units = store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}

var addLogs = []claim{
	{"AllOfThem", func(s suite) {
		s.addLogs(2, 7, logOf("nano", "a"), closing(logOf("old", "b"), 4, "b4"))
		all := s.tanks("reef", "wren")
		wantSame(s.T, len(all), 2)
		wantSame(s.T, all[0].Closed.IsZero(), true)
		wantSame(s.T, all[1].Closed, day(4))
		s.wantKeys(all[0], "a1", "a2", "a3")
		s.wantKeys(all[1], "b1", "b2", "b3", "b4")
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m.Units, units)
	}},
	{"OnceEach", func(s suite) {
		s.addLogs(1, 3, logOf("nano", "a"))
		s.addLogs(0, 0, logOf("nano", "a"))
		longer := logOf("nano", "a")
		longer.Entries = append(longer.Entries, told(5, "a5"))
		s.addLogs(0, 1, longer)
		s.wantKeys(s.tanks("reef", "wren")[0], "a1", "a2", "a3", "a5")
	}},
	{"UnitsForWhoHasNone", func(s suite) {
		logs := []store.Log{logOf("nano", "a")}
		s.must(s.s.SetUnits(s.Context(), "pond", "wren", store.Metric)) // another club's
		first, err := s.s.AddLogs(s.Context(), "reef", "wren", units, logs)
		s.must(err)
		wantSame(s.T, first.Units, true)
		for range 2 { // as of the file, then as the member said
			m, err := s.s.Member(s.Context(), "reef", "wren")
			s.must(err)
			again, err := s.s.AddLogs(s.Context(), "reef", "wren", store.Metric, logs)
			s.must(err)
			wantSame(s.T, again.Units, false)
			now, err := s.s.Member(s.Context(), "reef", "wren")
			s.must(err)
			wantSame(s.T, now, m)
			s.must(s.s.SetUnits(s.Context(), "reef", "wren", store.Units{Volume: "impgal", Temp: "C", KH: "meq", Scale: "ion"}))
		}
	}},
	{"CorrectedSince", func(s suite) {
		s.addLogs(1, 3, logOf("nano", "a"))
		longer := logOf("cube", "a")
		longer.Tank.Started = day(1).AddDate(0, 0, -9)
		edit := told(5, "a5", store.Value{Name: "name", Typed: "cube"}, store.Value{Name: "started", Typed: "nine days earlier"})
		edit.Kind = store.KindEdit
		longer.Entries = append(longer.Entries, edit)
		s.addLogs(0, 1, longer)
		t := s.tanks("reef", "wren")[0]
		wantSame(s.T, t.Name, "cube")
		wantSame(s.T, t.Started, longer.Tank.Started)
		own := told(6, "own")
		s.editTank(t, "pond", time.Time{}, own)
		s.addLogs(0, 0, longer) // which tells nothing new of the name
		wantSame(s.T, s.now(t).Name, "pond")
		s.undo("u1", day(9))
		s.undo("u2", day(9))
		wantSame(s.T, s.now(t).Name, "nano")
		wantSame(s.T, s.now(t).Started, day(1))
		s.tank("Cube")
		_, err := s.s.AddLogs(s.Context(), "reef", "wren", units, []store.Log{longer})
		s.wantErr(err, store.ErrNameTaken)
		wantSame(s.T, s.now(t).Name, "nano")
	}},
	{"NothingMoreOnceClosed", func(s suite) {
		s.addLogs(1, 4, closing(logOf("nano", "a"), 4, "a4"))
		longer := logOf("nano", "a")
		longer.Entries = append(longer.Entries, told(5, "a5"))
		s.addLogs(0, 0, longer)
	}},
	{"OpenNameTakenChangesNothing", func(s suite) {
		t := s.tank("Nano")
		_, err := s.s.AddLogs(s.Context(), "reef", "wren", units, []store.Log{logOf("other", "b"), logOf("nano", "a")})
		s.wantErr(err, store.ErrNameTaken)
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{t})
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m.Units, store.Metric)
	}},
	{"ClosedNameMayRepeat", func(s suite) {
		s.tank("nano")
		s.addLogs(1, 4, closing(logOf("nano", "a"), 4, "a4"))
	}},
	{"UndoneBeforeWhatWasToldHere", func(s suite) {
		own := s.addTank(tankOf("reef", "wren", "own"), told(9, "own"))
		s.addLogs(1, 3, logOf("nano", "a"))
		for _, want := range []string{"a3", "a2", "a1", "own"} {
			e, _ := s.undo("u "+want, day(10))
			wantSame(s.T, e.Key, want)
		}
		wantSame(s.T, s.tanks(own.Club, own.Member), nil)
	}},
	{"AgainAfterUndo", func(s suite) {
		logs := closing(logOf("nano", "a"), 4, "a4")
		s.addLogs(1, 4, logs)
		s.undo("u1", day(9)) // the closing
		s.undo("u2", day(9))
		s.addLogs(0, 2, logs)
		t := s.tanks("reef", "wren")[0]
		wantSame(s.T, t.Closed, day(4))
		s.wantKeys(t, "a1", "a2", "a3", "a4")
		for _, key := range []string{"u3", "u4", "u5", "u6"} {
			s.undo(key, day(9))
		}
		s.addLogs(1, 4, logs)
		again := s.tanks("reef", "wren")
		wantSame(s.T, len(again), 1)
		s.wantKeys(again[0], "a1", "a2", "a3", "a4")
		s.addLogs(0, 0, logs)
	}},
	{"AgainInVainChangesNothing", func(s suite) {
		s.addLogs(1, 3, logOf("nano", "a"))
		s.undo("u1", day(9))
		s.tank("Cube")
		_, err := s.s.AddLogs(s.Context(), "reef", "wren", units, []store.Log{logOf("nano", "a"), logOf("cube", "b")})
		s.wantErr(err, store.ErrNameTaken)
		s.wantKeys(s.tanks("reef", "wren")[0], "a1", "a2")
		s.addLogs(0, 1, logOf("nano", "a"))
	}},
	{"UndoneOneByOne", func(s suite) {
		s.addLogs(1, 4, closing(logOf("nano", "a"), 4, "a4"))
		s.undo("u1", day(9))
		wantSame(s.T, s.tanks("reef", "wren")[0].Closed.IsZero(), true)
		s.undo("u2", day(9))
		s.wantKeys(s.tanks("reef", "wren")[0], "a1", "a2")
	}},
}

func (s suite) addLogs(tanks, entries int, logs ...store.Log) {
	s.Helper()
	added, err := s.s.AddLogs(s.Context(), "reef", "wren", units, logs)
	s.must(err)
	wantSame(s.T, [2]int{added.Tanks, added.Entries}, [2]int{tanks, entries})
}
