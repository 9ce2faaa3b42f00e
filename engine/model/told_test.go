package model

import (
	"math"
	"testing"

	"ripen/engine/unit"
)

// readSo is a tank whose ammonia was read every so many days, as value says.
func readSo(days, every float64, value func(day float64) float64) *Plan {
	c := Case{Setup: Typical(Setup{Volume: 60, PH: 7.4, KH: unit.DKH(6).CaCO3(), Temp: 24})}
	for d := every; d <= days; d += every {
		v := value(d)
		c.Readings = append(c.Readings, Reading{Day: unit.Days(d), Ammonia: &Seen{Low: v, High: v}})
	}
	return NewPlan(c, unit.Days(days))
}

// tellsInAll is how many independent readings it holds.
func tellsInAll(p *Plan) (sum float64) {
	for i := range p.Case.Readings {
		sum += p.Tells(i)[unit.Ammonia]
	}
	return sum
}

func nought(float64) float64 { return 0 }

// TestTellsByTime: how much the same value tells in all goes by how long it was read, not by how
// often, and after the first week of it by the logarithm of that.
func TestTellsByTime(t *testing.T) {
	for _, days := range []float64{30, 60, 240} {
		daily := tellsInAll(readSo(days, 1, nought))
		for _, every := range []float64{0.25, 0.5, 2} {
			if got := tellsInAll(readSo(days, every, nought)); math.Abs(got-daily) > 0.12*daily {
				t.Errorf("%g days of noughts every %g days tell %.2f readings, daily ones %.2f", days, every, got, daily)
			}
		}
		// One, then a third a day up to 3/steady days, then 1/(steady·t) a day.
		even := lasting[unit.Ammonia] / steady
		want := 1 + 1/steady*(1+math.Log(days/even))
		if math.Abs(daily-want) > 0.12*want {
			t.Errorf("%g days of noughts tell %.2f readings, want about %.2f", days, daily, want)
		}
	}
}

// TestTellsOfChange: however long the same was read, a value that differs tells as much as it would
// after a week of it, and what was passed by before it takes nothing from it.
func TestTellsOfChange(t *testing.T) {
	for _, days := range []float64{7, 40, 300} {
		p := readSo(days, 1, func(d float64) float64 {
			if d > days-1 {
				return 2
			}
			return 0
		})
		n := len(p.Case.Readings)
		if got := p.Tells(n - 1)[unit.Ammonia]; got < 1./3-1e-9 {
			t.Errorf("ammonia of 2 mg/L after %g days of noughts tells %.3f of a reading, want a third at least", days-1, got)
		}
	}
}

// TestPassedBy: runs do not stop for a value that was read before and tells nothing, and which
// ones these are depends on nothing that comes later.
func TestPassedBy(t *testing.T) {
	const days = 200
	whole := readSo(days, 1, nought)
	part := readSo(days/2, 1, nought)
	for i := range part.Case.Readings {
		if whole.Tells(i) != part.Tells(i) {
			t.Fatalf("reading %d tells %v, or %v in a log that goes on", i, part.Tells(i), whole.Tells(i))
		}
	}
	par := Central()
	stops, heard := 0, 0
	whole.Start(&par).To(days, func(i int, _ *Run) bool {
		stops++
		if whole.Tells(i)[unit.Ammonia] == 0 {
			t.Errorf("stopped at reading %d, which tells nothing", i)
		}
		return true
	})
	for i := range whole.Case.Readings {
		if whole.Tells(i)[unit.Ammonia] > 0 {
			heard++
		}
	}
	if stops != heard || stops > days/3 {
		t.Errorf("%d stops for %d readings that tell something, of %d; want as many, and a third of these at most", stops, heard, days)
	}
	all := 0
	whole.Independent().Start(&par).To(days, func(int, *Run) bool { all++; return true })
	if all != days {
		t.Errorf("%d of %d independent readings are stopped for", all, days)
	}

	// A pH is taken for measured each time.
	ph := 7.4
	c := whole.Case
	c.Readings = append([]Reading(nil), c.Readings...)
	for i := range c.Readings {
		c.Readings[i].PH = &ph
	}
	all = 0
	NewPlan(c, days).Start(&par).To(days, func(int, *Run) bool { all++; return true })
	if all != days {
		t.Errorf("%d of %d readings of pH are stopped for", all, days)
	}
}
