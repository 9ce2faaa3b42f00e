package picture

import (
	"gonum.org/v1/plot/text"
)

// Timelines are several tanks on one calendar, a line each. Days count from today.
type Timelines struct {
	Title string     `json:"title"`
	First float64    `json:"first_day"` // left end, below zero
	Last  float64    `json:"last_day"`  // right end
	Ticks []Tick     `json:"ticks"`
	Rows  []Timeline `json:"rows"`
}

// Tick is a day with a name.
type Tick struct {
	Day  float64 `json:"day"`
	Name string  `json:"name"`
}

// Timeline is a tank from its start to when it will be done.
type Timeline struct {
	Name  string  `json:"name"`
	Note  string  `json:"note"` // a word at the right, as its verdict
	Start float64 `json:"start_day"`
	Done  Window  `json:"done_day"` // nil past the horizon
	Ready bool    `json:"ready"`
}

const (
	timelineTop  = 120.0
	timelineStep = 56.0
	timelineLeft = 330.0
	timelineNote = 150.0 // room for the note
)

// TimelinesPNG draws timelines: a line from a tank's start to today, and a bar for the
// days on which it will be done, nine tenths to one side, with its middle.
func TimelinesPNG(t Timelines) ([]byte, error) { return t.sheet().encode() }

func (t Timelines) sheet() *pen {
	height := timelineTop + timelineStep*float64(max(len(t.Rows), 1)) + 80
	s := newPen(sheetWidth, int(height), paper)
	s.title(t.Title)
	f := frame{x0: timelineLeft, x1: right - timelineNote, y0: timelineTop - 20, y1: height - 80, first: t.First, last: max(t.Last, t.First+7)}
	for _, k := range t.Ticks {
		if f.holds(k.Day) {
			s.line(rule, 2, nil, point{f.x(k.Day), f.y0}, point{f.x(k.Day), f.y1})
			s.write(style(faint, 26, false, text.XCenter), point{f.x(k.Day), height - 44}, k.Name)
		}
	}
	for i, row := range t.Rows {
		row.draw(s, f, timelineTop+timelineStep*float64(i)+timelineStep/2-20)
	}
	s.line(ink, 3, nil, point{f.x(0), f.y0}, point{f.x(0), f.y1})
	s.edge(height)
	return s
}

// draw draws a tank around a height.
func (r Timeline) draw(s *pen, f frame, y float64) {
	s.write(style(ink, 26, false, text.XRight), point{f.x0 - 14, y}, cut(r.Name, f.x0-14-30))
	s.line(border, 5, nil, point{f.x(r.Start), y}, point{f.x(min(0, f.last)), y})
	if r.Done.P10 != nil {
		from, to := f.x(*r.Done.P10), f.x1
		if r.Done.P90 != nil {
			to = max(f.x(*r.Done.P90), from+4)
		}
		s.box(doneBand, from, y-15, to, y+15)
		s.line(doneInk, 2, nil, point{from, y - 15}, point{from, y + 15})
		if r.Done.P90 != nil {
			s.line(doneInk, 2, nil, point{to, y - 15}, point{to, y + 15})
		}
	}
	if r.Done.P50 != nil && f.holds(*r.Done.P50) {
		s.line(doneInk, 6, nil, point{f.x(*r.Done.P50), y - 15}, point{f.x(*r.Done.P50), y + 15})
	}
	c := faint
	if r.Ready {
		c = doneInk
	}
	s.write(style(c, 26, r.Ready, text.XLeft), point{f.x1 + 14, y}, r.Note)
}

// cut shortens words until they fit.
func cut(words string, room float64) string {
	look := style(ink, 26, false, text.XRight)
	if width(look, words) <= room {
		return words
	}
	r := []rune(words)
	for len(r) > 1 && width(look, string(r)+"...") > room {
		r = r[:len(r)-1]
	}
	return string(r) + "..."
}
