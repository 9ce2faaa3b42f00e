package discord

import (
	"context"
	"log/slog"
	"runtime/debug"
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
	seats  chan struct{}

	mu      sync.Mutex
	closing bool
	busy    sync.WaitGroup
}

func (c *Client) newWorkers(ctx context.Context, handle func(context.Context, *discordgo.Interaction)) *workers {
	w := &workers{handle: handle, log: c.log, each: c.work, seats: make(chan struct{}, c.crowd)}
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
	late := time.NewTimer(maxAnswer)
	defer late.Stop()
	select {
	case w.seats <- struct{}{}:
		defer func() { <-w.seats }()
	case <-late.C:
		w.log.Error("too many interactions at once; one was dropped", "interaction", i.ID)
		return
	}
	w.handle(ctx, i)
}

// finish takes no more and waits for what was begun. After the grace it is told
// to stop.
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
		w.log.Error("not all interactions were finished in time")
	}
}
