package commands

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"ripen/store"
)

// bigClub is a club of 2,000 members, each with a tank on its way and one that is done, of
// 20 readings and 5 outlooks, with what a watch found of all of them by the day after.
func bigClub(b *testing.B) *Book {
	b.Helper()
	const members, readings, outlooks = 2000, 20, 5
	st := newStore(b)
	book, w, _ := watching(b, st)
	start := clock("2026-03-01T09:00:00Z")
	for i := range members {
		member, ph := fmt.Sprintf("m%04d", i), []string{"6.2", "7.6"}[i%2]
		var logs []store.Log
		for _, name := range []string{"open", "done"} {
			l := store.Log{Tank: store.Tank{Name: name, Started: start}}
			add := func(day int, kind store.Kind, values ...store.Value) {
				at := start.AddDate(0, 0, day)
				l.Entries = append(l.Entries, store.Entry{Kind: kind, At: at, Recorded: at, Key: fmt.Sprint(member, name, day), Values: values})
			}
			add(0, store.KindSetup, store.Value{Name: "name", Typed: name}, store.Value{Name: "volume", Typed: "60L"}, store.Value{Name: "ph", Typed: ph}, store.Value{Name: "share", Typed: "yes"})
			for day := range readings {
				add(day+1, store.KindReading, store.Value{Name: "ammonia", Typed: "1", Unit: "ion"}, store.Value{Name: "nitrite", Typed: "0.5", Unit: "ion"})
			}
			if name == "done" {
				add(readings+1, store.KindEdit, store.Value{Name: "reason", Typed: "done"}, store.Value{Name: "closed", Typed: "yes"})
				l.Tank.Closed = start.AddDate(0, 0, readings+1)
			}
			logs = append(logs, l)
		}
		if _, err := st.AddLogs(b.Context(), "club", member, store.Metric, logs); err != nil {
			b.Fatal(err)
		}
	}
	tanks, err := st.ClubTanks(b.Context(), "club")
	if err != nil || len(tanks) != 2*members {
		b.Fatal(len(tanks), err)
	}
	for _, t := range tanks {
		for day := range outlooks {
			o := store.Outlook{Tank: t.ID, Asked: "outlook", Own: true, At: start.AddDate(0, 0, 3*day), Day: float64(3 * day), Done: [7]float64{5, 10, 15, 20, 25, 30, 35}, Prior: generalPrior}
			if err := st.KeepOutlook(b.Context(), o); err != nil {
				b.Fatal(err)
			}
		}
	}
	if err := w.Sweep(b.Context(), start.AddDate(0, 0, readings+2)); err != nil {
		b.Fatal(err)
	}
	return book
}

// benchClub measures how long a moderator waits for a command of a big club, warm.
func benchClub(b *testing.B, line string, check func(Reply) bool) {
	book := bigClub(b)
	r, _ := said(clock("2026-03-23T12:00:00Z"), "tern", line)
	r.Moderator = true
	book.Do(b.Context(), r)
	var took []time.Duration
	for b.Loop() {
		before := b.Elapsed()
		reply := book.Do(b.Context(), r)
		took = append(took, b.Elapsed()-before)
		if !reply.OK || !check(reply) {
			b.Fatal(reply.Text)
		}
	}
	slices.Sort(took)
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "p99-ms")
}

func BenchmarkClubSlow(b *testing.B) {
	benchClub(b, "/club slow", func(r Reply) bool {
		return r.Data.(ClubSlow).Behind == 1000 && r.Data.(ClubSlow).Open == 2000 && strings.Contains(r.Text, "stalled")
	})
}

func BenchmarkClubWeek(b *testing.B) {
	benchClub(b, "/club week", func(r Reply) bool { return len(r.Data.(ClubWeek).Finished) == 2000 && r.Data.(ClubWeek).Shown == 2000 })
}

func BenchmarkClubRecord(b *testing.B) {
	benchClub(b, "/club record", func(r Reply) bool { return r.Data.(ClubRecord).Finished == 2000 && r.Data.(ClubRecord).Open == 2000 })
}
