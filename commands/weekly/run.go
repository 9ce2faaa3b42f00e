package weekly

import (
	"context"
	"log/slog"
	"time"

	"github.com/go-co-op/gocron/v2"
	"github.com/jonboulle/clockwork"
)

// Chore is something to be done again and again, never twice at once.
type Chore struct {
	Name  string
	Every time.Duration
	Do    func(context.Context)
}

// Run does chores, each at once and then in its turn, until ctx is done; what is begun
// then is finished first, within the library's ten seconds.
func Run(ctx context.Context, clock clockwork.Clock, log *slog.Logger, chores ...Chore) error {
	s, err := gocron.NewScheduler(gocron.WithClock(clock), gocron.WithLocation(time.UTC))
	if err != nil {
		return err
	}
	for _, c := range chores {
		do := func() {
			defer func() { // a fault in one turn ends neither the others nor the program
				if p := recover(); p != nil {
					log.Error("a chore failed", "chore", c.Name, "panic", p)
				}
			}()
			c.Do(ctx)
		}
		_, err := s.NewJob(gocron.DurationJob(c.Every), gocron.NewTask(do), gocron.WithName(c.Name),
			gocron.WithSingletonMode(gocron.LimitModeReschedule), gocron.WithStartAt(gocron.WithStartImmediately()))
		if err != nil {
			return err
		}
	}
	s.Start()
	<-ctx.Done()
	return s.Shutdown()
}
