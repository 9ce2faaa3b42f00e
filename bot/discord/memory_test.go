package discord

import (
	"context"
	"fmt"
	"os"
	"runtime"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/bwmarrin/discordgo"

	"ripen/bot/discord/discordtest"
)

// forgetful takes answers and keeps none.
type forgetful struct{}

func (forgetful) Respond(context.Context, *discordgo.Interaction, Response) error { return nil }
func (forgetful) Edit(context.Context, *discordgo.Interaction, Message) error     { return nil }
func (forgetful) Followup(context.Context, *discordgo.Interaction, Message) (string, error) {
	return "", nil
}
func (forgetful) Fetch(context.Context, string, int64) ([]byte, error) { return nil, nil }
func (forgetful) SetCommands(context.Context, string, []*discordgo.ApplicationCommand) error {
	return nil
}

// BenchmarkMemory is what the process keeps of 1,000 clubs and 100,000 members, after
// each of them asked something, one in ten registered a tank, and outlooks filled the
// engine's memory: the heap after it was swept, and all that the system counts to the
// process (on Linux). The stand-in's own copy of the clubs counts with it. It takes
// less than a minute; -benchtime 1x is enough.
func BenchmarkMemory(b *testing.B) {
	const clubs, members = 1000, 100_000
	d := newDesk(b)
	srv := discordtest.New(b)
	srv.Unchecked = true
	for k := range clubs {
		srv.Guilds = append(srv.Guilds, fmt.Sprint(100000000000000000+k))
	}
	ctx, stop := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- serve(ctx, srv, d) }()
	defer func() {
		stop()
		if err := <-ended; err != nil {
			b.Error(err)
		}
	}()
	srv.Ready(1)
	d.flow.api = forgetful{}
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	say := func(k int, after time.Duration, line string) {
		i := d.slash(at.Add(after).Format(time.RFC3339), fmt.Sprint(400000000000000000+k), line)
		i.GuildID = srv.Guilds[k%clubs]
		d.flow.handle(ctx, i)
	}
	b.ResetTimer()
	for k := range members {
		line := "/tank list"
		if k%10 == 0 {
			line = tankNano
		}
		say(k, 0, line)
	}
	for k := range 300 { // more than the engine remembers
		say(10*k, time.Hour, "/reading ammonia:2 nitrite:0.25")
		say(10*k, 2*time.Hour, "/outlook")
	}
	var heap runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&heap)
	b.ReportMetric(float64(heap.HeapAlloc)/1e6, "MB-heap")
	if mb, ok := resident(); ok {
		b.ReportMetric(mb, "MB-resident")
	}
	b.ReportMetric(0, "ns/op")
	runtime.KeepAlive(d)
	runtime.KeepAlive(srv)
}

// resident is what the system counts to the process, in MB.
func resident() (mb float64, ok bool) {
	status, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return 0, false
	}
	for _, l := range strings.Split(string(status), "\n") {
		if f := strings.Fields(l); len(f) > 1 && f[0] == "VmRSS:" {
			kb, err := strconv.ParseFloat(f[1], 64)
			return kb / 1e3, err == nil
		}
	}
	return 0, false
}
