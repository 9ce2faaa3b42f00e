package storetest

import "ripen/store"

var members = []claim{
	{"MetricAtFirst", func(s suite) {
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m, store.Member{Club: "reef", ID: "wren", Units: store.Metric})
	}},
	{"OK", func(s suite) {
		u := store.Units{Volume: "impgal", Temp: "F", KH: "meq", Scale: "n"}
		s.must(s.s.SetUnits(s.Context(), "reef", "wren", u))
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m, store.Member{Club: "reef", ID: "wren", Units: u})
	}},
	{"LastUnitsCount", func(s suite) {
		s.must(s.s.SetUnits(s.Context(), "reef", "wren", store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}))
		s.must(s.s.SetUnits(s.Context(), "reef", "wren", store.Metric))
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m.Units, store.Metric)
	}},
	{"ClubsApart", func(s suite) {
		s.must(s.s.SetUnits(s.Context(), "reef", "wren", store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}))
		m, err := s.s.Member(s.Context(), "pond", "wren")
		s.must(err)
		wantSame(s.T, m.Units, store.Metric)
	}},
	{"EraseAll", func(s suite) {
		s.must(s.s.SetUnits(s.Context(), "reef", "wren", store.Units{Volume: "gal", Temp: "F", KH: "ppm", Scale: "n"}))
		t, other := s.tank("Nano"), s.addTank(tankOf("reef", "tern", "Nano"), told(1, "tern"))
		pond := s.addTank(tankOf("pond", "wren", "Nano"), told(1, "pond"))
		s.addEntry(on(t, told(2, "slip", store.Value{Name: "ph", Typed: "7"})))
		s.undo("u", day(3))
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m.Units, store.Metric)
		s.wantClubTanks("reef", other)
		s.wantClubTanks("pond", pond)
		_, err = s.s.Entries(s.Context(), t.ID)
		s.wantErr(err, store.ErrNotFound)
		_, err = s.s.AddEntry(s.Context(), on(t, told(4, "later")))
		s.wantErr(err, store.ErrNotFound)
		_, _, err = s.s.Undo(s.Context(), "reef", "wren", "", "u", day(5))
		s.wantErr(err, store.ErrNothingLeft)
	}},
	{"EraseNotes", func(s suite) {
		for name, text := range map[string]string{"form/wren": "x", "form/tern": "for wren", "tie/12": "1 wren", "tie/13": "2 tern"} {
			s.must(s.s.SetNote(s.Context(), "reef", name, text))
			s.must(s.s.SetNote(s.Context(), "pond", name, text))
		}
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		s.wantNote("reef", "form/wren", "")
		s.wantNote("reef", "tie/12", "")
		s.wantNote("reef", "form/tern", "for wren")
		s.wantNote("reef", "tie/13", "2 tern")
		s.wantNote("pond", "form/wren", "x")
		s.wantNote("pond", "tie/12", "1 wren")
	}},
	{"EraseFreesKeysAndNames", func(s suite) {
		first := s.tank("Nano")
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		again := s.tank("Nano")
		if again.ID == first.ID {
			s.Error("the new tank has the number of the erased one")
		}
		s.wantKeys(again, "setup Nano")
	}},
}
