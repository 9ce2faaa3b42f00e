package weekly

import (
	"context"
	"log/slog"
	"runtime"
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
	// A turn that comes while the last is not over is left out, so how many come to pass
	// hangs on chance; none may come before its time.
	every := map[string]time.Duration{"often": time.Minute, "seldom": time.Hour}
	for passed := time.Duration(0); count["often"] < 20 || count["seldom"] < 3; {
		select {
		case name := <-done:
			if count[name]++; time.Duration(count[name]-1)*every[name] > passed {
				t.Fatalf("after %v %s was done %d times", passed, name, count[name])
			}
		default:
			clock.Advance(time.Minute)
			passed += time.Minute
			runtime.Gosched()
		}
	}
	stop()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
}
