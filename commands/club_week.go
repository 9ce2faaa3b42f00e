package commands

import (
	"cmp"
	"math"
	"slices"
	"time"
)

// ClubWeek is what happened in a club in a week, of tanks whose members agreed to be seen.
type ClubWeek struct {
	From     string       `json:"from"` // dates in the club's zone
	To       string       `json:"to"`
	Zone     string       `json:"zone"`
	Shown    int          `json:"shown"` // open tanks that may be seen
	New      []WeekTank   `json:"new"`
	Finished []WeekDone   `json:"finished"`
	Near     []WeekNear   `json:"near"`  // likely done within a week
	Asked    []WeekTank   `json:"asked"` // whose members asked /why, and that are not done
	Lesson   *Lesson      `json:"lesson"`
	Lines    []WeekLine   `json:"timelines"` // of open tanks
	More     int          `json:"timelines_left_out"`
	Within   float64      `json:"near_days"`
	Weeks    int          `json:"weeks"`    // that it is of: more than one after some that were missed
	DayNames []WeekDayOff `json:"calendar"` // days from today with their dates

	today time.Time
}

// WeekTank names a tank.
type WeekTank struct {
	Member string  `json:"member"`
	Tank   string  `json:"tank"`
	Day    float64 `json:"day"`
}

// WeekDone is a tank that was done, and how the first outlook of it did.
type WeekDone struct {
	WeekTank
	DoneDay float64  `json:"done_day"`
	Given   *float64 `json:"outlook_day"` // of the outlook; nil if none was given
	P10     *float64 `json:"p10"`         // what it said; nil past the horizon
	P90     *float64 `json:"p90"`
	Held    bool     `json:"held"`
}

// WeekNear is a tank near its end.
type WeekNear struct {
	WeekTank
	Date  string  `json:"date"` // likely done
	Early *string `json:"from"`
	Late  *string `json:"to"` // nil past the horizon
}

// WeekLine is an open tank on the calendar, in days from today.
type WeekLine struct {
	Member  string   `json:"member"`
	Tank    string   `json:"tank"`
	Start   float64  `json:"start"`
	P10     *float64 `json:"p10"` // days to done; nil past the horizon
	P50     *float64 `json:"p50"`
	P90     *float64 `json:"p90"`
	Verdict string   `json:"verdict"`
}

// WeekDayOff is a date and how many days it lies from today.
type WeekDayOff struct {
	Day  float64 `json:"day"`
	Date string  `json:"date"`
}

const (
	weekDays  = 7
	weekLines = 20 // tanks that a picture has room for
)

// clubWeek gathers what was told in the club in the last seven days, or since the last
// summary. Things count by when they were told, so that each stands in one summary.
func clubWeek(c *call) (Result, error) {
	settings, err := c.book.store.Settings(c.ctx, c.Club)
	if err != nil {
		return nil, err
	}
	zone, err := time.LoadLocation(settingsView(settings).Zone)
	if err != nil {
		return nil, err
	}
	since := c.At.In(zone).AddDate(0, 0, -weekDays)
	if !c.Since.IsZero() {
		since = c.Since
	}
	r := ClubWeek{From: dateIn(since.AddDate(0, 0, 1), zone), To: dateIn(c.At, zone), Zone: zone.String(), Within: weekDays,
		Weeks: max(1, int(math.Round(c.At.Sub(since).Hours()/24/weekDays))), today: c.At.In(zone),
		New: []WeekTank{}, Finished: []WeekDone{}, Near: []WeekNear{}, Asked: []WeekTank{}, Lines: []WeekLine{}, DayNames: []WeekDayOff{}}
	var open, pending, unseen int
	tanks, err := c.seen(settings, false, &open, &pending, &unseen)
	if err != nil {
		return nil, err
	}
	r.Shown = len(tanks)
	given, err := c.book.store.ClubOutlooks(c.ctx, c.Club, since)
	if err != nil {
		return nil, err
	}
	asked := map[int64]bool{}
	for _, o := range given {
		if o.Asked == "why" && o.Own && !o.At.After(c.At) {
			asked[o.Tank] = true
		}
	}
	within := func(t time.Time) bool { return t.After(since) && !t.After(c.At) }
	for _, t := range tanks {
		name := WeekTank{t.Member, t.Name, dayNumber(t.Started, c.At)}
		if within(t.Began) {
			r.New = append(r.New, name)
		}
		if t.Shown != nil {
			if within(*t.Shown) {
				r.Finished = append(r.Finished, doneOf(name, t))
			}
		} else if n, ok := nearOf(name, t, c.At, zone); ok {
			r.Near = append(r.Near, n)
		}
		if t.Shown == nil && t.assessment.Verdict != "ready" && asked[t.ID] {
			r.Asked = append(r.Asked, name)
		}
		r.Lines = append(r.Lines, lineOfWeek(t, c.At))
	}
	closed, err := c.closed(settings)
	if err != nil {
		return nil, err
	}
	for _, t := range closed {
		name := WeekTank{t.Member, t.Name, dayNumber(t.Started, t.Closed)}
		if within(t.Began) { // new and closed within the week
			r.New = append(r.New, name)
		}
		if t.Shown != nil && within(*t.Shown) {
			r.Finished = append(r.Finished, doneOf(name, t))
		}
	}
	r.Lesson = c.lesson(tanks, closed)
	r.calendar()
	return r, nil
}

