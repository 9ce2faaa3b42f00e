//go:build unix

package discord

import (
	"context"
	"fmt"
	"slices"
	"sync"
	"syscall"
	"testing"
	"time"

	"ripen/bot/discord/discordtest"
	"ripen/commands"
)

// paceFor is how long a pace is kept.
const paceFor = 10 * time.Second

// BenchmarkPace sends interactions over loopback at the pace of a large installation
// and takes the time until they are acknowledged and until the answer is there:
// commands at 200 a second, outlooks at 20 a second. The time of the processors for
// each does not depend on what else the machine does. A run lasts ten seconds;
// -benchtime 1x is enough. The stand-in does not check bodies here.
func BenchmarkPace(b *testing.B) {
	for _, c := range []struct {
		name          string
		members, rate int
		ask           string
		again         bool // it was asked within the hour
	}{
		{"commands at 200", 100, 200, "/tank show", false},
		{"outlooks asked again at 20", 100, 20, "/outlook", true},
		{"outlooks at 10", 100, 10, "/outlook", false},
		{"outlooks at 20", 200, 20, "/outlook", false},
	} {
		b.Run(c.name, func(b *testing.B) {
			p := newPace(b, c.members)
			now := time.Now()
			for k := range c.members { // no two tanks are alike: answers of one would do for the other
				p.tell(k, now.AddDate(0, 0, -8), fmt.Sprintf("/tank new name:nano volume:%dL ph:7.6 kh:6dKH temp:25C", 60+k))
				p.tell(k, now.AddDate(0, 0, -5), "/reading ammonia:2 nitrite:0.25")
				p.tell(k, now.AddDate(0, 0, -1), "/reading ammonia:0.5 nitrite:2")
				if c.again {
					p.tell(k, now, c.ask)
				}
			}
			b.ResetTimer()
			p.cpu = processor()
			p.keep(c.rate, c.ask)
			p.report()
		})
	}
}

// pace is members who ask, and the times that it takes to answer.
type pace struct {
	*testing.B
	srv     *discordtest.Server
	desk    *desk
	members int

	cpu time.Duration // that the process took so far

	mu         sync.Mutex // protects all below
	ack, whole []time.Duration
}

func newPace(b *testing.B, members int) *pace {
	d := newDesk(b)
	d.engine.Hourly()
	d.restart()
	srv := discordtest.New(b)
	srv.Unchecked, srv.Patience, srv.Guilds = true, time.Minute, []string{guild}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, srv, d) }()
	b.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			b.Error(err)
		}
	})
	srv.Ready(1)
	return &pace{B: b, srv: srv, desk: d, members: members}
}

func (p *pace) who(k int) string { return fmt.Sprint(400000000000000000 + k%p.members) }

// tell lets a member say something at a time, past the platform.
func (p *pace) tell(k int, at time.Time, line string) {
	if all := p.desk.do(p.desk.slash(at.Format(time.RFC3339), p.who(k), line)); len(all) != 2 {
		p.Fatalf("%s is not answered: %+v", line, all)
	}
}

// keep keeps a pace: one member after the other asks.
func (p *pace) keep(rate int, ask string) {
	var left sync.WaitGroup
	tick := time.NewTicker(time.Second / time.Duration(rate))
	defer tick.Stop()
	for k := range int(paceFor/time.Second) * rate {
		<-tick.C
		left.Go(func() {
			began := time.Now()
			i := p.send(k, ask)
			acked := i.Callback().After
			i.Message()
			whole := time.Since(began)
			p.mu.Lock()
			defer p.mu.Unlock()
			p.ack, p.whole = append(p.ack, acked), append(p.whole, whole)
		})
	}
	left.Wait()
}

func (p *pace) send(k int, line string) *discordtest.Interaction {
	command, sub, options, _ := commands.ParseLine(line)
	return p.srv.Slash(discordtest.From{User: p.who(k), Guild: guild, Channel: forum}, command, sub, given(command, sub, options)...)
}

// report gives quantiles of both times in milliseconds.
func (p *pace) report() {
	for name, all := range map[string][]time.Duration{"ack": p.ack, "done": p.whole} {
		slices.Sort(all)
		for _, q := range []int{50, 99} {
			p.ReportMetric(float64(all[(len(all)-1)*q/100].Microseconds())/1000, fmt.Sprintf("ms-%s-p%d", name, q))
		}
	}
	p.ReportMetric(float64((processor()-p.cpu).Microseconds())/1000/float64(len(p.ack)), "ms-cpu/ask")
	p.ReportMetric(0, "ns/op")
}

// processor is the time that the process took of all processors.
func processor() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		return 0
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
