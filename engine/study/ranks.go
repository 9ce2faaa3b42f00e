package study

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/stat/distuv"
)

// Ranks are the ranks of one quantity's truth among its posterior draws, one
// for each tank. If the fit is right they are uniform on 0..Draws.
type Ranks struct {
	Name  string
	Draws int
	Rank  []int
}

// bins of the rank histogram.
const bins = 16

// P is the chance that a right fit gives a histogram as uneven as this or
// worse, by the chi-square test over 16 bins of equal width. Draws+1 must be a
// multiple of 16.
func (r *Ranks) P() float64 {
	var count [bins]float64
	for _, k := range r.Rank {
		count[k*bins/(r.Draws+1)]++
	}
	want := float64(len(r.Rank)) / bins
	x := 0.0
	for _, c := range count {
		x += (c - want) * (c - want) / want
	}
	return distuv.ChiSquared{K: bins - 1}.Survival(x)
}

// Mean is the mean rank as a share: 0.5 when right; above when the truth tends
// to lie above the draws.
func (r *Ranks) Mean() float64 {
	s := 0.0
	for _, k := range r.Rank {
		s += r.share(k)
	}
	return s / float64(len(r.Rank))
}

// Spread is the standard deviation of the ranks over that of even ones: 1 when
// right; above when posteriors are too narrow, below when they are too wide.
func (r *Ranks) Spread() float64 {
	s := 0.0
	for _, k := range r.Rank {
		d := r.share(k) - 0.5
		s += d * d
	}
	return math.Sqrt(12 * s / float64(len(r.Rank)))
}

func (r *Ranks) share(k int) float64 { return (float64(k) + 0.5) / float64(r.Draws+1) }

// Level is the chance of a false alarm over all quantities of a calibration
// together.
const Level = 0.01

// Uniform says whether no quantity is so uneven that a right fit would give it
// less often than Level allows, shared evenly between the quantities
// (Bonferroni). Quantities of fewer than 5 tanks a bin are left out, since the
// test does not hold for them.
func Uniform(all []Ranks) bool {
	m := 0
	low := 1.0
	for i := range all {
		if all[i].Enough() {
			m++
			low = min(low, all[i].P())
		}
	}
	return m > 0 && low >= Level/float64(m)
}

// Enough says whether there are ranks enough for the test.
func (r *Ranks) Enough() bool { return len(r.Rank) >= 5*bins }

// RanksTable prints ranks in Markdown, a row for each quantity, and whether they
// are uniform.
func RanksTable(all []Ranks) string {
	var b strings.Builder
	b.WriteString("| quantity | tanks | mean rank | spread | p |\n| --- | --- | --- | --- | --- |\n")
	least, spread, tested := 1.0, 0.0, 0
	name := ""
	for i := range all {
		r := &all[i]
		p := "too few"
		if r.Enough() {
			tested++
			spread += r.Spread()
			if r.P() < least {
				least, name = r.P(), r.Name
			}
			p = fmt.Sprintf("%.2g", r.P())
		}
		fmt.Fprintf(&b, "| %s | %d | %.3f | %.2f | %s |\n", r.Name, len(r.Rank), r.Mean(), r.Spread(), p)
	}
	verdict := "uniform"
	if !Uniform(all) {
		verdict = "not uniform"
	}
	fmt.Fprintf(&b, "\nThe ranks are %s: the least p of %d quantities is %.2g (%s), and below %.2g it would be too small. Mean spread %.3f.",
		verdict, tested, least, name, Level/float64(tested), spread/float64(tested))
	return b.String()
}