// doneOf says how the first outlook of a tank did.
func doneOf(name WeekTank, t seen) WeekDone {
	d := WeekDone{WeekTank: name, DoneDay: rounded(*t.DoneOn, 0)}
	if len(t.Scores) == 0 {
		return d
	}
	x := t.Scores[0]
	d.Given, d.Held = new(math.Floor(x.Day)), x.held()[1]
	for to, day := range map[**float64]float64{&d.P10: x.Done[1], &d.P90: x.Done[5]} {
		if day < never {
			*to = new(rounded(day, 0))
		}
	}
	return d
}

// nearOf says when a tank is likely done, if that is soon.
func nearOf(name WeekTank, t seen, now time.Time, zone *time.Location) (n WeekNear, ok bool) {
	if t.Done.P50 == nil || t.Stage == "ready" {
		return n, false
	}
	date := func(d *float64) string { return dateIn(dateOf(t.Started, *d), zone) }
	middle := dateOf(t.Started, *t.Done.P50)
	if middle.Before(now) || middle.After(now.AddDate(0, 0, weekDays)) {
		return n, false
	}
	n = WeekNear{WeekTank: name, Date: date(t.Done.P50)}
	if t.Done.P10 != nil {
		n.Early = new(date(t.Done.P10))
	}
	if t.Done.P90 != nil {
		n.Late = new(date(t.Done.P90))
	}
	return n, true
}

// lineOfWeek puts a tank on the calendar.
func lineOfWeek(t seen, now time.Time) WeekLine {
	day := float64(daysSince(t.Started, now))
	from := func(d *float64) *float64 {
		if d == nil {
			return nil
		}
		return new(rounded(*d-day, 0))
	}
	l := WeekLine{Member: t.Member, Tank: t.Name, Start: rounded(-day, 0), P10: from(t.Done.P10), P50: from(t.Done.P50), P90: from(t.Done.P90), Verdict: t.assessment.Verdict}
	if t.Shown != nil {
		l.Verdict = "ready"
	}
	return l
}

// calendar puts the tanks in order, those that are done soonest first, and names days.
func (r *ClubWeek) calendar() {
	past := func(d *float64) float64 {
		if d == nil {
			return math.Inf(1)
		}
		return *d
	}
	slices.SortStableFunc(r.Lines, func(a, b WeekLine) int {
		return cmp.Or(cmp.Compare(past(a.P50), past(b.P50)), cmp.Compare(past(a.P10), past(b.P10)), cmp.Compare(a.Member, b.Member), cmp.Compare(a.Tank, b.Tank))
	})
	r.More = max(0, len(r.Lines)-weekLines)
	r.Lines = r.Lines[:len(r.Lines)-r.More]
	for day := -28; day <= 56; day += 28 {
		r.DayNames = append(r.DayNames, WeekDayOff{float64(day), r.today.AddDate(0, 0, day).Format("2006-01-02")})
	}
}

func dateIn(t time.Time, zone *time.Location) string { return t.In(zone).Format("2006-01-02") }
