package commands

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"time"

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
	SilentAfter int       `json:"silent_after_days"`
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

	tank store.Tank
	cs   model.Case
	at   time.Time
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
	if c.book.adviser == nil {
		return nil, refuse(CodeUnavailable, "", "/%s is not available here: no engine is plugged in", c.spec.Path())
	}
	r := ClubSlow{Rows: []SlowRow{}, Page: 1, Pages: 1, SilentAfter: silentAfter}
	if a, ok := c.args["page"]; ok {
		if a.low != math.Trunc(a.low) || a.low < 1 || a.low > 1e6 {
			return nil, refuse(CodeNumber, "page", "page %s is no number of a page; leave it out for the first", quote(a.typed))
		}
		r.Page = int(a.low)
	}
	rows, err := c.slowRows(&r)
	if err != nil {
		return nil, err
	}
	r.Behind = len(rows)
	r.Pages = max(1, (len(rows)+slowPage-1)/slowPage)
	if r.Page > r.Pages {
		return nil, refuse(CodeRange, "page", "there is no page %d; the list has %s", r.Page, plural(r.Pages, "page", "pages"))
	}
	for _, row := range rows[(r.Page-1)*slowPage : min(r.Page*slowPage, len(rows))] {
		if err := c.diagnose(&row); err != nil {
			return nil, err
		}
		if row.Urgency == "" { // the closer look shows nothing wrong
			r.Behind, r.Well = r.Behind-1, r.Well+1
			continue
		}
		r.Rows = append(r.Rows, row)
	}
	slices.SortStableFunc(r.Rows, bySlow)
	if r.Page < r.Pages {
		r.Next = r.Page + 1
	}
	return r, nil
}

// slowRows ranks the open tanks that need somebody, and counts the others.
func (c *call) slowRows(r *ClubSlow) ([]SlowRow, error) {
	settings, err := c.book.store.Settings(c.ctx, c.Club)
	if err != nil {
		return nil, err
	}
	tanks, err := c.book.store.ClubTanks(c.ctx, c.Club)
	if err != nil {
		return nil, err
	}
	var rows []SlowRow
	for _, t := range tanks {
		if !t.Closed.IsZero() {
			continue
		}
		entries, err := c.book.store.Entries(c.ctx, t.ID)
		if errors.Is(err, store.ErrNotFound) { // taken back meanwhile
			continue
		}
		if err != nil {
			return nil, err
		}
		r.Open++
		if !mayShow(entries, settings) {
			r.Unseen++
			continue
		}
		row, err := c.slowRow(t, entries)
		if err != nil {
			return nil, err
		}
		if row.Urgency == "" {
			r.Well++
			continue
		}
		rows = append(rows, row)
	}
	slices.SortStableFunc(rows, bySlow)
	return rows, nil
}

// slowRow looks at one tank roughly.
func (c *call) slowRow(t store.Tank, entries []store.Entry) (SlowRow, error) {
	cs, err := caseOf(t, entries)
	if err != nil {
		return SlowRow{}, err
	}
	told := t.Started
	for _, e := range entries {
		if e.Recorded.After(told) {
			told = e.Recorded
		}
	}
	row := SlowRow{Member: t.Member, Tank: t.Name, Day: dayNumber(t.Started, c.At), tank: t, cs: cs, at: asOf(c.At, entries),
		SilentDays: max(0, math.Floor(c.At.Sub(told).Hours()/24)), LastReading: lastReading(t, cs, c.units.Scale)}
	row.Safety = animalSafety(cs, t, c.At)
	now := daysSince(t.Started, row.at)
	o, err := c.book.adviser.Outlook(cs, now)
	if err != nil {
		return row, engineError(err)
	}
	usual, err := c.book.adviser.Outlook(model.Case{Setup: sound(cs.Setup)}, 0)
	if err != nil {
		return row, engineError(err)
	}
	row.Stage, row.Verdict = o.Stage, roughly(o, usual)
	row.rank()
	return row, nil
}

// asOf is the last midnight, or the last entry if that is later: verdicts of one day are
// of one moment, so the engine need not work them out again at each question.
func asOf(now time.Time, entries []store.Entry) time.Time {
	at := midnight(now.UTC())
	for _, e := range entries {
		if e.At.After(at) && !e.At.After(now) {
			at = e.At
		}
	}
	return at
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

// rank says why a tank is in the list, if it is.
func (row *SlowRow) rank() {
	switch {
	case row.Safety == safety.Danger:
		row.Urgency = "danger"
	case row.Verdict == "stalled" || row.Verdict == "slow":
		row.Urgency = row.Verdict
	case row.Verdict != "ready" && row.SilentDays > silentAfter:
		row.Urgency = "silent"
	default:
		row.Urgency = ""
	}
}

// bySlow puts the most urgent first, then the longest silent, then the oldest.
func bySlow(a, b SlowRow) int {
	return cmp.Or(
		cmp.Compare(slices.Index(urgencies, a.Urgency), slices.Index(urgencies, b.Urgency)),
		cmp.Compare(b.SilentDays, a.SilentDays), cmp.Compare(b.Day, a.Day),
		cmp.Compare(a.Member, b.Member), cmp.Compare(a.Tank, b.Tank))
}

// diagnose fills in what /why says of the tank.
func (c *call) diagnose(row *SlowRow) error {
	d, o, err := c.book.adviser.Why(row.cs, daysSince(row.tank.Started, row.at))
	if err != nil {
		return engineError(err)
	}
	w := Why{Verdict: d.Verdict}
	for i, x := range d.Causes {
		w.Causes = append(w.Causes, causeOf(i+1, x))
	}
	row.Stage, row.Verdict = o.Stage, d.Verdict
	row.rank()
	settle := ""
	if told := w.told(); len(told) > 0 {
		row.Cause, row.Percent, settle = told[0].Cause, &told[0].Percent, told[0].Settle
	}
	row.Ask = row.question(settle)
	return nil
}
