package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// TestEventsAreHit: an event changes the state of its own moment and no other.
// A tank with the event, and one without, are the same to the bit until then,
// and differ right after by just what the event does.
func TestEventsAreHit(t *testing.T) {
	const day = 13.37 // in the middle of a steep fall of ammonia
	for _, x := range []struct {
		name  string
		event Event
		want  func(s *State) // what the event does
	}{
		{"dose", dose(1.25), func(s *State) { s.TAN += 1.25; s.Alk += 1.25 / unit.MolarN }},
		{"salt", Event{Kind: Dose, N: 0.5, Salt: true}, func(s *State) { s.TAN += 0.5 }},
		{"buffer", Event{Kind: Buffer, Alk: unit.DKH(2).CaCO3()}, func(s *State) { s.Alk += float64(unit.DKH(2).CaCO3().Meq()) }},
		{"food", Event{Kind: FeedOnce, Mass: 0.5}, func(s *State) { s.Org += 0.8 * 64 * 0.5 / 60 }},
		{"change", changed(0.5, Yes), func(s *State) {
			kh := float64(typicalCase().Setup.KH.Meq())
			s.TAN, s.NO2, s.NO3, s.Alk = s.TAN/2, s.NO2/2, s.NO3/2+0.5, s.Alk+0.5*(kh-s.Alk)
		}},
		{"cleaned", Event{Kind: Cleaned}, func(s *State) {
			for i := range s.B {
				s.Org += 0.25 * s.B[i]
				s.B[i] -= 0.25 * s.B[i]
			}
		}},
	} {
		par := typicalParams()
		run := func(extra ...Event) (before, after State) {
			c := typicalCase()
			c.Events = join(daily(dose(1.5), 0, 13, 1.5), extra)
			r := NewPlan(c, 20).Start(&par)
			r.To(math.Nextafter(day, 0), nil)
			before = r.State
			r.To(day, nil)
			if r.Day != day {
				t.Fatalf("%s: stopped on day %v, want %v", x.name, r.Day, day)
			}
			return before, r.State
		}
		e := x.event
		e.Day = day
		plain, _ := run()
		before, after := run(e)
		if before != plain {
			t.Errorf("%s: the state before the event is not as without it:\n%+v\n%+v", x.name, before, plain)
		}
		want := before
		x.want(&want)
		for i, v := range after.pools() {
			if w := *want.pools()[i]; math.Abs(*v-w) > 1e-12*max(math.Abs(w), 1e-3) {
				t.Errorf("%s: %s is %.15g after the event, want %.15g", x.name, poolNames[i], *v, w)
			}
		}
		if after == before {
			t.Errorf("%s: nothing happened", x.name)
		}
	}
}
