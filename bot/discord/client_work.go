package discord

import (
	"context"
	"log/slog"
	"maps"
	"runtime/debug"
	"slices"
	"sync"
	"time"

	"github.com/bwmarrin/discordgo"
)

// workers work on interactions, each on its own.
type workers struct {
	ctx    context.Context // outlasts the connection
	cancel context.CancelFunc
	handle func(context.Context, *discordgo.Interaction)
	log    *slog.Logger
	each   time.Duration
	answer time.Duration
	seats  chan struct{}

	abandon func(context.Context, *discordgo.Interaction) // tells that it will not be finished

	mu      sync.Mutex // protects all below
	closing bool
	busy    sync.WaitGroup
	open    map[*discordgo.Interaction]bool // that are worked on
}

func (c *Client) newWorkers(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) *workers {
	w := &workers{handle: handle, log: c.log, each: c.work, answer: c.answer, seats: make(chan struct{}, c.crowd), abandon: c.abandon, open: map[*discordgo.Interaction]bool{}}
	w.ctx, w.cancel = context.WithCancel(context.WithoutCancel(ctx))
	return w
}

// dispatch works on an interaction as it came. Whatever goes wrong in that, the
// others don't notice.
func (w *workers) dispatch(raw []byte) {
	w.mu.Lock()
	if w.closing {
		w.mu.Unlock()
		return
	}
	w.busy.Add(1)
	w.mu.Unlock()
	defer w.busy.Done()
	defer func() {
		if p := recover(); p != nil {
			w.log.Error("working on an interaction panicked", "panic", p, "stack", string(debug.Stack()))
		}
	}()
	i, err := parseInteraction(raw)
	if err != nil {
		w.log.Error("an interaction can't be read", "error", err)
		return
	}
	ctx, cancel := context.WithTimeout(w.ctx, w.each)
	defer cancel()
	late := time.NewTimer(w.answer)
	defer late.Stop()
	select {
	case w.seats <- struct{}{}:
		defer func() { <-w.seats }()
	case <-late.C:
		w.log.Error("too many interactions at once; one was dropped", "interaction", i.ID)
		return
	}
	w.mark(i, true)
	defer w.mark(i, false)
	w.handle(ctx, i)
}

func (w *workers) mark(i *discordgo.Interaction, open bool) {
	w.mu.Lock()
	defer w.mu.Unlock()
	if open {
		w.open[i] = true
	} else {
		delete(w.open, i)
	}
}

// finish takes no more and waits for what was begun. After the grace it is told to
// stop, and who waits for an answer is told that none will come.
func (w *workers) finish(grace time.Duration) {
	w.mu.Lock()
	w.closing = true
	w.mu.Unlock()
	defer w.cancel()
	done := make(chan struct{})
	go func() {
		w.busy.Wait()
		close(done)
	}()
	timer := time.NewTimer(grace)
	defer timer.Stop()
	select {
	case <-done:
	case <-timer.C:
		w.cancel()
		w.mu.Lock()
		left := slices.Collect(maps.Keys(w.open))
		w.mu.Unlock()
		w.log.Error("not all interactions were finished in time", "left", len(left))
		ctx, cancel := context.WithTimeout(context.WithoutCancel(w.ctx), w.answer)
		defer cancel()
		var told sync.WaitGroup
		for _, i := range left {
			told.Go(func() { w.abandon(ctx, i) })
		}
		told.Wait()
	}
}

// abandon tells who asked that the answer will not come. Where the platform still
// waits for a first answer there is nothing to edit, and it tells so itself.
func (c *Client) abandon(ctx context.Context, i *discordgo.Interaction) {
	const text = "I was stopped before this was done. Please look with /tank show at what was stored, and ask again in a while."
	if err := c.Edit(ctx, i, Message{Content: text}); err != nil {
		c.log.Error("nor was that told", "interaction", i.ID, "error", err)
	}
}
