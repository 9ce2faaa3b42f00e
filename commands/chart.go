package commands

import (
	"fmt"
	"math"
	"strings"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
)

// The size of the plot of a Chart, in characters.
const (
	chartWidth  = 64
	chartHeight = 8
)

// Chart is the middle course of ammonia and nitrite over days, and what was
// read, mg/L on the member's scale.
type Chart struct {
	Bottom  float64   `json:"bottom_mgl"` // of the scale, 0
	Top     float64   `json:"top_mgl"`
	First   float64   `json:"first_day"` // 0
	Now     float64   `json:"now"`
	Last    float64   `json:"last_day"`
	Days    []float64 `json:"days"`
	Ammonia []float64 `json:"ammonia"` // medians at Days
	Nitrite []float64 `json:"nitrite"`
	Read    []Dot     `json:"read"`
}

// Dot is one value that was read.
type Dot struct {
	What string  `json:"what"` // "ammonia" or "nitrite"
	Day  float64 `json:"day"`
	MgL  float64 `json:"mgl"`

	open bool // MgL or more
}

// chartOf takes the courses that a chart shows out of an outlook.
func chartOf(o outlook.Outlook, readings []model.Reading, scale string) Chart {
	c := Chart{Now: rounded(o.Day, 2), Days: []float64{}, Ammonia: []float64{}, Nitrite: []float64{}, Read: []Dot{}}
	highest := 0.0
	for _, p := range o.Course {
		if p.Ammonia.P50 == nil || p.Nitrite.P50 == nil {
			continue
		}
		a, n := shownOn(scale, *p.Ammonia.P50, unit.Ammonia), shownOn(scale, *p.Nitrite.P50, unit.Nitrite)
		c.Days, c.Ammonia, c.Nitrite = append(c.Days, p.Day), append(c.Ammonia, digits(a, 3)), append(c.Nitrite, digits(n, 3))
		highest = max(highest, a, n)
		c.Last = max(c.Last, p.Day)
	}
	for _, r := range readings {
		for _, s := range []struct {
			species unit.Species
			seen    *model.Seen
		}{{unit.Ammonia, r.Ammonia}, {unit.Nitrite, r.Nitrite}} {
			if s.seen != nil {
				v := shownOn(scale, ionOf(s.seen, s.species), s.species)
				c.Read = append(c.Read, Dot{s.species.String(), rounded(float64(r.Day), 2), digits(v, 3), s.seen.Over})
				highest = max(highest, v)
			}
		}
	}
	c.Top = roundUp(highest)
	return c
}

// roundUp returns the next of 1, 2, 5 times a power of ten, at least 1.
func roundUp(x float64) float64 {
	if x <= 1 {
		return 1
	}
	k := math.Pow10(int(math.Floor(math.Log10(x))))
	for _, m := range []float64{1, 2, 5} {
		if x <= m*k {
			return m * k
		}
	}
	return 10 * k
}

// Text draws the chart: capitals are the likely course, small letters what was
// read, a column of dots is now. It is at most 75 columns wide.
func (c Chart) Text() string {
	if len(c.Days) < 2 || c.Last <= 0 {
		return ""
	}
	var grid [chartHeight][chartWidth]byte
	for y := range grid {
		for x := range grid[y] {
			grid[y][x] = ' '
		}
	}
	column := func(d float64) int {
		return min(max(int(math.Round(d/c.Last*(chartWidth-1))), 0), chartWidth-1)
	}
	put := func(d, v float64, mark byte) {
		y := min(max(chartHeight-1-int(math.Round(v/c.Top*(chartHeight-1))), 0), chartHeight-1)
		at := &grid[y][column(d)]
		switch {
		case *at == 'A' && mark == 'N':
			*at = '*'
		default:
			*at = mark
		}
	}
	for y := range grid {
		grid[y][column(c.Now)] = '.'
	}
	for x := range chartWidth {
		d := float64(x) / (chartWidth - 1) * c.Last
		if d < c.Days[0] {
			continue
		}
		put(d, at(c.Days, c.Ammonia, d), 'A')
		put(d, at(c.Days, c.Nitrite, d), 'N')
	}
	for _, r := range c.Read {
		put(r.Day, r.MgL, r.What[0])
		if r.What == "nitrite" {
			put(r.Day, r.MgL, 'n')
		}
	}
	var b strings.Builder
	b.WriteString("  mg/L   A ammonia, N nitrite, * both: likely course; a, n: your tests\n")
	for y, row := range grid {
		label := ""
		switch y {
		case 0:
			label = number(c.Top, 1)
		case chartHeight - 1:
			label = number(c.Bottom, 1)
		}
		fmt.Fprintf(&b, "%6s |%s\n", label, strings.TrimRight(string(row[:]), " "))
	}
	fmt.Fprintf(&b, "%6s +%s\n", "", strings.Repeat("-", chartWidth))
	b.WriteString(c.axis(column(c.Now)))
	return b.String()
}

// axis labels the days: the first, now and the last.
func (c Chart) axis(now int) string {
	line := []byte(strings.Repeat(" ", chartWidth+8+3))
	write := func(x int, s string) {
		x = min(max(x, 0), len(line)-len(s))
		copy(line[x:], s)
	}
	last := "day " + number(c.Last, 0)
	write(8+chartWidth-len(last), last)
	if now > 6 && now < chartWidth-len(last)-5 {
		write(8, "day "+number(c.First, 0))
	}
	if now < chartWidth-len(last)-2 {
		write(8+now-1, "now")
	}
	return strings.TrimRight(string(line), " ")
}

// at interpolates ys over xs at x.
func at(xs, ys []float64, x float64) float64 {
	for i := 1; i < len(xs); i++ {
		if x <= xs[i] {
			return ys[i-1] + (ys[i]-ys[i-1])*(x-xs[i-1])/(xs[i]-xs[i-1])
		}
	}
	return ys[len(ys)-1]
}
