package nexttest

import (
	"cmp"
	"math"
	"slices"
)

// bins is how many equally likely stretches the done day is sorted into.
const bins = 8

// shifts is how many times the draws are paired with each other's done days, to
// see how much a reading seems to tell that tells nothing.
const shifts = 16

// gain is the done day of each draw, ready to be told apart.
type gain struct {
	now   float64
	done  []float64 // now where earlier, the horizon where later
	bin   []int     // of each draw
	count [bins]float64
	order []int // draws by done day
}

// newGain sorts done days, in days from the start, +Inf past the horizon. Days
// before now are one: done is done.
func newGain(done []float64, now, horizon float64) *gain {
	n := len(done)
	g := &gain{now: now, done: make([]float64, n), bin: make([]int, n), order: make([]int, n)}
	for i, d := range done {
		g.done[i], g.order[i] = min(max(d, now), horizon), i
	}
	slices.SortStableFunc(g.order, func(a, b int) int { return cmp.Compare(g.done[a], g.done[b]) })
	sorted := slices.Sorted(slices.Values(g.done))
	for i, d := range g.done {
		first, _ := slices.BinarySearch(sorted, d) // days that are the same share a bin
		g.bin[i] = first * bins / n
		g.count[g.bin[i]]++
	}
	for b := range g.count {
		g.count[b] /= float64(n)
	}
	return g
}

// entropy of the done day, bits.
func (g *gain) entropy() float64 { return entropy(g.count[:]) }

func entropy(p []float64) (h float64) {
	for _, x := range p {
		if x > 0 {
			h -= x * math.Log2(x)
		}
	}
	return h
}

// information returns how much the entropy of the done day shrinks, on average
// over the steps that may be seen, in bits, and the standard deviation of that.
// chance is that of each step, by draw. What a reading would seem to tell by the
// luck of so many draws is taken off: the mean over pairings that tell nothing.
func (g *gain) information(chance [][]float64) (bits, err float64) {
	n := len(g.bin)
	var sum, squares float64
	for k := range shifts {
		x := g.mutual(chance, (2*k+1)*n/(2*shifts))
		sum, squares = sum+x, squares+x*x
	}
	mean := sum / shifts
	err = math.Sqrt(max(squares/shifts-mean*mean, 0) * shifts / (shifts - 1))
	return g.mutual(chance, 0) - mean, err
}

// mutual is the mutual information of steps and done days, bits, where each draw
// goes with the done day of the draw so many further on.
func (g *gain) mutual(chance [][]float64, shift int) float64 {
	n, m := len(chance), len(chance[0])
	joint, step := make([]float64, bins*m), make([]float64, m)
	for i, row := range chance {
		to := joint[g.bin[(i+shift)%n]*m:]
		for k, x := range row {
			to[k] += x / float64(n)
			step[k] += x / float64(n)
		}
	}
	return g.entropy() + entropy(step) - entropy(joint)
}

// before returns the window of the done day.
func (g *gain) before() Window {
	return g.window(func(int) float64 { return 1 })
}

// after returns the window on average over the steps that may be seen: of its
// ends the mean on a log scale of the days left, a day added.
func (g *gain) after(chance [][]float64) Window {
	total := float64(len(chance))
	var logs [3]float64
	for k := range chance[0] {
		seen := 0.0
		for _, row := range chance {
			seen += row[k]
		}
		if seen <= 0 {
			continue
		}
		w := g.window(func(i int) float64 { return chance[i][k] })
		for j, day := range [...]float64{w.P10, w.P50, w.P90} {
			logs[j] += math.Log(day-g.now+1) * seen / total
		}
	}
	at := func(j int) float64 { return g.now - 1 + math.Exp(logs[j]) }
	return Window{at(0), at(1), at(2)}
}

// branches splits the steps where the chances of less and of more are most alike,
// and returns the window of either side; nil when one side has less than a
// chance in twenty.
func (g *gain) branches(steps, chance []float64, by [][]float64) []Branch {
	split, below := 0, 0.0
	for k, sum := 0, 0.0; k < len(steps)-1; k++ {
		if sum += chance[k]; math.Abs(sum-0.5) < math.Abs(below-0.5) {
			split, below = k+1, sum
		}
	}
	if min(below, 1-below) < 0.05 {
		return nil
	}
	side := func(from, to int) Window {
		return g.window(func(i int) (w float64) {
			for _, x := range by[i][from:to] {
				w += x
			}
			return w
		})
	}
	n := len(steps)
	return []Branch{{Step: steps[split-1], Chance: below, Done: side(0, split)}, {Step: steps[split], Chance: 1 - below, Done: side(split, n)}}
}

// window of the draws, each counted by its weight.
func (g *gain) window(weight func(draw int) float64) (w Window) {
	total := 0.0
	for _, i := range g.order {
		total += weight(i)
	}
	at := [...]struct {
		q  float64
		to *float64
	}{{0.1, &w.P10}, {0.5, &w.P50}, {0.9, &w.P90}}
	sum, next := 0.0, 0
	for _, i := range g.order {
		sum += weight(i)
		for next < len(at) && sum > at[next].q*total*(1+1e-12) {
			*at[next].to = g.done[i]
			next++
		}
	}
	for ; next < len(at); next++ {
		*at[next].to = g.done[g.order[len(g.order)-1]]
	}
	return w
}
