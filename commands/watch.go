package commands

import (
	"context"
	"errors"
	"time"

	"ripen/store"
)

// Watch keeps what is known of tanks up to date in the background, so that /club slow
// answers at once. It looks at a tank soon after something was told of it, and at all open
// ones when a day has passed. What falls out of its queue is found by Sweep.
type Watch struct {
	advisers advisers
	queue    chan int64 // tanks to look at
	failed   func(tank int64, err error)
	book     *Book
}

// watchQueue bounds the tanks that wait.
const watchQueue = 256

// NewWatch returns a watch with an engine of its own, so that its work pushes nothing out
// of the memory of the one that answers. failed is told what went wrong.
func NewWatch(a Adviser, failed func(tank int64, err error)) *Watch {
	return &Watch{advisers: advisers{base: a}, queue: make(chan int64, watchQueue), failed: failed}
}

// WithWatch lets a watch keep verdicts up to date; Run does the work.
func WithWatch(w *Watch) Setting {
	return func(b *Book) { b.watch = w }
}

// look puts a tank in the queue, unless that is full.
func (w *Watch) look(tank int64) {
	select {
	case w.queue <- tank:
	default:
	}
}

// Run looks at tanks as they come until ctx is done.
func (w *Watch) Run(ctx context.Context, now func() time.Time) {
	for {
		select {
		case <-ctx.Done():
			return
		case tank := <-w.queue:
			w.update(ctx, tank, now())
		}
	}
}

// Sweep looks at every tank whose verdict is missing, of an earlier log or, while it is
// open, of an earlier day.
func (w *Watch) Sweep(ctx context.Context, now time.Time) error {
	tanks, err := w.book.store.Outdated(ctx, midnight(now.UTC()))
	if err != nil {
		return err
	}
	for _, t := range tanks {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		w.update(ctx, t, now)
	}
	return nil
}

// update works a tank out in full, unless nothing changed since.
func (w *Watch) update(ctx context.Context, tank int64, now time.Time) {
	s, err := w.book.store.Standing(ctx, tank)
	if err == nil && !s.Closed.IsZero() {
		_, err = w.book.read(ctx, s, now)
	} else if err == nil {
		if a, ok := decoded(s); ok && s.Verdict.Revision == s.Revision && !a.at.Before(midnight(now.UTC())) && !a.needsCloser() {
			return
		}
		var by Adviser
		if by, _, err = w.advisers.of(ctx, w.book.store, s.Club); err == nil {
			_, err = w.book.assess(ctx, by, s, now, true)
		}
	}
	if err != nil && !errors.Is(err, store.ErrNotFound) && ctx.Err() == nil {
		w.failed(tank, err)
	}
}

// watched is a store that tells a watch what was told of which tank.
type watched struct {
	store.Store
	watch *Watch
}

func (s watched) AddTank(ctx context.Context, t store.Tank, setup store.Entry) (store.Tank, error) {
	added, err := s.Store.AddTank(ctx, t, setup)
	if err == nil {
		s.watch.look(added.ID)
	}
	return added, err
}

func (s watched) EditTank(ctx context.Context, tank int64, name string, started time.Time, edit store.Entry) (bool, error) {
	added, err := s.Store.EditTank(ctx, tank, name, started, edit)
	if added {
		s.watch.look(tank)
	}
	return added, err
}

func (s watched) CloseTank(ctx context.Context, tank int64, at time.Time, edit store.Entry) error {
	err := s.Store.CloseTank(ctx, tank, at, edit)
	if err == nil {
		s.watch.look(tank)
	}
	return err
}

func (s watched) AddEntry(ctx context.Context, e store.Entry) (bool, error) {
	added, err := s.Store.AddEntry(ctx, e)
	if added {
		s.watch.look(e.Tank)
	}
	return added, err
}

func (s watched) Undo(ctx context.Context, club, member, of, key string, at time.Time) (store.Entry, store.Tank, error) {
	e, t, err := s.Store.Undo(ctx, club, member, of, key, at)
	if err == nil {
		s.watch.look(t.ID)
	}
	return e, t, err
}
