package commands

import (
	"cmp"
	"math"
	"slices"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/safety"
	"ripen/engine/unit"
	"ripen/store"
)

const (
	slowPage    = 10 // tanks a page, each with a full diagnosis
	silentAfter = 7  // days without a word that a moderator is told of; common practice, no source
)

// ClubSlow is the tanks of a club that need somebody, most urgent first.
type ClubSlow struct {
	Rows        []SlowRow `json:"tanks"`
	Page        int       `json:"page"`
	Pages       int       `json:"pages"`
	Next        int       `json:"next_page,omitempty"`
	Open        int       `json:"open"`      // open tanks of the club
	Unseen      int       `json:"not_shown"` // of them, those whose members did not agree
	Well        int       `json:"well"`      // of them, those that need nobody
	Behind      int       `json:"behind"`    // of them, those that this list is of
	Pending     int       `json:"pending"`   // of them, those that are being worked out just now
	SilentAfter int       `json:"silent_after_days"`

	Trouble *WeekPosted `json:"summary_trouble,omitempty"` // why the last weekly summary was not posted
}

// SlowRow is one tank of the list.
type SlowRow struct {
	Member      string       `json:"member"`
	Tank        string       `json:"tank"`
	Day         float64      `json:"day"`
	Stage       string       `json:"stage"`
	Urgency     string       `json:"urgency"` // "danger", "stalled", "slow" or "silent"
	Verdict     string       `json:"verdict"` // of the cycle, as in why
	Safety      string       `json:"safety,omitempty"`
	Cause       string       `json:"cause,omitempty"` // the first, as /why would tell it
	Percent     *float64     `json:"cause_percent,omitempty"`
	SilentDays  float64      `json:"silent_days"`
	LastReading *LastReading `json:"last_reading"`
	Ask         string       `json:"ask"`
	AsOf        *float64     `json:"as_of_day,omitempty"` // the verdict is of that day, and not of today

	tank  store.Standing
	known assessment
	place string // the urgency that it stands by in the list of all pages
}

// LastReading is what a test showed last, on the asker's scale.
type LastReading struct {
	Day     float64 `json:"day"`
	Ammonia string  `json:"ammonia,omitempty"`
	Nitrite string  `json:"nitrite,omitempty"`
}

var urgencies = []string{"danger", "stalled", "slow", "silent", ""}

// clubSlow looks at each open tank of the club: roughly, by its outlook beside that of
// a sound set-up, to rank them; in full, as /why, on the page that is shown.
func clubSlow(c *call) (Result, error) {
	if c.adviser == nil {
		return nil, refuse(CodeUnavailable, "", "/%s is not available here: no engine is plugged in", c.spec.Path())
	}
	r := ClubSlow{Rows: []SlowRow{}, Page: 1, Pages: 1, SilentAfter: silentAfter}
	if a, ok := c.args["page"]; ok {
		if a.low != math.Trunc(a.low) || a.low < 1 || a.low > 1e6 {
			return nil, refuse(CodeNumber, "page", "page %s is no number of a page; leave it out for the first", quote(a.typed))
		}
		r.Page = int(a.low)
	}
	settings, err := c.book.store.Settings(c.ctx, c.Club)
	if err != nil {
		return nil, err
	}
	if last, err := c.lastWeek(settings); err != nil {
		return nil, err
	} else if last != nil && !last.Posted {
		r.Trouble = last
	}
	rows, err := c.slowRows(&r, settings)
	if err != nil {
		return nil, err
	}
	for _, row := range rows {
		r.count(row, 1)
	}
	r.Pages = max(1, (len(rows)+slowPage-1)/slowPage)
	if r.Page > r.Pages {
		return nil, refuse(CodeRange, "page", "there is no page %d; the list has %s", r.Page, plural(r.Pages, "page", "pages"))
	}
	for _, row := range rows[(r.Page-1)*slowPage : min(r.Page*slowPage, len(rows))] {
		if row.known.part {
			row.known, _ = decoded(row.tank) // of which the rank could be read
			row.take(row.known, c.units.Scale)
		}
		r.count(row, -1)
		if err := c.closer(&row); err != nil {
			return nil, err
		}
		if r.count(row, 1); row.Urgency == "" { // the closer look shows nothing wrong
			continue
		}
		row.Ask = row.question(row.known.Settle)
		r.Rows = append(r.Rows, row)
	}
	slices.SortStableFunc(r.Rows, bySlow(func(row SlowRow) string { return row.Urgency }))
	if r.Page < r.Pages {
		r.Next = r.Page + 1
	}
	return r, nil
}

