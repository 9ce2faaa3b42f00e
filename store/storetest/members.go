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
}
