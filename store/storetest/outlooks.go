package storetest

import (
	"math"
	"time"

	"ripen/store"
)

// outlookOf is an outlook of a tank, asked for on a day of March.
func outlookOf(t store.Tank, n int) store.Outlook {
	return store.Outlook{Tank: t.ID, Asked: "outlook", Own: true, At: day(n), Day: float64(n - 1), Stage: "ammonia", Readings: n,
		Done: [7]float64{12.5, 15, 17, 20.1, 30, math.Inf(1), math.Inf(1)}, Engine: "1", Prior: "general"}
}

var outlooks = []claim{
	{"AsGiven", func(s suite) {
		t, other := s.tank("nano"), s.addTank(tankOf("reef", "tern", "cube"), told(1, "cube"))
		pond := s.addTank(tankOf("pond", "tern", "cube"), told(1, "pond"))
		for _, o := range []store.Outlook{outlookOf(other, 2), outlookOf(t, 5), outlookOf(t, 3), outlookOf(pond, 2)} {
			s.must(s.s.KeepOutlook(s.Context(), o))
		}
		s.wantOutlooks("reef", outlookOf(t, 3), outlookOf(t, 5), outlookOf(other, 2))
		s.wantOutlooks("nowhere")
	}},
	{"Since", func(s suite) {
		t := s.tank("nano")
		for _, n := range []int{2, 3, 4} {
			s.must(s.s.KeepOutlook(s.Context(), outlookOf(t, n)))
		}
		why := outlookOf(t, 4)
		why.Asked = "why"
		s.must(s.s.KeepOutlook(s.Context(), why))
		got, err := s.s.ClubOutlooks(s.Context(), "reef", day(3))
		s.must(err)
		wantSame(s.T, got, []store.Outlook{outlookOf(t, 4), why})
		s.wantOutlooks("reef", outlookOf(t, 2), outlookOf(t, 3), outlookOf(t, 4), why)
	}},
	{"OnceAMoment", func(s suite) {
		t := s.tank("nano")
		first, again, moderator := outlookOf(t, 3), outlookOf(t, 3), outlookOf(t, 3)
		again.Stage, moderator.Own = "nitrite", false
		for _, o := range []store.Outlook{first, again, moderator} {
			s.must(s.s.KeepOutlook(s.Context(), o))
		}
		s.wantOutlooks("reef", first, moderator)
	}},
	{"ClosedToo", func(s suite) {
		t := s.tank("nano")
		s.closeTank(t, day(3), told(3, "close"))
		s.must(s.s.KeepOutlook(s.Context(), outlookOf(t, 2)))
		s.wantOutlooks("reef", outlookOf(t, 2))
	}},
	{"NotOfTankTakenBack", func(s suite) {
		t := s.tank("nano")
		s.must(s.s.KeepOutlook(s.Context(), outlookOf(t, 2)))
		s.undo("undo", day(2))
		s.wantOutlooks("reef")
		got, err := s.s.TankOutlooks(s.Context(), t.ID)
		s.must(err)
		wantSame(s.T, len(got), 0)
	}},
	{"ErrNotFound", func(s suite) {
		s.wantErr(s.s.KeepOutlook(s.Context(), store.Outlook{Tank: 1, At: day(1)}), store.ErrNotFound)
	}},
	{"Erased", func(s suite) {
		t, other := s.tank("nano"), s.addTank(tankOf("reef", "tern", "cube"), told(1, "cube"))
		s.must(s.s.KeepOutlook(s.Context(), outlookOf(t, 2)))
		s.must(s.s.KeepOutlook(s.Context(), outlookOf(other, 2)))
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		s.wantOutlooks("reef", outlookOf(other, 2))
		s.wantErr(s.s.KeepOutlook(s.Context(), outlookOf(t, 3)), store.ErrNotFound)
	}},
}

func (s suite) wantOutlooks(club string, want ...store.Outlook) {
	s.Helper()
	got, err := s.s.ClubOutlooks(s.Context(), club, time.Time{})
	s.must(err)
	wantSame(s.T, got, want)
	byTank, asked := map[int64][]store.Outlook{}, map[int64]int{}
	for _, o := range want {
		if byTank[o.Tank] = append(byTank[o.Tank], o); o.Asked == "outlook" {
			asked[o.Tank]++
		}
	}
	for tank, want := range byTank {
		got, err := s.s.TankOutlooks(s.Context(), tank)
		s.must(err)
		wantSame(s.T, got, want)
	}
	count, err := s.s.CountOutlooks(s.Context(), club, "outlook")
	s.must(err)
	wantSame(s.T, count, asked)
}

