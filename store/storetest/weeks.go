package storetest

import (
	"sync"
	"sync/atomic"

	"ripen/store"
)

// weekOf is a week that somebody sets out to post.
func weekOf(name string) store.Week {
	return store.Week{Club: "reef", Name: name, Claimed: day(2)}
}

var weeks = []claim{
	{"NoneAtFirst", func(s suite) {
		s.wantWeek("2026-W10", store.Week{Club: "reef", Name: "2026-W10"})
		last, err := s.s.LastWeek(s.Context(), "reef")
		s.must(err)
		wantSame(s.T, last, store.Week{})
	}},
	{"InTurn", func(s suite) {
		w := weekOf("2026-W10")
		s.setWeek(w, true)
		s.setWeek(w, false)
		w.Turn, w.Sent = 1, day(3)
		s.wantWeek(w.Name, store.Week{Club: "reef", Name: w.Name, Turn: 1, Claimed: day(2)})
		s.setWeek(w, true)
		w.Turn, w.Ended, w.Trouble = 2, day(4), "no channel"
		s.setWeek(w, true)
		w.Turn = 3
		s.wantWeek(w.Name, w)
		s.setWeek(store.Week{Club: "reef", Name: "2026-W11", Turn: 1, Claimed: day(2)}, false)
	}},
	{"LastByName", func(s suite) {
		for _, name := range []string{"2026-W53", "2027-W01", "2026-W09"} {
			s.setWeek(weekOf(name), true)
		}
		other := weekOf("2028-W01")
		other.Club = "pond"
		s.setWeek(other, true)
		last, err := s.s.LastWeek(s.Context(), "reef")
		s.must(err)
		wantSame(s.T, last.Name, "2027-W01")
		for name, want := range map[string]string{"2027-W01": "2026-W53", "2026-W30": "2026-W09", "2026-W09": "", "2028-W02": "2027-W01"} {
			before, err := s.s.WeekBefore(s.Context(), "reef", name)
			s.must(err)
			wantSame(s.T, before.Name, want)
		}
	}},
	{"Dropped", func(s suite) {
		s.setWeek(weekOf("2026-W10"), true)
		s.must(s.s.DropWeek(s.Context(), "reef", "2026-W10"))
		s.must(s.s.DropWeek(s.Context(), "reef", "2026-W10"))
		s.setWeek(weekOf("2026-W10"), true)
	}},
	{"OneOfManyWins", func(s suite) {
		var won atomic.Int32
		var wg sync.WaitGroup
		for range 16 {
			wg.Go(func() {
				if ok, err := s.s.SetWeek(s.Context(), weekOf("2026-W10")); err != nil {
					s.Error(err)
				} else if ok {
					won.Add(1)
				}
			})
		}
		wg.Wait()
		if won.Load() != 1 {
			s.Errorf("%d claimed the week", won.Load())
		}
	}},
	{"ClubsThatWant", func(s suite) {
		for club, wants := range map[string]bool{"reef": true, "pond": false, "bog": true} {
			x := someSettings
			x.Digest = wants
			s.must(s.s.SetSettings(s.Context(), club, x))
		}
		clubs, err := s.s.DigestClubs(s.Context())
		s.must(err)
		wantSame(s.T, clubs, []string{"bog", "reef"})
	}},
}

func (s suite) setWeek(w store.Week, want bool) {
	s.Helper()
	won, err := s.s.SetWeek(s.Context(), w)
	s.must(err)
	wantSame(s.T, won, want)
}

func (s suite) wantWeek(name string, want store.Week) {
	s.Helper()
	got, err := s.s.Week(s.Context(), "reef", name)
	s.must(err)
	wantSame(s.T, got, want)
}
