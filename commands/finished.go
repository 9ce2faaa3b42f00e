package commands

import (
	"context"
	"math"
	"slices"
	"time"

	"ripen/engine/model"
	"ripen/engine/unit"
	"ripen/store"
)

// When a log shows a dose cleared: both tests from half a day to a little more than a
// day after it, as keepers test on the next evening. Common practice, no source.
const (
	soonestClear = 0.5 // days
	latestClear  = 1.3
	fullDose     = 0.75 // share of the target that a dose must reach to count
)

// finish is when a tank was done, by its log and not by the engine.
type finish struct {
	day   float64 // of the tank
	shown float64 // day on which the log showed it
	known bool    // false while nothing shows it
}

// finishOf finds the day of the first of two clear challenges in a row, with no test
// between that is not clear: a dose of the target, or nearly, of which a day later
// nothing is left. Without, a keeper who closed the tank as done is believed: the day
// is that of the first of the clear tests that the log ends with, or of closing.
func finishOf(t store.Tank, entries []store.Entry, c model.Case) finish {
	passed := challenges(c)
	if len(passed) >= 2 {
		return finish{passed[0].dose, passed[1].clear, true}
	}
	if t.Closed.IsZero() || closedFor(entries) != reasonDone {
		return finish{}
	}
	closed := float64(daysSince(t.Started, t.Closed))
	if len(passed) == 1 {
		return finish{passed[0].dose, closed, true}
	}
	if first, days := lastClear(c.Readings); days >= 1 {
		return finish{first, closed, true}
	}
	return finish{closed, closed, true}
}

// Done reads a tank's log and says whether it shows the tank done, as the record has it.
// store.ErrNotFound.
func (b *Book) Done(ctx context.Context, t store.Tank) (bool, error) {
	entries, c, err := b.readCase(ctx, t)
	return err == nil && finishOf(t, entries, c).known, err
}

// firstShown is when enough had been told for a log that shows its tank done to do so,
// which is when a club hears of it. What is told later does not move it.
func firstShown(t store.Tank, entries []store.Entry, c model.Case) time.Time {
	told := slices.Clone(entries)
	slices.SortStableFunc(told, func(a, b store.Entry) int { return a.Recorded.Compare(b.Recorded) })
	for n, e := range told {
		if n+1 < len(told) && told[n+1].Recorded.Equal(e.Recorded) {
			continue
		}
		if known, ok := caseThen(t, entries, c, e.Recorded); ok {
			then := t
			if !closedBy(told[:n+1]) {
				then.Closed = time.Time{}
			}
			if finishOf(then, told[:n+1], known).known {
				return e.Recorded
			}
		}
	}
	return told[len(told)-1].Recorded
}

// caseThen is the case of what had been told of a tank by a time. It is taken out of the
// whole one, unless what a dose or the target is was told otherwise then.
func caseThen(t store.Tank, entries []store.Entry, c model.Case, last time.Time) (model.Case, bool) {
	later := func(e store.Entry) bool { return e.Recorded.After(last) }
	if slices.ContainsFunc(entries, func(e store.Entry) bool {
		return e.Kind == store.KindEdit && later(e) && (e.Value("target") != "" || e.Value("volume") != "")
	}) {
		then, err := caseOf(t, slices.DeleteFunc(slices.Clone(entries), later))
		return then, err == nil
	}
	c.Events = slices.DeleteFunc(slices.Clone(c.Events), func(e model.Event) bool { return later(entries[e.Seq]) })
	c.Readings = slices.DeleteFunc(slices.Clone(c.Readings), func(r model.Reading) bool { return later(entries[r.Seq]) })
	return c, true
}

// challenge is a dose that was cleared, and the day of the test that shows it.
type challenge struct{ dose, clear float64 }

// challenges returns the doses that were cleared: the first run of two or more, or the
// last run.
func challenges(c model.Case) (passed []challenge) {
	full := fullDose * float64(c.Setup.Target)
	for i, e := range c.Events {
		if e.Kind != model.Dose || float64(e.N) < full {
			continue
		}
		next := math.Inf(1) // the next dose, of any size
		for _, later := range c.Events[i+1:] {
			if later.Kind == model.Dose && later.Day > e.Day {
				next = float64(later.Day)
				break
			}
		}
		clear, cleared, failed := tested(c.Readings, float64(e.Day), next)
		switch {
		case failed && len(passed) >= 2:
			return passed
		case failed:
			passed = nil
		case cleared:
			passed = append(passed, challenge{float64(e.Day), clear})
		}
	}
	return passed
}

// tested says what the tests between a dose and the next tell of it.
func tested(readings []model.Reading, dose, next float64) (day float64, cleared, failed bool) {
	for _, r := range readings {
		after := float64(r.Day) - dose
		if after < soonestClear || float64(r.Day) > next || r.Ammonia == nil || r.Nitrite == nil {
			continue
		}
		if !isClear(r) {
			return 0, false, after >= 0.9 // sooner, the day is not over yet
		}
		if after <= latestClear {
			return float64(r.Day), true, false
		}
	}
	return 0, false, false
}

// isClear says whether ammonia and nitrite are both below what counts as clear.
func isClear(r model.Reading) bool {
	return !r.Ammonia.Over && !r.Nitrite.Over &&
		ionOf(r.Ammonia, unit.Ammonia) < clearMgL && ionOf(r.Nitrite, unit.Nitrite) < clearMgL
}

// clearMgL is below what both count as clear, on the ion scale: model.ClearTAN and
// model.ClearNO2.
const clearMgL = 0.25

// lastClear returns the first of the clear tests that the readings end with, and how
// many days lie between it and the last of them.
func lastClear(readings []model.Reading) (first, days float64) {
	last := math.NaN()
	for i := len(readings) - 1; i >= 0; i-- {
		r := readings[i]
		switch {
		case r.Ammonia == nil || r.Nitrite == nil:
		case !isClear(r):
			return first, days
		case math.IsNaN(last):
			last, first = float64(r.Day), float64(r.Day)
		default:
			first, days = float64(r.Day), last-float64(r.Day)
		}
	}
	return first, days
}

// Why a tank was closed.
const (
	reasonDone    = "done"
	reasonGivenUp = "given-up"
	reasonMoved   = "moved"
	reasonOther   = "other"
)

var reasons = []string{reasonDone, reasonGivenUp, reasonMoved, reasonOther}

func optReason() Option {
	return Option{Name: "reason", Type: TypeChoice, Choices: reasons, Help: "why: done (it carries its animals or its dose now), given-up, moved, other"}
}

// closedBy says whether the tank was closed by one of the entries.
func closedBy(entries []store.Entry) bool {
	return slices.ContainsFunc(entries, func(e store.Entry) bool { return e.Value("closed") != "" })
}

// closedFor is why the tank was closed last, "" if that was not said.
func closedFor(entries []store.Entry) string {
	why, last := "", int64(-1)
	for _, e := range entries {
		if e.Value("closed") != "" && e.ID > last {
			why, last = e.Value("reason"), e.ID
		}
	}
	return why
}