var verdicts = []claim{
	{"LastCounts", func(s suite) {
		t := s.tank("nano")
		s.wantVerdict(t, store.Verdict{})
		first := store.Verdict{Tank: t.ID, Revision: "a", At: day(2), Data: "{}"}
		s.must(s.s.SetVerdict(s.Context(), first))
		s.wantVerdict(t, first)
		second := store.Verdict{Tank: t.ID, Revision: "b", At: day(1), Data: "[]"}
		s.must(s.s.SetVerdict(s.Context(), second))
		s.wantVerdict(t, second)
	}},
	{"OpenOrClosedByMember", func(s suite) {
		wren, tern := s.tank("nano"), s.addTank(tankOf("reef", "tern", "cube"), told(1, "cube"))
		closed := s.tank("old")
		s.closeTank(closed, day(2), told(2, "close"))
		closed.Closed = day(2)
		s.addTank(tankOf("pond", "tern", "cube"), told(1, "pond"))
		for over, want := range map[bool][]store.Tank{false: {tern, wren}, true: {closed}} {
			all, err := s.s.Standings(s.Context(), "reef", over)
			s.must(err)
			var got []store.Tank
			for _, x := range all {
				got = append(got, x.Tank)
			}
			wantSame(s.T, got, want)
		}
		wantSame(s.T, s.standing(closed).Tank, closed)
	}},
	{"NotOfTankTakenBack", func(s suite) {
		t := s.tank("nano")
		s.must(s.s.SetVerdict(s.Context(), store.Verdict{Tank: t.ID, At: day(1)}))
		s.undo("undo", day(2))
		for _, over := range []bool{false, true} {
			all, err := s.s.Standings(s.Context(), "reef", over)
			s.must(err)
			wantSame(s.T, len(all), 0)
		}
		_, err := s.s.Standing(s.Context(), t.ID)
		s.wantErr(err, store.ErrNotFound)
	}},
	{"RevisionOfEachState", func(s suite) {
		t := s.tank("nano")
		seen := map[string]bool{}
		step := func(what string) {
			s.Helper()
			now, again := s.standing(t), s.standing(t)
			if now.Revision != again.Revision || seen[now.Revision] {
				s.Fatalf("after %s the revision is %q, then %q; before were %v", what, now.Revision, again.Revision, seen)
			}
			seen[now.Revision] = true
		}
		step("setup")
		s.addEntry(on(t, told(4, "a")))
		step("a")
		s.addEntry(on(t, told(3, "b")))
		step("b")
		s.undo("1", day(5)) // back to a
		step("undo")
		s.addEntry(on(t, told(4, "c")))
		step("c")
		s.editTank(t, "cube", day(1), told(6, "d"))
		step("edit")
	}},
	{"Outdated", func(s suite) {
		fresh, talked, old, none := s.tank("fresh"), s.tank("talked"), s.tank("old"), s.tank("none")
		over, ended := s.tank("over"), s.tank("ended") // both closed, the first after its verdict
		s.closeTank(ended, day(2), told(2, "close"))
		for i, t := range []store.Tank{fresh, talked, old, ended, over} {
			s.must(s.s.SetVerdict(s.Context(), store.Verdict{Tank: t.ID, Revision: s.standing(t).Revision, At: day(max(6-2*i, 1))}))
		}
		s.addEntry(on(talked, told(2, "more")))
		s.closeTank(over, day(2), told(2, "closed"))
		got, err := s.s.Outdated(s.Context(), day(3))
		s.must(err)
		wantSame(s.T, got, []int64{none.ID, over.ID, old.ID, talked.ID})
	}},
	{"ErrNotFound", func(s suite) {
		s.wantErr(s.s.SetVerdict(s.Context(), store.Verdict{Tank: 1, At: day(1)}), store.ErrNotFound)
		_, err := s.s.Standing(s.Context(), 1)
		s.wantErr(err, store.ErrNotFound)
	}},
	{"Erased", func(s suite) {
		t := s.tank("nano")
		s.must(s.s.SetVerdict(s.Context(), store.Verdict{Tank: t.ID, At: day(1)}))
		s.must(s.s.Erase(s.Context(), "reef", "wren"))
		s.wantErr(s.s.SetVerdict(s.Context(), store.Verdict{Tank: t.ID, At: day(1)}), store.ErrNotFound)
	}},
}

func (s suite) standing(t store.Tank) store.Standing {
	s.Helper()
	got, err := s.s.Standing(s.Context(), t.ID)
	s.must(err)
	return got
}

func (s suite) wantVerdict(t store.Tank, want store.Verdict) {
	s.Helper()
	wantSame(s.T, s.standing(t).Verdict, want)
}
