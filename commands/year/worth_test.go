package year

import (
	"math"
	"strings"
	"testing"

	"ripen/commands"
	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/engine/unit"
)

// about is a forecast of one day, with an 80 % range of ten days to both sides.
func about(day float64) [7]float64 {
	return [7]float64{day - 15, day - 10, day - 5, day, day + 5, day + 10, day + 15}
}

// A certain forecast scores the days that it is off; an even one what its formula says, less
// some, as seven levels are few; and what is past the horizon counts as the horizon, of forecasts and of truths.
func TestScores(t *testing.T) {
	sure := [7]float64{20, 20, 20, 20, 20, 20, 20}
	endless := math.Inf(1)
	even := [7]float64{1.5, 6, 15, 30, 45, 54, 58.5} // over 0 to 60
	for _, tt := range []struct {
		done            [7]float64
		truth           float64
		crps, tolerance float64
		interval        float64
	}{
		{sure, 26, 6, 1e-12, 60}, {sure, 17, 3, 1e-12, 30},
		{even, 30, 60. / 12, 0.75, 48}, {even, 60, 60. / 3, 0.75, 48 + 60}, {even, 15, (15*15*15 + 45*45*45) / (3 * 60 * 60.), 0.75, 48},
		{[7]float64{endless, endless, endless, endless, endless, endless, endless}, 180, 0, 1e-12, 0},
		{[7]float64{30, 30, 30, endless, endless, endless, endless}, 170, 21.34375, 1e-9, 150},
	} {
		if got := crps(tt.done, tt.truth); math.Abs(got-tt.crps) > tt.tolerance {
			t.Errorf("the score of %v is %g where the truth is %g, want %g", tt.done, got, tt.truth, tt.crps)
		}
		if got := intervalScore(tt.done, tt.truth); got != tt.interval {
			t.Errorf("the interval score of %v is %g where the truth is %g, want %g", tt.done, got, tt.truth, tt.interval)
		}
	}
}

// Nobody scores better than by the right quantiles: where truths are even over 0 to 60,
// those that are shifted, wider or narrower score worse.
func TestScoreIsProper(t *testing.T) {
	score := func(shift, width float64) (s float64) {
		var done [7]float64
		for i, q := range []float64{1.5, 6, 15, 30, 45, 54, 58.5} {
			done[i] = 30 + shift + width*(q-30)
		}
		for i := range 600 {
			s += crps(done, (float64(i)+0.5)/10) / 600
		}
		return s
	}
	right := score(0, 1)
	for _, wrong := range [][2]float64{{3, 1}, {-3, 1}, {0, 1.2}, {0, 0.8}, {0, 0}} {
		if got := score(wrong[0], wrong[1]); got <= right {
			t.Errorf("%v scores %g, and what is right %g", wrong, got, right)
		}
	}
}

// Outlooks are told apart by what was known, a tank counts once in each row however often
// it was asked about, and those from after it was done not at all.
func TestWorth(t *testing.T) {
	rows := WorthOf([]Taught{
		{Member: "a", Done: [2][7]float64{about(40), about(30)}, Truth: 30},
		{Member: "b", Done: [2][7]float64{about(50), about(60)}, Truth: 50},
		{Member: "a", Day: 10, Readings: 3, Done: [2][7]float64{about(50), about(32)}, Truth: 30},
		{Member: "a", Day: 15, Readings: 4, Done: [2][7]float64{about(30), about(30)}, Truth: 30},
		{Member: "a", Day: 30, Readings: 5, Done: [2][7]float64{about(90), about(30)}, Truth: 30},
	})
	var names []string
	for _, w := range rows {
		names = append(names, w.Known)
	}
	if got := strings.Join(names, "; "); got != "before any reading; with readings; with readings, early on; with readings, at half way; in all" {
		t.Fatalf("it tells %s", got)
	}
	first, all := rows[0], rows[4]
	if first.Outlooks != 2 || first.Tanks != 2 || first.Held != [2]int{2, 2} || first.Error != [2]float64{10, 10} || math.Abs(first.CRPS.Gain) > 1e-12 {
		t.Errorf("before any reading it is %+v", first)
	}
	if w := rows[1]; w.Outlooks != 2 || w.Tanks != 1 || w.Interval.Mean != [2]float64{(20 + 100 + 20) / 2, 20} || w.Interval.Gain != 50 || !strings.HasSuffix(w.Interval.String(), "| 50.00") {
		t.Errorf("with readings it is %+v", w)
	}
	// a: better by 10 before and by 50 with readings in the mean; b: worse.
	gain := [2]float64{(crps(about(40), 30) - crps(about(30), 30) + crps(about(50), 30) - crps(about(32), 30)) / 3, crps(about(50), 50) - crps(about(60), 50)}
	if all.Outlooks != 4 || all.Tanks != 2 || math.Abs(all.CRPS.Gain-(gain[0]+gain[1])/2) > 1e-12 || math.Abs(all.CRPS.SE-math.Abs(gain[0]-gain[1])/2) > 1e-12 {
		t.Errorf("in all it is %+v, of gains %v", all, gain)
	}
}

// school is a learner that says a month, and twenty days more once it was taught.
type school struct{ Month }

func (school) Says(c model.Case, _ unit.Days) pool.Tank {
	return pool.Tank{Band: pool.BandOf(&c.Setup), Mean: [2]float64{0.9, 0.9}, Var: [2]float64{0.1, 0.1}}
}

func (school) Learned(pool.Prior) commands.Adviser { return later{} }

type later struct{ Month }

func (l later) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	o, err := l.Month.Outlook(c, now)
	o.ChanceDoneOn = func(day float64) float64 { return chance(day - 20) }
	return o, err
}

// What a learner would have said untaught stands beside what it said, from the first lesson
// on, of tanks without a reading too; and the tables tell of both.
func TestTaught(t *testing.T) {
	y := lived(t, 24, school{})
	unread := 0
	for _, x := range y.Taught {
		for k := range x.Done[0] {
			if d := x.Done[1][k] - x.Done[0][k]; math.Abs(d-20) > 0.11 && x.Done[1][k] < horizon { // 180 days are the end
				t.Fatalf("of %+v they differ by %g days", x, d)
			}
		}
		if x.Readings == 0 {
			unread++
		}
	}
	last := y.Learnt[len(y.Learnt)-1].Prior
	if unread == 0 || len(y.Taught) < 2*unread || last.Level != pool.Club || math.Abs(last.Club[0].Mean-0.9) > 0.3 {
		t.Errorf("%d outlooks are compared, %d of them before any reading; learnt was %+v", len(y.Taught), unread, last)
	}
	if text := y.Report(); !strings.Contains(text, "\n| before any reading | ") || !strings.Contains(text, "\n| 365 | ") {
		t.Errorf("it tells %s", text)
	}
}
