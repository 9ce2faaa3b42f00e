package commands

import (
	"context"
	"errors"
	"time"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/store"
)

// assessment is what lists and summaries of a club need of a tank. It is kept with the
// tank, since the engine takes up to a second for each; of closed ones, which need no
// engine, since there are ever more of them.
type assessment struct {
	rank
	Began   time.Time               `json:"began"` // when the tank was registered
	Stage   string                  `json:"stage"`
	Done    outlook.Quantiles       `json:"done_day"`
	Cause   string                  `json:"cause,omitempty"` // the first, as /why would tell it
	Percent *float64                `json:"percent,omitempty"`
	Settle  string                  `json:"settle,omitempty"`  // what would settle that cause
	Last    map[string]*LastReading `json:"last"`              // by scale
	DoneOn  *float64                `json:"done_on,omitempty"` // day that it was done, by its log
	Shown   *time.Time              `json:"shown,omitempty"`   // and when the log showed it first
	Sorts   map[string]bool         `json:"sorts,omitempty"`   // what lessons compare, of a tank that is done
	Scores  []scored                `json:"scores,omitempty"`  // and how its outlooks did

	at    time.Time // the moment that it is about
	stale bool      // something was told since, or a day has passed
	part  bool      // it is a rank alone
}

// rank is the part of an assessment that tells which tanks a list is of.
type rank struct {
	Form    int        `json:"form"`            // assessForm
	Share   string     `json:"share,omitempty"` // the member's consent, as said
	Told    time.Time  `json:"told"`            // when anything was told last
	Verdict string     `json:"verdict"`
	Rough   string     `json:"rough"` // the verdict by the outlook, which stays when the diagnosis's takes its place
	Full    bool       `json:"full"`  // the verdict is the diagnosis's; else it is by the outlook, roughly
	Safety  string     `json:"safety,omitempty"`
	Noted   *time.Time `json:"noted,omitempty"` // since when the member wants a weekly note
}

// needsCloser holds for tanks whose rough verdict somebody would act on.
func (a assessment) needsCloser() bool {
	return !a.Full && (a.Verdict == "slow" || a.Verdict == "stalled" || a.Safety == "danger")
}

// ErrPending is the answer for a tank that is not worked out yet, where that is done in
// the background: ask again in a while.
var ErrPending = errors.New("not worked out yet")

// assessed returns what is known of an open tank at a time. Where a watch works in the
// background it is what that found last, be it of an earlier log or day (stale), or ErrPending;
// elsewhere it is worked out now. ranks says that its rank is enough. store.ErrNotFound if
// the tank is gone.
func (b *Book) assessed(ctx context.Context, by Adviser, s store.Standing, now time.Time, ranks bool) (assessment, error) {
	fresh := s.Verdict.Revision == s.Revision
	today := fresh && !s.Verdict.At.Before(midnight(now.UTC()))
	if today && ranks {
		if r, ok := ranked(s); ok {
			return assessment{rank: r, at: s.Verdict.At, part: true}, nil
		}
	}
	a, known := decoded(s)
	switch {
	case known && today:
		return a, nil
	case b.watch == nil:
		return b.assess(ctx, by, s, now, false)
	}
	b.watch.look(s.ID)
	switch a.stale = true; {
	case !known:
		return a, ErrPending
	case fresh:
		return a, nil
	}
	// What was told since counts at once where it costs nothing: consent first of all.
	entries, c, err := b.readCase(ctx, s.Tank)
	if err != nil {
		return a, err
	}
	return a, b.glance(ctx, &a, s.Tank, entries, c, now)
}

// seen is a tank that may be shown.
type seen struct {
	store.Standing
	assessment
}

// seen lists the club's open tanks that may be shown, and counts all of them, those that
// are not worked out yet and those that may not be shown. For ranks see assessed.
func (c *call) seen(s store.Settings, ranks bool, open, pending, unseen *int) ([]seen, error) {
	tanks, err := c.book.store.Standings(c.ctx, c.Club, false)
	if err != nil {
		return nil, err
	}
	var all []seen
	for _, t := range tanks {
		known, err := c.book.assessed(c.ctx, c.adviser, t, c.At, ranks)
		switch {
		case errors.Is(err, store.ErrNotFound): // taken back meanwhile
			continue
		case errors.Is(err, ErrPending):
			*pending++
		case err != nil:
			return nil, err
		case !mayShow(known.Share, s):
			*unseen++
		default:
			all = append(all, seen{t, known})
		}
		*open++
	}
	return all, nil
}

