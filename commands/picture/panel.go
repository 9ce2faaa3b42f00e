package picture

import (
	"image/color"
	"math"
	"strconv"

	"gonum.org/v1/plot/text"
)

// top is the upper end of a panel's scale: all that was read, and of what is likely
// no more than twice that or the highest median, lest a wide guess flatten the rest.
func (q Panel) top(first, last float64) float64 {
	read, median, wide := 0.0, 0.0, 0.0
	for _, m := range q.Read {
		read = max(read, m.Value, m.Low)
		if !m.Open {
			read = max(read, m.High)
		} else {
			read = max(read, 1.3*m.Low)
		}
	}
	for _, l := range q.Course {
		median, wide = max(median, l.P50), max(wide, l.P90)
	}
	return niceTop(max(read, median, min(wide, 2*max(read, median)), 0.2))
}

// niceTop is the next of 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten.
func niceTop(x float64) float64 {
	k := math.Pow10(int(math.Floor(math.Log10(x))))
	for _, m := range []float64{1, 1.5, 2, 3, 4, 5, 6, 8} {
		if x <= m*k*(1+1e-9) {
			return m * k
		}
	}
	return 10 * k
}

// span is the scale of a strip: what was read, with room around it.
func (q Panel) span() (low, high float64) {
	if len(q.Read) == 0 {
		return 0, 1
	}
	low, high = q.Read[0].Value, q.Read[0].Value
	for _, m := range q.Read {
		low, high = min(low, m.Value), max(high, m.Value)
	}
	room := max((high-low)*0.25, 0.01*math.Abs(high), 0.02)
	return low - room, high + room
}

func short(x float64) string { return strconv.FormatFloat(x, 'g', 3, 64) }

// heading names a panel and its unit above it.
func (q Panel) heading(s *pen, f frame, c color.Color, note string) {
	bold := style(c, small, true, text.XLeft)
	s.write(bold, point{f.x0, f.y0 - 22}, q.Name)
	rest := q.Unit
	if note != "" {
		if rest != "" {
			rest += "  "
		}
		rest += note
	}
	s.write(style(faint, small-2, false, text.XLeft), point{f.x0 + width(bold, q.Name) + 12, f.y0 - 22}, rest)
}

// draw draws a pool: bands, the median and what was read.
func (q Panel) draw(s *pen, f frame, hue [3]color.RGBA) {
	for _, v := range []float64{0, f.high / 2, f.high} {
		s.line(rule, 2, nil, point{f.x0, f.y(v)}, point{f.x1, f.y(v)})
		y := min(max(f.y(v), f.y0+2), f.y1-4)
		s.write(style(faint, small-2, false, text.XRight), point{f.x0 - 12, y}, short(v))
	}
	note := ""
	if len(q.Read) == 0 {
		note = "(not tested)"
	}
	q.band(s, f, hue[2], func(l Level) (low, high float64) { return l.P10, l.P90 })
	q.band(s, f, hue[1], func(l Level) (low, high float64) { return l.P25, l.P75 })
	var median []point
	for _, l := range q.Course {
		median = append(median, point{f.x(l.Day), f.y(l.P50)})
	}
	if len(median) > 1 {
		s.line(hue[0], 5, nil, median...)
	}
	for _, m := range q.Read {
		m.bar(s, f, q.room())
	}
	for _, m := range q.Read {
		at := point{f.x(m.Day), f.y(m.Value)}
		s.disc(paper, at, q.room()*10)
		s.disc(ink, at, q.room()*7.5)
	}
	q.heading(s, f, hue[0], note)
}

// room is how large marks may be: 1, less where there are many.
func (q Panel) room() float64 { return min(1, max(0.55, 45/float64(max(len(q.Read), 1)))) }

func (q Panel) band(s *pen, f frame, c color.Color, ends func(Level) (low, high float64)) {
	if len(q.Course) < 2 {
		return
	}
	var ring []point
	for _, l := range q.Course {
		_, high := ends(l)
		ring = append(ring, point{f.x(l.Day), f.y(high)})
	}
	for i := len(q.Course) - 1; i >= 0; i-- {
		low, _ := ends(q.Course[i])
		ring = append(ring, point{f.x(q.Course[i].Day), f.y(low)})
	}
	s.area(c, ring...)
}

// bar draws the range of a step; an open top as an arrow to the top of the frame.
func (m Mark) bar(s *pen, f frame, room float64) {
	x, low, high := f.x(m.Day), f.y(m.Low), f.y(m.High)
	if m.Open {
		high = f.y0
		s.area(ink, point{x, high}, point{x - 10*room, high + 18*room}, point{x + 10*room, high + 18*room})
	} else {
		s.line(ink, 3*room, nil, point{x - 8*room, high}, point{x + 8*room, high})
	}
	s.line(ink, 3*room, nil, point{x, low}, point{x, high})
	if m.Low > 0 {
		s.line(ink, 3*room, nil, point{x - 8*room, low}, point{x + 8*room, low})
	}
}

// strip draws one quantity of the water: what was read, joined by a line.
func (q Panel) strip(s *pen, f frame) {
	for _, y := range []float64{f.y0, f.y1} {
		s.line(rule, 2, nil, point{f.x0, y}, point{f.x1, y})
	}
	if len(q.Read) == 0 {
		q.heading(s, f, ink, "(not told)")
		return
	}
	var run []point
	low, high := q.Read[0].Value, q.Read[0].Value
	for _, m := range q.Read {
		run = append(run, point{f.x(m.Day), f.y(m.Value)})
		low, high = min(low, m.Value), max(high, m.Value)
	}
	if len(run) > 1 {
		s.line(faint, 3, nil, run...)
	}
	for _, at := range run {
		s.disc(paper, at, q.room()*9)
		s.disc(ink, at, q.room()*6.5)
	}
	label := style(faint, small-2, false, text.XRight)
	if f.y(low)-f.y(high) < 26 {
		s.write(label, point{f.x0 - 12, (f.y(low) + f.y(high)) / 2}, short(high))
	} else {
		s.write(label, point{f.x0 - 12, f.y(high) + 2}, short(high))
		s.write(label, point{f.x0 - 12, f.y(low) - 2}, short(low))
	}
	q.heading(s, f, ink, "")
}
