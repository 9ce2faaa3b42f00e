package storetest

import (
	"context"

	"ripen/store"
)

// calls returns every method of a store as a call on a tank.
func calls(s store.Store, t store.Tank) map[string]func(context.Context) error {
	return map[string]func(context.Context) error{
		"Member":        func(ctx context.Context) error { _, err := s.Member(ctx, t.Club, t.Member); return err },
		"SetUnits":      func(ctx context.Context) error { return s.SetUnits(ctx, t.Club, t.Member, store.Units{}) },
		"Note":          func(ctx context.Context) error { _, err := s.Note(ctx, t.Club, "n"); return err },
		"SetNote":       func(ctx context.Context) error { return s.SetNote(ctx, t.Club, "n", "x") },
		"MemberNotes":   func(ctx context.Context) error { _, err := s.MemberNotes(ctx, t.Club, t.Member); return err },
		"Erase":         func(ctx context.Context) error { return s.Erase(ctx, t.Club, t.Member) },
		"Sweep":         func(ctx context.Context) error { return s.Sweep(ctx) },
		"Settings":      func(ctx context.Context) error { _, err := s.Settings(ctx, t.Club); return err },
		"SetSettings":   func(ctx context.Context) error { return s.SetSettings(ctx, t.Club, store.Settings{Day: "friday"}) },
		"ClubTanks":     func(ctx context.Context) error { _, err := s.ClubTanks(ctx, t.Club); return err },
		"KeepOutlook":   func(ctx context.Context) error { return s.KeepOutlook(ctx, outlookOf(t, 2)) },
		"ClubOutlooks":  func(ctx context.Context) error { _, err := s.ClubOutlooks(ctx, t.Club, day(1)); return err },
		"TankOutlooks":  func(ctx context.Context) error { _, err := s.TankOutlooks(ctx, t.ID); return err },
		"CountOutlooks": func(ctx context.Context) error { _, err := s.CountOutlooks(ctx, t.Club, "outlook"); return err },
		"Standings":     func(ctx context.Context) error { _, err := s.Standings(ctx, t.Club, false); return err },
		"Standing":      func(ctx context.Context) error { _, err := s.Standing(ctx, t.ID); return err },
		"SetVerdict":    func(ctx context.Context) error { return s.SetVerdict(ctx, store.Verdict{Tank: t.ID, At: day(2)}) },
		"Outdated":      func(ctx context.Context) error { _, err := s.Outdated(ctx, day(2)); return err },
		"AddLogs": func(ctx context.Context) error {
			_, err := s.AddLogs(ctx, t.Club, t.Member, store.Metric, []store.Log{logOf("other", "l")})
			return err
		},
		"AllClubs":    func(ctx context.Context) error { _, err := s.AllClubs(ctx); return err },
		"DigestClubs": func(ctx context.Context) error { _, err := s.DigestClubs(ctx); return err },
		"Week":        func(ctx context.Context) error { _, err := s.Week(ctx, t.Club, "w"); return err },
		"WeekBefore":  func(ctx context.Context) error { _, err := s.WeekBefore(ctx, t.Club, "w"); return err },
		"LastWeek":    func(ctx context.Context) error { _, err := s.LastWeek(ctx, t.Club); return err },
		"SetWeek":     func(ctx context.Context) error { _, err := s.SetWeek(ctx, weekOf("w")); return err },
		"DropWeek":    func(ctx context.Context) error { return s.DropWeek(ctx, t.Club, "w") },
		"AddTank": func(ctx context.Context) error {
			_, err := s.AddTank(ctx, tankOf(t.Club, t.Member, "other"), told(1, "other"))
			return err
		},
		"Tanks": func(ctx context.Context) error { _, err := s.Tanks(ctx, t.Club, t.Member); return err },
		"EditTank": func(ctx context.Context) error {
			_, err := s.EditTank(ctx, t.ID, "x", day(2), told(2, "e"))
			return err
		},
		"CloseTank": func(ctx context.Context) error { return s.CloseTank(ctx, t.ID, day(2), told(2, "c")) },
		"AddEntry":  func(ctx context.Context) error { _, err := s.AddEntry(ctx, on(t, told(2, "k"))); return err },
		"Entries":   func(ctx context.Context) error { _, err := s.Entries(ctx, t.ID); return err },
		"Undo": func(ctx context.Context) error {
			_, _, err := s.Undo(ctx, t.Club, t.Member, "", "u", day(2))
			return err
		},
	}
}

var trouble = []claim{
	{"CanceledChangesNothing", func(s suite) {
		t := s.tank("Nano")
		for name, call := range calls(s.s, t) {
			if err := call(canceled()); err == nil {
				s.Errorf("%s ran though it was canceled", name)
			} else {
				s.wantErr(err, context.Canceled)
			}
		}
		wantSame(s.T, s.tanks("reef", "wren"), []store.Tank{t})
		s.wantKeys(t, "setup Nano")
		m, err := s.s.Member(s.Context(), "reef", "wren")
		s.must(err)
		wantSame(s.T, m.Units, store.Metric)
	}},
	{"ClosedStoreRefuses", func(s suite) {
		t := s.tank("Nano")
		s.must(s.s.Close())
		for name, call := range calls(s.s, t) {
			if err := call(s.Context()); err == nil {
				s.Errorf("%s ran though the store is closed", name)
			}
		}
		s.must(s.s.Close())
	}},
}
