package storetest

import "ripen/store"

var someSettings = store.Settings{Channel: "cycling", Day: "monday", Time: "18:00", Zone: "Europe/Lisbon", Digest: true, Share: true, Plain: true}

var clubs = []claim{
	{"NoSettingsAtFirst", func(s suite) { s.wantSettings("reef", store.Settings{}) }},
	{"LastSettingsCount", func(s suite) {
		s.must(s.s.SetSettings(s.Context(), "reef", someSettings))
		s.wantSettings("reef", someSettings)
		other := store.Settings{Zone: "Asia/Tokyo"}
		s.must(s.s.SetSettings(s.Context(), "reef", other))
		s.wantSettings("reef", other)
	}},
	{"SettingsOfClubsApart", func(s suite) {
		s.must(s.s.SetSettings(s.Context(), "reef", someSettings))
		s.wantSettings("pond", store.Settings{})
	}},
	{"AllWithTanks", func(s suite) {
		s.tank("nano")
		s.addTank(tankOf("pond", "tern", "cube"), told(1, "cube"))
		s.addTank(tankOf("bog", "tern", "cube"), told(1, "bog"))
		s.must(s.s.Erase(s.Context(), "bog", "tern"))
		got, err := s.s.AllClubs(s.Context())
		s.must(err)
		wantSame(s.T, got, []string{"pond", "reef"})
	}},
	{"TanksByMember", func(s suite) {
		wren := s.tank("nano")
		tern := s.addTank(tankOf("reef", "tern", "nano"), told(1, "setup tern"))
		early := tankOf("reef", "wren", "early")
		early.Started = day(1).AddDate(0, -1, 0)
		first := s.addTank(early, told(1, "setup early"))
		s.addTank(tankOf("pond", "wren", "nano"), told(1, "setup pond"))
		s.wantClubTanks("reef", tern, first, wren)
		s.wantClubTanks("nowhere")
	}},
	{"ClosedToo", func(s suite) {
		t := s.tank("nano")
		s.closeTank(t, day(3), told(3, "close"))
		s.wantClubTanks("reef", s.now(t))
	}},
	{"NotTakenBack", func(s suite) {
		s.tank("nano")
		s.undo("undo", day(2))
		s.wantClubTanks("reef")
	}},
}

func (s suite) wantSettings(club string, want store.Settings) {
	s.Helper()
	got, err := s.s.Settings(s.Context(), club)
	s.must(err)
	wantSame(s.T, got, want)
}

func (s suite) wantClubTanks(club string, want ...store.Tank) {
	s.Helper()
	got, err := s.s.ClubTanks(s.Context(), club)
	s.must(err)
	wantSame(s.T, got, want)
}