// count counts a tank of the list as one that needs somebody, or as one that only stands
// in it by its outlook.
func (r *ClubSlow) count(row SlowRow, n int) {
	if row.Urgency == "" {
		r.Well += n
	} else {
		r.Behind += n
	}
}

// slowRows ranks the open tanks that need somebody, and counts the others. Where the page
// that is shown is looked at closer, all stand by their outlooks, looked at or not, so that
// one page moves no tank to another.
func (c *call) slowRows(r *ClubSlow, settings store.Settings) ([]SlowRow, error) {
	tanks, err := c.seen(settings, true, &r.Open, &r.Pending, &r.Unseen)
	if err != nil {
		return nil, err
	}
	var rows []SlowRow
	for _, t := range tanks {
		row := SlowRow{Member: t.Member, Tank: t.Name, Day: dayNumber(t.Started, c.At), tank: t.Standing,
			SilentDays: max(0, math.Floor(c.At.Sub(t.Told).Hours()/24))}
		row.take(t.assessment, c.units.Scale)
		if row.place = row.Urgency; c.book.watch == nil {
			row.place = cmp.Or(row.urgency(row.known.Rough), row.Urgency)
		}
		if row.place == "" {
			r.Well++
			continue
		}
		rows = append(rows, row)
	}
	slices.SortStableFunc(rows, bySlow(func(row SlowRow) string { return row.place }))
	return rows, nil
}

// take fills in what is known of the tank.
func (row *SlowRow) take(known assessment, scale string) {
	row.known, row.LastReading = known, known.Last[scale]
	row.Safety, row.Stage, row.Verdict, row.Cause, row.Percent = known.Safety, known.Stage, known.Verdict, known.Cause, known.Percent
	if known.stale {
		row.AsOf = new(dayNumber(row.tank.Started, known.at))
	}
	row.Urgency = row.urgency(row.Verdict)
}

// closer puts the diagnosis in the place of a rough verdict, where nobody does so in the
// background.
func (c *call) closer(row *SlowRow) error {
	if row.known.Full || c.book.watch != nil {
		return nil
	}
	_, cs, err := c.book.readCase(c.ctx, row.tank.Tank)
	if err != nil {
		return storeError(err, row.Tank)
	}
	known := row.known
	if err := known.diagnose(c.adviser, row.tank.Tank, cs); err != nil {
		return err
	}
	row.take(known, c.units.Scale)
	return c.book.keepVerdict(c.ctx, row.tank, known)
}

// sound is a set-up without what commonly slows a cycle, to hold a tank against. Of each
// thing it is what the diagnosis would put it to.
func sound(s model.Setup) model.Setup {
	s.Conditioner = true
	if s.PH < 7.1 {
		s.PH = 7.6
	}
	s.KH = max(s.KH, unit.DKH(6).CaCO3())
	s.Temp = min(max(s.Temp, 24), 29)
	s.Flow = max(s.Flow, model.Normal)
	return s
}

// roughly tells whether a tank is late by its outlook, beside that of a sound set-up
// before anything is told. It ranks; what is shown is the diagnosis's own verdict.
func roughly(o, usual outlook.Outlook) string {
	switch {
	case o.Stage == "ready":
		return "ready"
	case usual.Done.P50 == nil || o.Done.P50 != nil && *o.Done.P50 <= late(usual):
		return "on-track"
	case o.Day >= 7 && o.ChanceNotWithin > 0.6:
		return "stalled"
	}
	return "slow"
}

// late is about the day by which four in five such tanks are done, read between their
// middle and their ninth tenth, and two days past the middle at least.
func late(usual outlook.Outlook) float64 {
	mid := *usual.Done.P50
	if usual.Done.P90 == nil {
		return mid + 2
	}
	const share = 0.84 / 1.28 // of the way, as in a normal distribution
	return max(mid+2, mid+share*(*usual.Done.P90-mid))
}

// urgency says why a tank with a verdict is in the list, "" if it is not.
func (row *SlowRow) urgency(verdict string) string {
	switch {
	case row.Safety == safety.Danger:
		return "danger"
	case verdict == "stalled" || verdict == "slow":
		return verdict
	case verdict != "ready" && row.SilentDays > silentAfter:
		return "silent"
	}
	return ""
}

// bySlow puts the most urgent first, then the longest silent, then the oldest.
func bySlow(urgency func(SlowRow) string) func(a, b SlowRow) int {
	return func(a, b SlowRow) int {
		return cmp.Or(
			cmp.Compare(slices.Index(urgencies, urgency(a)), slices.Index(urgencies, urgency(b))),
			cmp.Compare(b.SilentDays, a.SilentDays), cmp.Compare(b.Day, a.Day),
			cmp.Compare(a.Member, b.Member), cmp.Compare(a.Tank, b.Tank))
	}
}
