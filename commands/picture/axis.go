package picture

import (
	"image/color"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/plot/text"
)

// backdrop shades the days in which the tank will be done.
func (p Picture) backdrop(s *pen, f frame) {
	from, to := f.last, f.last
	if d := p.Done.P10; d != nil {
		from = max(*d, f.first)
	}
	if d := p.Done.P90; d != nil {
		to = min(*d, f.last)
	}
	if from < to {
		s.box(doneBand, f.x(from), f.y0, f.x(to), f.y1)
		for _, x := range []float64{f.x(from), f.x(to)} {
			s.line(doneInk, 2, nil, point{x, f.y0}, point{x, f.y1})
		}
	}
	if d := p.Done.P50; d != nil && f.holds(*d) {
		s.line(doneInk, 4, dashed, point{f.x(*d), f.y0}, point{f.x(*d), f.y1})
	}
}

// legend says what the marks mean.
func (p Picture) legend(s *pen) {
	const y = 92
	words := style(faint, small-3, false, text.XLeft)
	x := 34.0
	put := func(wide float64, mark func(x float64), label string) {
		mark(x)
		s.write(words, point{x + wide + 10, y}, label)
		x += wide + 10 + width(words, label) + 28
	}
	put(18, func(x float64) {
		s.line(ink, 3, nil, point{x + 9, y - 15}, point{x + 9, y + 15})
		s.disc(ink, point{x + 9, y}, 7.5)
	}, "test, its step")
	grey := [3]color.RGBA{{0x60, 0x60, 0x60, 0xff}, {0xa8, 0xa8, 0xa8, 0xff}, {0xd8, 0xd8, 0xd8, 0xff}}
	put(44, func(x float64) {
		s.box(grey[2], x, y-15, x+44, y+15)
		s.box(grey[1], x, y-7, x+44, y+7)
		s.line(grey[0], 4, nil, point{x, y}, point{x + 44, y})
	}, "likely; 5 and 8 in 10")
	put(44, func(x float64) {
		s.box(doneBand, x, y-15, x+44, y+15)
		s.line(doneInk, 3, dashed, point{x + 22, y - 15}, point{x + 22, y + 15})
	}, "done, 8 in 10")
	put(6, func(x float64) { s.line(ink, 3, nil, point{x + 3, y - 15}, point{x + 3, y + 15}) }, "today")
}

// events ticks what was done, and names it where there is room in two rows of words.
// Of more than fit, those whose name has not been written yet go first.
func (p Picture) events(s *pen, f frame, y float64) {
	const row, rows = 36.0, 2
	words := style(ink, small-4, false, text.XLeft)
	foot := y + rows*row + 22
	free := [rows][]point{} // taken stretches
	s.line(border, 2, nil, point{f.x0, foot}, point{f.x1, foot})
	shown := slices.DeleteFunc(slices.Clone(p.Events), func(e Event) bool { return !f.holds(e.Day) })
	written := map[string]bool{}
	order := make([]int, 0, len(shown))
	for _, again := range []bool{false, true} {
		for i, e := range shown {
			if written[e.What] == again && !slices.Contains(order, i) {
				order = append(order, i)
				written[e.What] = true
			}
		}
	}
	for _, e := range shown {
		x := f.x(e.Day)
		s.line(ink, 3, nil, point{x, foot - 12}, point{x, foot + 8})
	}
	for _, i := range order {
		e := shown[i]
		w := width(words, e.What)
		x := min(max(f.x(e.Day)-6, f.x0), f.x1-w)
		for r := range rows {
			if slices.ContainsFunc(free[r], func(t point) bool { return x < t.y+16 && t.x < x+w+16 }) {
				continue
			}
			free[r] = append(free[r], point{x, x + w})
			s.write(words, point{x, y + float64(rows-1-r)*row + 22}, e.What)
			break
		}
	}
}

// days labels the axis that all panels share.
func (p Picture) days(s *pen, f frame, bottom float64) {
	label := style(faint, small-2, false, text.XCenter)
	s.line(border, 2, nil, point{f.x0, bottom}, point{f.x1, bottom})
	step := niceStep((f.last - f.first) / 6)
	for d := math.Ceil(f.first/step) * step; d <= f.last+1e-9; d += step {
		x := f.x(d)
		s.line(border, 2, nil, point{x, bottom}, point{x, bottom + 10})
		s.write(label, point{x, bottom + 30}, strconv.FormatFloat(d, 'f', -1, 64))
	}
	s.write(style(faint, small-2, false, text.XRight), point{f.x1, bottom + 64}, "days since the start")
}

// niceStep is a step of whole days.
func niceStep(x float64) float64 {
	for _, s := range []float64{1, 2, 5, 7, 10, 14, 20, 30, 50, 60, 100} {
		if x <= s {
			return s
		}
	}
	return 100 * math.Ceil(x/100)
}
