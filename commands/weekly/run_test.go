package weekly

import (
	"context"
	"log/slog"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"github.com/jonboulle/clockwork"
)

// Chores are done at once and then in their turn; one that fails is done again in its next
// turn, and none ever runs beside itself. Time is the test's own and moves on when everything
// waits, so each chore has to take some: the library reads a turn over in no time as not come yet.
func TestRun(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, stop := context.WithCancel(t.Context())
		ended := make(chan error)
		var often, seldom, long, beside atomic.Int32
		go func() {
			ended <- Run(ctx, clockwork.NewRealClock(), slog.New(slog.DiscardHandler),
				Chore{"often", time.Minute, func(context.Context) { often.Add(1); time.Sleep(time.Second); panic("a fault") }},
				Chore{"seldom", time.Hour, func(context.Context) { seldom.Add(1); time.Sleep(time.Second) }},
				Chore{"long", time.Minute, func(context.Context) {
					long.Add(1)
					if beside.Add(1) > 1 {
						t.Error("a chore ran beside itself")
					}
					time.Sleep(10*time.Minute + time.Second)
					beside.Add(-1)
				}})
		}()
		for _, want := range []struct {
			after               time.Duration
			often, seldom, long int32
		}{
			{30 * time.Second, 1, 1, 1}, // at once
			{time.Minute, 2, 1, 1},
			{59 * time.Minute, 61, 2, 6}, // turns that come while the last is not over are left out
			{time.Hour, 121, 3, 11},
		} {
			time.Sleep(want.after)
			synctest.Wait()
			if often, seldom, long := often.Load(), seldom.Load(), long.Load(); often != want.often || seldom != want.seldom || long != want.long {
				t.Errorf("%v later: done %d, %d and %d times, want %d, %d and %d", want.after, often, seldom, long, want.often, want.seldom, want.long)
			}
		}
		stop()
		if err := <-ended; err != nil {
			t.Fatal(err)
		}
	})
}
