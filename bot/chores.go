package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"github.com/jonboulle/clockwork"

	"ripen/bot/discord"
	"ripen/commands"
	"ripen/commands/weekly"
	"ripen/engine/advise"
)

// poster posts to channels and members of Discord.
type poster struct{ *discord.Client }

// PostReply posts a reply, and says of what failed whether the club or nobody can mend it.
func (p poster) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	err := p.Client.PostReply(ctx, channel, reply, key)
	switch {
	case errors.Is(err, discord.ErrChannelGone):
		return weekly.ErrMend{Words: "its channel is not there any more; name another, as in /club settings channel:"}
	case errors.Is(err, discord.ErrNotAllowed):
		return weekly.ErrMend{Words: "I may not write in its channel; let me see it, write and attach files there, then name it again with /club settings channel:"}
	case errors.Is(err, discord.ErrNotSent):
		return fmt.Errorf("%w: %w", weekly.ErrNotSent, err)
	}
	return err
}

// DirectReply sends a reply to a member, and says if surely nothing was sent.
func (p poster) DirectReply(ctx context.Context, member string, reply commands.Reply, key string) error {
	err := p.Client.DirectReply(ctx, member, reply, key)
	if errors.Is(err, discord.ErrNotSent) {
		return fmt.Errorf("%w: %w", weekly.ErrNotSent, err)
	}
	return err
}

// newWatch returns what keeps verdicts of open tanks up to date while clubs are served.
// What it finds e knows too, so that members who ask after a reading need not wait.
func newWatch(e *advise.Engine, log *slog.Logger) *commands.Watch {
	return commands.NewWatch(learner{e.Beside(2)}, func(tank int64, err error) {
		log.Error("a tank could not be worked out", "tank", tank, "error", err)
	})
}

// chores does in the background what nobody asks for: weekly summaries, verdicts of
// tanks, learning from those that are finished, and sweeping what was erased out of the
// files. It returns a function that waits until all is ended, which is soon after ctx.
func chores(ctx context.Context, a *app, w *commands.Watch, p weekly.Poster, to weekly.Direct, now func() time.Time, log *slog.Logger) (wait func()) {
	posts := weekly.Weekly{Store: a.store, Book: a, Poster: p, Now: now, Log: log}
	var all sync.WaitGroup
	all.Go(func() { w.Run(ctx, now) })
	all.Go(func() {
		err := weekly.Run(ctx, clockwork.NewRealClock(), log,
			weekly.Chore{Name: "weekly summaries", Every: time.Minute, Do: func(ctx context.Context) {
				posts.Look(ctx)
				posts.Notes(ctx, a, to)
			}},
			weekly.Chore{Name: "verdicts", Every: time.Hour, Do: func(ctx context.Context) {
				if err := w.Sweep(ctx, now()); err != nil && ctx.Err() == nil {
					log.Error("the tanks could not be looked through", "error", err)
				}
			}},
			weekly.Chore{Name: "sweeping", Every: time.Minute, Do: func(ctx context.Context) {
				if err := a.store.Sweep(ctx); err != nil && ctx.Err() == nil {
					log.Warn("what was erased still stands in the database's files; it is tried again", "error", err)
				}
			}},
			weekly.Chore{Name: "learning", Every: 24 * time.Hour, Do: func(ctx context.Context) {
				if err := a.LearnAll(ctx); err != nil && ctx.Err() == nil {
					log.Error("nothing was learnt", "error", err)
				}
			}})
		if err != nil {
			log.Error("the chores ended", "error", err)
		}
	})
	return all.Wait
}
