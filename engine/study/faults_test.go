package study

import "testing"

// TestFaults: of some faulty tanks, most are told the right cause among the first
// three; DEVELOPERS.md has many. What is told is complete.
func TestFaults(t *testing.T) {
	if testing.Short() {
		t.Skip("diagnoses six tanks")
	}
	var all tally
	for i := 0; i < len(faults); i += 3 {
		n := uint64(i) << 20
		f, ok := keepFaulty(faults[i:i+1], 8, n)
		for ; !ok; n++ {
			f, ok = keepFaulty(faults[i:i+1], 8, n+1)
		}
		told := f.asked(f.visible+8, 512)
		all.add(&Found{Causes: f.causes}, &told)
		t.Logf("%s, day %.0f: %s, %d causes, the right one in place %d", f.causes[0], told.Day, told.Verdict, len(told.Causes), told.Rank(f.causes[0]))
		for j, c := range told.Causes {
			if c.Chance < 0 || c.Chance > 1 || !(c.DaysCost >= 0) || len(c.Evidence) == 0 || c.Fix.Do == "" {
				t.Errorf("%v on day %.0f: cause %d is %+v", f.causes, told.Day, j, c)
			}
		}
	}
	if all.three < 0.65*all.tanks {
		t.Errorf("the right cause is first / among three in %s %%, want 65 among three at least", all.String())
	}
}

// TestTwins: a fault costs its tank time against its twin, and can be seen before
// the tank is done.
func TestTwins(t *testing.T) {
	for i := range faults {
		if faults[i].free {
			continue
		}
		n := uint64(i) << 20
		f, ok := keepFaulty(faults[i:i+1], 3, n)
		for ; !ok; n++ {
			f, ok = keepFaulty(faults[i:i+1], 3, n+1)
		}
		if f.done < f.without+4 || f.visible > f.done {
			t.Errorf("%s: done on day %g, visible on %g, without on %g", faults[i].cause, f.done, f.visible, f.without)
		}
	}
}
