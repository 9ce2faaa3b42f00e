package picture

import (
	"fmt"

	"gonum.org/v1/plot/text"
)

// Record is how often outlooks held, by how far along the tanks were.
type Record struct {
	Title  string        `json:"title"`
	Stages []RecordStage `json:"stages"`
}

// RecordStage is one of them: of Outlooks so many, and of these the shares, 0 to 1,
// that each interval held, beside the shares that it should.
type RecordStage struct {
	Name     string     `json:"name"`
	Outlooks int        `json:"outlooks"`
	Held     [3]float64 `json:"held"`
	Should   [3]float64 `json:"should"`
}

// RecordPNG draws a record, a bar for each interval with a stroke where it should end.
func RecordPNG(r Record) ([]byte, error) { return r.sheet().encode() }

const (
	recordTop  = 150.0
	recordStep = 170.0
	recordBar  = 30.0
)

func (r Record) sheet() *pen {
	height := recordTop + recordStep*float64(max(len(r.Stages), 1)) + 90
	s := newPen(sheetWidth, int(height), paper)
	s.title(r.Title)
	s.write(style(faint, small, false, text.XLeft), point{34, 98}, "how often the ranges held; the stroke is how often they should")
	f := frame{x0: left + 30, x1: right - 60, y0: recordTop, y1: height - 90, first: 0, last: 1}
	for k, stage := range r.Stages {
		y := recordTop + recordStep*float64(k)
		s.write(style(ink, small, true, text.XLeft), point{34, y + 16}, fmt.Sprintf("%s (%d)", stage.Name, stage.Outlooks))
		for i := range stage.Held {
			top := y + 40 + float64(i)*(recordBar+8)
			hue := hues[2]
			s.write(style(faint, 24, false, text.XRight), point{f.x0 - 12, top + recordBar/2}, fmt.Sprintf("%.0f %%", 100*stage.Should[i]))
			s.box(rule, f.x0, top, f.x1, top+recordBar)
			s.box(hue[1], f.x0, top, f.x(stage.Held[i]), top+recordBar)
			s.line(ink, 4, nil, point{f.x(stage.Should[i]), top - 3}, point{f.x(stage.Should[i]), top + recordBar + 3})
			s.write(style(ink, 24, false, text.XLeft), point{f.x1 + 10, top + recordBar/2}, fmt.Sprintf("%.0f", 100*stage.Held[i]))
		}
	}
	for _, share := range []float64{0, 0.5, 1} {
		s.write(style(faint, small, false, text.XCenter), point{f.x(share), height - 48}, fmt.Sprintf("%.0f %%", 100*share))
	}
	s.edge(height)
	return s
}

// title sets a line at the top, at a size at which it fits.
func (p *pen) title(words string) {
	size := large
	if w := width(style(ink, large, true, text.XLeft), words); w > sheetWidth-68 {
		size = large * (sheetWidth - 68) / w
	}
	p.write(style(ink, size, true, text.XLeft), point{34, 46}, words)
}

// edge frames a sheet of that height.
func (p *pen) edge(height float64) {
	const w = 1.5
	p.line(border, 2*w, nil, point{w, w}, point{sheetWidth - w, w}, point{sheetWidth - w, height - w}, point{w, height - w}, point{w, w})
}
