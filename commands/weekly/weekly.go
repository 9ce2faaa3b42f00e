// Package weekly posts each club's weekly summary, once.
//
// What was posted stands in the store alone. A week is claimed by a row of its own before
// anything else happens, marked right before it is handed to the platform, and closed when
// the outcome is known; each step wins only over what the step before left. So a restart, a
// crash at any point, a jump of the clock or a second process on the same database posts no
// week twice, and a time of being down is made up for with one summary, that of the last
// week. A library counts the minutes between looks; when a summary is due is read off the
// store and the clock each time (commands.DueWeek).
package weekly

import (
	"context"
	"errors"
	"log/slog"
	"time"

	"ripen/commands"
	"ripen/store"
)

// Poster posts a reply to a channel of a club. A key that was posted some minutes ago is
// not posted again.
type Poster interface {
	PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error
}

// ErrMend is what a Poster's error is when the club has to mend something before posting
// can work; Words tell moderators what.
type ErrMend struct{ Words string }

func (e ErrMend) Error() string { return e.Words }

// ErrNotSent is among a Poster's errors when surely nothing was posted, so that it may be
// tried again at any time.
var ErrNotSent = errors.New("not sent")

// How long steps may take.
const (
	claimLasts = 10 * time.Minute // to work a summary out; then another may take the week over
	inFlight   = 30 * time.Second // to hand it over
	keyLasts   = 3 * time.Minute  // the platform knows a key; "some minutes" in its description
)

// Weekly posts the summaries of all clubs of a store.
type Weekly struct {
	Store store.Store
	Book  interface { // makes the summaries
		Do(context.Context, commands.Request) commands.Reply
	}
	Poster Poster
	Now    func() time.Time
	Log    *slog.Logger

	noted map[string]string // last week whose notes were all sent, by club
}

// Look posts what is due. An error of one club is logged and keeps no other from its own.
func (w *Weekly) Look(ctx context.Context) {
	clubs, err := w.Store.DigestClubs(ctx)
	if err != nil {
		w.Log.Error("the clubs could not be listed", "error", err)
		return
	}
	for _, club := range clubs {
		if ctx.Err() != nil {
			return
		}
		if err := w.club(ctx, club); err != nil {
			w.Log.Error("a weekly summary failed", "club", club, "error", err)
		}
	}
}

// club posts a club's last summary that was due, unless somebody has.
func (w *Weekly) club(ctx context.Context, club string) error {
	settings, err := w.Store.Settings(ctx, club)
	if err != nil || !settings.Digest {
		return err
	}
	now := w.Now()
	name, _, err := commands.DueWeek(settings, now)
	if err != nil {
		return err
	}
	week, err := w.Store.Week(ctx, club, name)
	if err != nil {
		return err
	}
	switch {
	case !week.Ended.IsZero():
		return nil
	case !week.Sent.IsZero() && apart(now, week.Sent) < inFlight:
		return nil // another process is at it, or was a moment ago
	case !week.Sent.IsZero() && apart(now, week.Sent) > keyLasts:
		return w.end(ctx, &week, commands.WeekUnknown)
	case week.Sent.IsZero() && week.Turn > 0 && apart(now, week.Claimed) < claimLasts:
		return nil
	}
	if week.Sent.IsZero() { // else it is tried again, as it was
		week.Claimed = now
	}
	if won, err := w.step(ctx, &week); err != nil || !won {
		return err
	}
	return w.post(ctx, settings.Channel, &week)
}

// post works the summary of a claimed week out and posts it.
func (w *Weekly) post(ctx context.Context, channel string, week *store.Week) error {
	since, err := w.told(ctx, *week)
	if err != nil {
		return err
	}
	reply := w.Book.Do(ctx, commands.Request{At: week.Claimed, Since: since, Club: week.Club, Moderator: true, Command: "club", Sub: "week"})
	if !reply.OK {
		return errors.Join(errors.New("the summary could not be made"), reply.Err, errors.Unwrap(reply.Err))
	}
	switch now := w.Now(); {
	case week.Sent.IsZero():
		week.Sent = now
	case apart(now, week.Sent) > keyLasts: // a second try keeps the time of the first, from which on the key counts
		return w.end(ctx, week, commands.WeekUnknown)
	}
	if won, err := w.step(ctx, week); err != nil || !won {
		return err
	}
	err = w.Poster.PostReply(ctx, channel, reply, key(week))
	mend, club := errors.AsType[ErrMend](err)
	switch {
	case err == nil:
		return w.end(ctx, week, "")
	case club:
		return errors.Join(err, w.end(ctx, week, mend.Words))
	case errors.Is(err, ErrNotSent):
		week.Sent = time.Time{}
		_, stepped := w.step(context.WithoutCancel(ctx), week)
		return errors.Join(err, stepped)
	}
	return err // with the same key while that is known
}

// told is the moment up to which earlier summaries tell, so that this one goes on from
// there, whatever was late, left out, turned off or changed between. It is zero where that
// is too long ago, or none was posted.
func (w *Weekly) told(ctx context.Context, week store.Week) (since time.Time, err error) {
	for before := week; ; {
		before, err = w.Store.WeekBefore(ctx, week.Club, before.Name)
		switch {
		case err != nil || before.Name == "" || before.Claimed.Before(week.Claimed.Add(-longestBack)):
			return since, err
		case before.Claimed.After(week.Claimed): // the clock was set back
		case !before.Sent.IsZero() && (before.Trouble == "" || before.Trouble == commands.WeekUnknown):
			return before.Claimed, nil
		}
	}
}

// longestBack is how far back a summary reaches that makes up for missed ones.
const longestBack = 28 * 24 * time.Hour

// end closes a week; trouble says why it was not posted.
func (w *Weekly) end(ctx context.Context, week *store.Week, trouble string) error {
	week.Ended, week.Trouble = w.Now(), trouble
	_, err := w.step(context.WithoutCancel(ctx), week)
	return err
}

// step stores a week unless another was there first.
func (w *Weekly) step(ctx context.Context, week *store.Week) (won bool, err error) {
	if won, err = w.Store.SetWeek(ctx, *week); won {
		week.Turn++
	}
	return won, err
}

// key names a summary to the platform.
func key(w *store.Week) string { return "week/" + w.Club + "/" + w.Name }

// apart is how far two times lie apart, whichever is first: clocks are set back, too.
func apart(a, b time.Time) time.Duration { return a.Sub(b).Abs() }
