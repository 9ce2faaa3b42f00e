package weekly

import (
	"context"
	"errors"
	"time"

	"ripen/commands"
)

// Direct sends a reply to a member alone. A key that was sent some minutes ago is not sent
// again. The error is ErrNotSent as a Poster's.
type Direct interface {
	DirectReply(ctx context.Context, member string, reply commands.Reply, key string) error
}

// Noter makes the weekly notes to members.
type Noter interface {
	WeekNotes(ctx context.Context, club string, due, now time.Time) ([]commands.MemberNote, error)
}

// notedNote names what is kept of a member's last note. It goes with the member's data.
const notedNote = "noted/"

// Notes sends members the weekly notes that they asked for, when their club's summary is
// due, whether that is posted or not. That a note is on its way is kept before it is sent,
// so a crash may lose one and never sends two; of two processes at once the platform takes
// one. Where surely none was sent, as without a line, it and those after it are tried again at
// the next look. A member whose messages are closed to the bot gets none, and nobody hears of
// it.
func (w *Weekly) Notes(ctx context.Context, from Noter, to Direct) {
	clubs, err := w.Store.AllClubs(ctx)
	if err != nil {
		w.Log.Error("the clubs could not be listed", "error", err)
		return
	}
	for _, club := range clubs {
		if ctx.Err() != nil {
			return
		}
		err := w.notes(ctx, club, from, to)
		if err != nil {
			w.Log.Error("weekly notes failed", "club", club, "error", err)
		}
		if errors.Is(err, ErrNotSent) {
			return
		}
	}
}

func (w *Weekly) notes(ctx context.Context, club string, from Noter, to Direct) error {
	settings, err := w.Store.Settings(ctx, club)
	if err != nil {
		return err
	}
	now := w.Now()
	name, due, err := commands.DueWeek(settings, now)
	if err != nil || w.noted[club] == name || now.Sub(due) > noteLasts {
		return err
	}
	all, err := from.WeekNotes(ctx, club, due, now)
	if errors.Is(err, commands.ErrPending) {
		return nil // in a minute
	}
	if err != nil {
		return err
	}
	for _, n := range all {
		last, err := w.Store.Note(ctx, club, notedNote+n.Member)
		if err != nil {
			return err
		}
		if last == name {
			continue
		}
		if err := w.Store.SetNote(ctx, club, notedNote+n.Member, name); err != nil {
			return err
		}
		err = to.DirectReply(ctx, n.Member, n.Reply, "note/"+club+"/"+n.Member+"/"+name)
		if errors.Is(err, ErrNotSent) {
			return errors.Join(err, w.Store.SetNote(context.WithoutCancel(ctx), club, notedNote+n.Member, last))
		}
		if err != nil {
			w.Log.Warn("a weekly note was not sent", "club", club, "error", err)
		}
	}
	if w.noted == nil {
		w.noted = map[string]string{}
	}
	w.noted[club] = name
	return nil
}

// noteLasts is how long after it was due a note is still worth sending.
const noteLasts = 24 * time.Hour
