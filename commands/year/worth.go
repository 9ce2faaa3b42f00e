package year

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"ripen/commands"
)

// Worth is what learning did for outlooks of which as much was known: each is held against
// what would have been said without. Of pairs the untaught one comes first.
type Worth struct {
	Known    string
	Outlooks int
	Tanks    int
	Held     [2]int     // by their 80 % ranges
	Error    [2]float64 // median error of the middle day, days
	CRPS     Compared
	Interval Compared // interval score of the 80 % range
}

// Compared is a score in days, less being better. A tank counts once, by the mean of its
// outlooks, since these stand and fall together.
type Compared struct {
	Mean     [2]float64
	Gain, SE float64 // by which it is better, and the standard error over tanks, NaN for one alone
}

// WorthOf compares outlooks by what was known: before any reading, and with readings at each stage
// of the record.
func WorthOf(all []Taught) (rows []Worth) {
	row := func(known string, of func(t Taught) bool) {
		if w := worthOf(known, slices.DeleteFunc(slices.Clone(all), func(t Taught) bool { return t.Day >= t.Truth || !of(t) })); w.Outlooks > 0 {
			rows = append(rows, w)
		}
	}
	row("before any reading", func(t Taught) bool { return t.Readings == 0 })
	row("with readings", func(t Taught) bool { return t.Readings > 0 })
	for i, s := range commands.RecordStages {
		row("with readings, "+s.Name, func(t Taught) bool { return t.Readings > 0 && commands.StageOf(t.Day, t.Truth) == i })
	}
	row("in all", func(Taught) bool { return true })
	return rows
}

func worthOf(known string, all []Taught) Worth {
	w := Worth{Known: known, Outlooks: len(all)}
	var off [2][]float64
	of := map[string][]Taught{}
	var members []string // in the order of who came first, so that sums are the same each time
	for _, t := range all {
		if of[t.Member] == nil {
			members = append(members, t.Member)
		}
		of[t.Member] = append(of[t.Member], t)
		for i, done := range t.Done {
			off[i] = append(off[i], math.Abs(min(done[3], horizon)-t.Truth))
			if held(done, t.Truth) {
				w.Held[i]++
			}
		}
	}
	if w.Tanks = len(members); w.Outlooks == 0 {
		return w
	}
	for i := range off {
		slices.Sort(off[i])
		w.Error[i] = off[i][len(off[i])/2]
	}
	compare := func(score func([7]float64, float64) float64) (c Compared) {
		var by [2][]float64
		var gain []float64
		for _, m := range members {
			var mean [2]float64
			for _, t := range of[m] {
				for i := range mean {
					mean[i] += score(t.Done[i], t.Truth) / float64(len(of[m]))
				}
			}
			by[0], by[1], gain = append(by[0], mean[0]), append(by[1], mean[1]), append(gain, mean[0]-mean[1])
		}
		c.Mean[0], _ = meanOf(by[0])
		c.Mean[1], _ = meanOf(by[1])
		c.Gain, c.SE = meanOf(gain)
		return c
	}
	w.CRPS, w.Interval = compare(crps), compare(intervalScore)
	return w
}

// String is the score without and with learning, and by how much it is better.
func (c Compared) String() string {
	by := fmt.Sprintf("%.2f", c.Gain)
	if !math.IsNaN(c.SE) {
		by += fmt.Sprintf(" ± %.2f", c.SE)
	}
	return fmt.Sprintf("%.2f, %.2f | %s", c.Mean[0], c.Mean[1], by)
}

// worthTable tells what learning is worth, in days.
func worthTable(rows []Worth) string {
	if len(rows) == 0 {
		return "- learning: no outlook rested on it\n"
	}
	var b strings.Builder
	b.WriteString(`
Outlooks that rested on what was learnt, beside what would have been said without (untaught, taught; days; ± over tanks):

| what was known | outlooks of tanks | CRPS | better by | interval score | better by | 80 % ranges held | median error |
| --- | --- | --- | --- | --- | --- | --- | --- |
`)
	for _, w := range rows {
		fmt.Fprintf(&b, "| %s | %d of %d | %s | %s | %d, %d | %.1f, %.1f |\n",
			w.Known, w.Outlooks, w.Tanks, w.CRPS, w.Interval, w.Held[0], w.Held[1], w.Error[0], w.Error[1])
	}
	return b.String()
}
