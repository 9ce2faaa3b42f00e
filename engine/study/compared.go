package study

import (
	"fmt"
	"math"
	"strings"
)

// narrowed is the share of its prior's spread below which an unknown counts as
// one that the readings told something of.
const narrowed = 0.8

// Table prints the comparison in Markdown: what differs by how much, with the
// Monte Carlo error of both sides. Unknowns that the readings hardly narrowed,
// and that agree, are only counted unless all are asked for.
func (c *Compared) Table(all bool) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d walks of %d steps on each tank, seed %d, against the mean of %d fits of %d draws. Differences and errors in standard deviations of the posterior.\n\n",
		c.Walks, c.Steps, c.Seed, c.Fits, c.Draws)
	for i, t := range c.Tanks {
		fmt.Fprintf(&b, "- %s; %.0f %% of the steps succeed\n", t, 100*c.Accepted[i])
	}
	b.WriteString("\n| tank | quantity | sd | mean | 10 % | 50 % | 90 % | error of walks | of one fit | |\n")
	b.WriteString("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n")
	hidden, hiddenWorst := 0, 0.0
	for i := range c.All {
		a := &c.All[i]
		off, _ := a.Off()
		if !all && a.OK() && a.SD >= narrowed && a.Name != doneDay {
			hidden++
			for _, o := range off {
				hiddenWorst = max(hiddenWorst, math.Abs(o))
			}
			continue
		}
		said := "agree"
		if !a.OK() {
			said = "differ"
		}
		fmt.Fprintf(&b, "| %s | %s | %.2f | %+.2f | %+.2f | %+.2f | %+.2f | %.2f | %.2f | %s |\n", a.Tank, a.Name, a.SD,
			off[0], off[1], off[2], off[3], a.walkErr[0]/a.SD, a.oneFit[0]/a.SD, said)
	}
	if hidden > 0 {
		fmt.Fprintf(&b, "\n%d more unknowns that the readings hardly narrowed agree; the largest difference is %.2f.\n", hidden, hiddenWorst)
	}
	b.WriteString("\n| tank | done day by | 10 % | 50 % | 90 % |\n| --- | --- | --- | --- | --- |\n")
	for i := range c.All {
		if a := &c.All[i]; a.Name == doneDay {
			fmt.Fprintf(&b, "| %s | walks | %.1f | %.1f | %.1f |\n|  | fits | %.1f | %.1f | %.1f |\n", a.Tank,
				a.walk[1], a.walk[2], a.walk[3], a.fit[1], a.fit[2], a.fit[3])
		}
	}
	differ := 0
	for i := range c.All {
		if !c.All[i].OK() {
			differ++
		}
	}
	fmt.Fprintf(&b, "\n%d of %d quantities differ by more than %.2f standard deviations and %d errors in the mean or a quantile.", differ, len(c.All), Slack, Chance)
	return b.String()
}