// read returns what a tank's log shows without the engine, from what is kept where that is
// of the same log. Of a closed tank it is kept for the next time.
func (b *Book) read(ctx context.Context, s store.Standing, now time.Time) (assessment, error) {
	if a, known := decoded(s); known && s.Verdict.Revision == s.Revision {
		return a, nil
	}
	entries, c, err := b.readCase(ctx, s.Tank)
	if err != nil {
		return assessment{}, err
	}
	if s.Closed.IsZero() {
		a := assessment{at: now}
		return a, b.glance(ctx, &a, s.Tank, entries, c, now)
	}
	a := assessment{at: s.Closed}
	if err := b.glance(ctx, &a, s.Tank, entries, c, s.Closed); err != nil {
		return a, err
	}
	return a, b.keepVerdict(ctx, s, a)
}

// closed lists the club's closed tanks that may be shown. store.ErrNotFound of one is no
// error: it was taken back meanwhile.
func (c *call) closed(s store.Settings) (all []seen, err error) {
	tanks, err := c.book.store.Standings(c.ctx, c.Club, true)
	if err != nil {
		return nil, err
	}
	for _, t := range tanks {
		known, err := c.book.read(c.ctx, t, c.At)
		switch {
		case errors.Is(err, store.ErrNotFound):
		case err != nil:
			return nil, err
		case mayShow(known.Share, s) && !t.Closed.After(c.At):
			all = append(all, seen{t, known})
		}
	}
	return all, nil
}

// assess works a tank out and keeps what it finds. closer asks for the diagnosis where
// the outlook shows something amiss.
func (b *Book) assess(ctx context.Context, by Adviser, s store.Standing, now time.Time, closer bool) (assessment, error) {
	entries, cs, err := b.readCase(ctx, s.Tank)
	if err != nil {
		return assessment{}, err
	}
	a := assessment{at: asOf(now, entries)}
	if err := b.glance(ctx, &a, s.Tank, entries, cs, now); err != nil {
		return a, err
	}
	o, err := by.Outlook(cs, daysSince(s.Started, a.at))
	if err != nil {
		return a, engineError(err)
	}
	usual, err := by.Outlook(model.Case{Setup: sound(cs.Setup)}, 0)
	if err != nil {
		return a, engineError(err)
	}
	a.Stage, a.Done, a.Rough = o.Stage, o.Done, roughly(o, usual)
	a.Verdict = a.Rough
	if closer && a.needsCloser() {
		if err := a.diagnose(by, s.Tank, cs); err != nil {
			return a, err
		}
	}
	return a, b.keepVerdict(ctx, s, a)
}

// readCase reads a tank's log. store.ErrNotFound.
func (b *Book) readCase(ctx context.Context, t store.Tank) ([]store.Entry, model.Case, error) {
	entries, err := b.store.Entries(ctx, t.ID)
	if err != nil {
		return nil, model.Case{}, err
	}
	c, err := caseOf(t, entries)
	return entries, c, err
}

// glance fills in what needs no engine.
func (b *Book) glance(ctx context.Context, a *assessment, t store.Tank, entries []store.Entry, cs model.Case, now time.Time) error {
	a.Share, a.Told = consent(entries), t.Started
	for _, e := range entries {
		if e.Recorded.After(a.Told) {
			a.Told = e.Recorded
		}
		if e.Kind == store.KindSetup {
			a.Began = e.Recorded
		}
	}
	a.Noted = noteSince(entries)
	a.Safety = animalSafety(cs, t, now)
	a.Last = map[string]*LastReading{}
	for _, scale := range scaleNames {
		a.Last[scale] = lastReading(t, cs, scale)
	}
	a.DoneOn, a.Shown, a.Sorts, a.Scores = nil, nil, nil, nil
	f := finishOf(t, entries, cs)
	if !f.known {
		return nil
	}
	given, err := b.store.TankOutlooks(ctx, t.ID)
	a.DoneOn, a.Shown, a.Sorts, a.Scores = &f.day, new(firstShown(t, entries, cs)), sortsOf(cs), scoresOf(t, f.day, given)
	return err
}

// diagnose fills in what /why says of the tank.
func (a *assessment) diagnose(by Adviser, t store.Tank, cs model.Case) error {
	d, o, err := by.Why(cs, daysSince(t.Started, a.at))
	if err != nil {
		return engineError(err)
	}
	w := Why{Verdict: d.Verdict}
	for i, x := range d.Causes {
		w.Causes = append(w.Causes, causeOf(i+1, x))
	}
	a.Stage, a.Verdict, a.Full = o.Stage, d.Verdict, true
	a.Cause, a.Percent, a.Settle = "", nil, ""
	if told := w.told(); len(told) > 0 {
		a.Cause, a.Percent, a.Settle = told[0].Cause, &told[0].Percent, told[0].Settle
	}
	return nil
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
