package year

import (
	"fmt"
	"math"
	"slices"
	"time"

	"ripen/store"
)

// Worth is what learning did for the outlooks that rested on it: those of two years that
// differ in it alone, question by question, held against when tanks were truly done.
type Worth struct {
	Outlooks int
	Tanks    int
	Held     [2]int     // by their 80 % ranges, untaught and taught
	Error    [2]float64 // median error of the middle day, days
	Score    [2]float64 // mean interval score of the 80 % range, days: less is better
	Gain     float64    // mean by which the score is better, days
	GainSE   float64    // its standard error over tanks
}

// horizon is the last day that outlooks and the truth tell of; what is later counts as that
// day, so that slow tanks are not left out.
const horizon = 180

// WorthOf compares two years.
func WorthOf(untaught, taught *Year) (w Worth) {
	type question struct {
		tank int64
		at   time.Time
	}
	was := map[question]store.Outlook{}
	for _, o := range untaught.Given {
		was[question{o.Tank, o.At}] = o
	}
	var off [2][]float64
	gains := map[int64][]float64{}
	for _, o := range taught.Given {
		done, ok := taught.Truth[o.Tank]
		before, asked := was[question{o.Tank, o.At}]
		if o.Prior == "general" || !ok || !asked || o.Day >= done {
			continue
		}
		w.Outlooks++
		var score [2]float64
		for i, x := range []store.Outlook{before, o} {
			if min(x.Done[1], horizon) <= done && done <= min(x.Done[5], horizon) {
				w.Held[i]++
			}
			off[i] = append(off[i], math.Abs(min(x.Done[3], horizon)-done))
			score[i] = intervalScore(x, done)
			w.Score[i] += score[i]
		}
		gains[o.Tank] = append(gains[o.Tank], score[0]-score[1])
	}
	if w.Tanks = len(gains); w.Outlooks == 0 {
		return w
	}
	var means []float64
	for i := range off {
		slices.Sort(off[i])
		w.Error[i] = off[i][len(off[i])/2]
		w.Score[i] /= float64(w.Outlooks)
	}
	for _, g := range gains {
		means = append(means, sum(g)/float64(len(g)))
	}
	slices.Sort(means) // so that the sum is the same each time
	n := float64(len(means))
	w.Gain = sum(means) / n
	v := 0.0
	for _, m := range means {
		v += (m - w.Gain) * (m - w.Gain)
	}
	w.GainSE = math.Sqrt(v / max(n-1, 1) / n)
	return w
}

// intervalScore is that of the 80 % range (Gneiting & Raftery 2007, equation 43): its width,
// and ten times by how much it misses. Days past the horizon count as the horizon.
func intervalScore(o store.Outlook, done float64) float64 {
	low, high := min(o.Done[1], horizon), min(o.Done[5], horizon)
	return high - low + 10*max(low-done, 0, done-high)
}

func sum(xs []float64) (s float64) {
	for _, x := range xs {
		s += x
	}
	return s
}

// String tells what learning is worth.
func (w Worth) String() string {
	if w.Outlooks == 0 {
		return "learning: no outlook rested on it"
	}
	return fmt.Sprintf("learning: of %d outlooks of %d tanks that rested on it, 80 %% ranges held %d, untaught %d; median error %.1f days, untaught %.1f; interval score %.1f, untaught %.1f, better by %.1f ± %.1f a tank",
		w.Outlooks, w.Tanks, w.Held[1], w.Held[0], w.Error[1], w.Error[0], w.Score[1], w.Score[0], w.Gain, w.GainSE)
}
