package discord

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"
)

// stopwatch takes the time from the coming of an interaction to its
// acknowledgement, and to its finished answer.
type stopwatch struct {
	api
	mu    sync.Mutex // protects all below
	began map[string]time.Time
	acked []time.Duration
	done  []time.Duration
	left  sync.WaitGroup
}

func (w *stopwatch) begin(id string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.began[id] = time.Now()
	w.left.Add(1)
}

func (w *stopwatch) Respond(ctx context.Context, i *discordgo.Interaction, r Response) error {
	err := w.api.Respond(ctx, i, r)
	w.mu.Lock()
	defer w.mu.Unlock()
	w.acked = append(w.acked, time.Since(w.began[i.ID]))
	return err
}

func (w *stopwatch) Edit(ctx context.Context, i *discordgo.Interaction, m Message) error {
	err := w.api.Edit(ctx, i, m)
	w.mu.Lock()
	defer w.mu.Unlock()
	w.done = append(w.done, time.Since(w.began[i.ID]))
	w.left.Done()
	return err
}

// report gives quantiles of both times in milliseconds.
func (w *stopwatch) report(b *testing.B) {
	for name, all := range map[string][]time.Duration{"ack": w.acked, "done": w.done} {
		slices.Sort(all)
		for _, q := range []int{50, 99} {
			b.ReportMetric(float64(all[(len(all)-1)*q/100].Microseconds())/1000, fmt.Sprintf("ms-%s-p%d", name, q))
		}
	}
	b.ReportMetric(0, "ns/op")
}

// BenchmarkPace sends interactions at the pace of a large installation: commands
// at 200 a second, and outlooks on a hundred tanks at 20 a second. Each run lasts
// ten seconds; -benchtime 1x is enough.
func BenchmarkPace(b *testing.B) {
	for _, c := range []struct {
		name          string
		members, rate int
		line          string
		later         time.Duration // each time it is asked
	}{
		{"commands at 200", 100, 200, "/tank show", time.Second},
		{"outlooks asked again at 20", 100, 20, "/outlook", 0},
		{"outlooks a minute later of few at 20", 8, 20, "/outlook", time.Minute},
		{"outlooks a minute later of many at 20", 100, 20, "/outlook", time.Minute},
	} {
		b.Run(c.name, func(b *testing.B) {
			d := newDesk(b)
			w := &stopwatch{api: d.flow.api, began: map[string]time.Time{}}
			d.flow.api = w
			d.pace(b, w, c.members, c.rate, c.later, c.line)
			w.report(b)
		})
	}
}

// pace registers members' tanks with a few readings, then sends a command of one
// after the other at a rate for ten seconds.
func (d *desk) pace(b *testing.B, w *stopwatch, members, rate int, later time.Duration, line string) {
	who := func(k int) string { return fmt.Sprint(400000000000000000 + k%members) }
	send := func(k int, at time.Time, line string) *discordgo.Interaction {
		i := d.slash(at.Format(time.RFC3339), who(k), line)
		w.begin(i.ID)
		return i
	}
	day := func(n int) time.Time { return time.Date(2026, 3, n, 9, 0, 0, 0, time.UTC) }
	for k := range members {
		d.flow.handle(b.Context(), send(k, day(1), tankNano))
		d.flow.handle(b.Context(), send(k, day(4), "/reading ammonia:2 nitrite:0.25"))
		d.flow.handle(b.Context(), send(k, day(8), "/reading ammonia:0.5 nitrite:2"))
		d.flow.handle(b.Context(), send(k, day(9), line))
	}
	w.acked, w.done = nil, nil
	tick := time.NewTicker(time.Second / time.Duration(rate))
	defer tick.Stop()
	b.ResetTimer()
	for k := range 10 * rate {
		<-tick.C
		go d.flow.handle(b.Context(), send(k, day(9).Add(time.Duration(k)*later), line))
	}
	w.left.Wait()
}
