package commands

import (
	"fmt"
	"strconv"

	"ripen/commands/picture"
)

func chartSpecs() []Spec {
	return []Spec{{Name: "chart", Private: true, Help: "a picture of the tank: what was read, what is likely, and when it will be done", Example: "/chart days:30", run: chart,
		Options: []Option{optTank(), {Name: "days", Type: TypeNumber, Min: 1, Max: 3650, Unit: "days", Help: "how many days back it shows; default all"}, optMember()}}}
}

// ChartShown is a tank as a picture, and the numbers that it is drawn from: days
// from the tank's start, concentrations on the member's scale, the rest in the
// member's units.
type ChartShown struct {
	Head
	Stage    string          `json:"stage"`
	DoneDay  picture.Window  `json:"done_day"`
	DoneOn   picture.Window  `json:"done_calendar_day"`
	DoneDate Dates           `json:"done_date"`
	Horizon  int             `json:"horizon_days"`
	Scale    string          `json:"scale"`
	Back     *float64        `json:"days,omitempty"` // that were asked for
	Chart    Chart           `json:"chart"`
	Picture  picture.Picture `json:"picture"`

	answer string
	alt    string
}

// chart draws a tank.
func chart(c *call) (Result, error) {
	t, cs, now, err := c.theCase()
	if err != nil {
		return nil, err
	}
	o, err := c.adviser.Outlook(cs, now)
	if err != nil {
		return nil, engineError(err)
	}
	out := outlookResult(t, cs, o, c.At, c.units.Scale)
	r := ChartShown{
		Head: out.Head, Stage: out.Stage, DoneDay: picture.Window(o.Done), DoneOn: picture.Window(out.DoneOn), DoneDate: out.DoneDate, Horizon: out.HorizonDays, Scale: out.Scale,
		Chart: out.Chart, answer: out.answer(),
	}
	var first float64
	if a, ok := c.args["days"]; ok {
		r.Back = new(a.low)
		first = max(0, float64(now)-a.low)
	}
	r.Picture = pictureOf(out, o, cs, c.units, first)
	r.alt = out.altText()
	return r, nil
}

// Text says when the tank will be done, and draws the chart in letters for who does
// not see pictures.
func (r ChartShown) Text() string {
	chart := r.Chart.Text()
	if chart == "" {
		return r.words()
	}
	text := r.words()
	if r.cut() {
		text += " The letters show all."
	}
	return text + "\n\n" + chart + "\n"
}

// words is the text without the letters.
func (r ChartShown) words() string {
	if r.cut() {
		return r.answer + fmt.Sprintf(" The picture shows the last %s days.", number(*r.Back, 0))
	}
	return r.answer
}

// cut says that the picture does not show all days.
func (r ChartShown) cut() bool { return r.Back != nil && r.Picture.First > 0 }

// pictured is a result that can be drawn.
type pictured interface {
	drawing() (p picture.Picture, alt string)
	words() string // the text without a drawing in letters
}

func (r ChartShown) drawing() (picture.Picture, string) { return r.Picture, r.alt }

func (r Outlook) drawing() (p picture.Picture, alt string) {
	if r.drawn != nil {
		p = r.drawn()
	}
	return p, r.altText()
}

// altText says in words what a picture of the tank shows. Its numbers are in the
// data of both commands that draw one.
func (r Outlook) altText() string {
	text := fmt.Sprintf("Chart of %s on day %s. ", r.Tank, number(r.Day, 0))
	last := map[string]string{}
	for _, d := range r.Chart.Read {
		if d.Day <= r.Chart.Now {
			last[d.What] = sigText(d.MgL) + " mg/L"
			if d.open {
				last[d.What] += " or more"
			}
			last[d.What] += " on day " + number(d.Day, 0)
		}
	}
	switch {
	case last["ammonia"] != "" && last["nitrite"] != "":
		text += "Last read: ammonia " + last["ammonia"] + ", nitrite " + last["nitrite"] + ". "
	case last["ammonia"] != "":
		text += "Last read: ammonia " + last["ammonia"] + ". "
	case last["nitrite"] != "":
		text += "Last read: nitrite " + last["nitrite"] + ". "
	default:
		text += "No ammonia or nitrite was read. "
	}
	return text + r.answer()
}

// files are the pictures that go with a result. Where a text says the same, plain
// asks for none.
func files(result Result, plain bool) ([]File, error) {
	if x, ok := result.(interface{ sheets() ([]File, error) }); ok && !plain {
		return x.sheets()
	}
	x, ok := result.(pictured)
	if _, asked := result.(ChartShown); !ok || plain && !asked {
		return nil, nil
	}
	p, alt := x.drawing()
	if len(p.Pools) == 0 {
		return nil, nil
	}
	data, err := picture.PNG(p)
	if err != nil {
		return nil, fmt.Errorf("drawing the chart: %w", err)
	}
	return []File{{Name: "chart-day-" + strconv.Itoa(int(p.Now)) + ".png", Alt: alt, Data: data}}, nil
}
