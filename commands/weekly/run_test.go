package weekly

import (
	"context"
	"log/slog"
	"testing"
	"time"

	"github.com/jonboulle/clockwork"
)

// Chores are done at once and then in their turn, by the clock that Run is given; one that
// fails is done again in its next turn.
func TestRun(t *testing.T) {
	clock := clockwork.NewFakeClockAt(monday)
	ctx, stop := context.WithCancel(t.Context())
	done, ended := make(chan string), make(chan error)
	chore := func(name string, every time.Duration) Chore {
		return Chore{name, every, func(ctx context.Context) {
			select {
			case done <- name:
			case <-ctx.Done():
			}
			if name == "often" {
				panic("a fault")
			}
		}}
	}
	go func() {
		ended <- Run(ctx, clock, slog.New(slog.DiscardHandler), chore("often", time.Minute), chore("seldom", time.Hour))
	}()
	count := map[string]int{<-done: 1}
	count[<-done]++
	if count["often"] != 1 || count["seldom"] != 1 {
		t.Fatalf("at once were done %v", count)
	}
	for range 59 {
		if err := clock.BlockUntilContext(ctx, 2); err != nil { // both wait for the clock
			t.Fatal(err)
		}
		clock.Advance(time.Minute)
		if name := <-done; name != "often" {
			t.Fatalf("%s was done", name)
		}
	}
	stop()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
}
