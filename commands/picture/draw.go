package picture

import (
	"image/color"
	"math"

	"gonum.org/v1/plot/vg"
)

// The sheet, in pixels. A phone shows it at a third of this size, so letters are
// nine to thirteen pixels high there.
const (
	sheetWidth  = 1080
	sheetHeight = 1400
	left        = 118 // of the plots
	right       = 1046
	small       = 30.0 // letters
	large       = 38.0
)

// ink and paper.
var (
	paper    = color.RGBA{0xfc, 0xfa, 0xf5, 0xff}
	border   = color.RGBA{0x8c, 0x8a, 0x84, 0xff}
	ink      = color.RGBA{0x22, 0x25, 0x2b, 0xff}
	faint    = color.RGBA{0x5c, 0x5e, 0x63, 0xff} // lesser words
	rule     = color.RGBA{0xe2, 0xde, 0xd4, 0xff}
	doneBand = color.RGBA{0xd8, 0xe6, 0xd6, 0xff}
	doneInk  = color.RGBA{0x2a, 0x62, 0x3d, 0xff}
)

// hues of the panels: the line, its half and its tenths. They differ in lightness
// and on the axis from blue to yellow, which all eyes but few tell apart.
var hues = [...][3]color.RGBA{
	{{0xa3, 0x56, 0x00, 0xff}, {0xe8, 0xa8, 0x55, 0xff}, {0xf5, 0xd3, 0xa0, 0xff}},
	{{0x7a, 0x2d, 0x86, 0xff}, {0xbf, 0x8c, 0xc8, 0xff}, {0xe0, 0xc5, 0xe4, 0xff}},
	{{0x0b, 0x56, 0x8f, 0xff}, {0x77, 0xb2, 0xd9, 0xff}, {0xba, 0xd8, 0xec, 0xff}},
}

// frame is where a panel stands, and its scales.
type frame struct {
	x0, x1, y0, y1 float64 // pixels; y0 is the top
	first, last    float64 // days
	low, high      float64
}

// x is the place of a day, within the frame.
func (f frame) x(day float64) float64 {
	return f.x0 + clamp((day-f.first)/(f.last-f.first))*(f.x1-f.x0)
}

// y is the place of a value, within the frame.
func (f frame) y(v float64) float64 {
	return f.y1 - clamp((v-f.low)/(f.high-f.low))*(f.y1-f.y0)
}

func (f frame) holds(day float64) bool { return day >= f.first && day <= f.last }

func clamp(x float64) float64 { return min(max(x, 0), 1) }

// PNG draws a picture, 1080 pixels wide. It is safe for several goroutines.
func PNG(p Picture) ([]byte, error) { return p.sheet().encode() }

func (p Picture) sheet() *pen {
	p = p.sane()
	s := newPen(sheetWidth, sheetHeight, paper)
	s.title(p.Title)
	p.legend(s)
	frames := p.frames()
	for i, f := range frames {
		p.backdrop(s, f)
		if i < len(p.Pools) {
			p.Pools[i].draw(s, f, hues[i%len(hues)])
		} else {
			p.Waters[i-len(p.Pools)].strip(s, f)
		}
	}
	if len(frames) > 0 {
		p.events(s, frames[0], 128)
		p.days(s, frames[0], frames[len(frames)-1].y1)
	}
	for _, g := range frames {
		if g.holds(p.Now) {
			s.line(ink, 3, nil, point{g.x(p.Now), g.y0}, point{g.x(p.Now), g.y1})
		}
	}
	s.edge(sheetHeight)
	return s
}

// frames lays the panels out, one above the other.
func (p Picture) frames() []frame {
	var out []frame
	y := 222.0
	add := func(panel Panel, height float64, f frame) {
		f.x0, f.x1, f.y0, f.y1 = left, right, y+42, y+42+height
		f.first, f.last = p.First, p.Last
		out = append(out, f)
		y = f.y1 + 14
	}
	for _, q := range p.Pools {
		add(q, 194, frame{high: q.top(p.First, p.Last)})
	}
	for _, q := range p.Waters {
		low, high := q.span()
		add(q, 58, frame{low: low, high: high})
	}
	return out
}

// sane is p with what can be drawn: days in order, numbers that are numbers.
func (p Picture) sane() Picture {
	if !finite(p.First) {
		p.First = 0
	}
	if !finite(p.Last) || p.Last < p.First+7 {
		p.Last = p.First + 7
	}
	clean := func(all []Panel) []Panel {
		out := make([]Panel, len(all))
		for i, q := range all {
			out[i] = Panel{Name: q.Name, Unit: q.Unit}
			for _, l := range q.Course {
				if finite(l.Day, l.P10, l.P25, l.P50, l.P75, l.P90) && l.Day >= p.First && l.Day <= p.Last {
					out[i].Course = append(out[i].Course, l)
				}
			}
			for _, m := range q.Read {
				if finite(m.Day, m.Value, m.Low, m.High) && m.Day >= p.First && m.Day <= p.Last {
					out[i].Read = append(out[i].Read, m)
				}
			}
		}
		return out
	}
	p.Pools, p.Waters = clean(p.Pools), clean(p.Waters)
	return p
}

func finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.Abs(x) > 1e9 {
			return false
		}
	}
	return true
}

var dashed = []vg.Length{10, 8}
