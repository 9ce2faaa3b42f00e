package commands

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/unit"
	"ripen/store"
)

// countingAdviser counts what it is asked for.
type countingAdviser struct {
	fateAdviser
	asked atomic.Int32
}

func (a *countingAdviser) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	a.asked.Add(1)
	return a.fateAdviser.Outlook(c, now)
}

// watching returns a book with a watch that works only when it is told to.
func watching(t testing.TB, st store.Store) (b *Book, w *Watch, answers *countingAdviser) {
	answers = new(countingAdviser)
	w = NewWatch(fateAdviser{}, func(tank int64, err error) { t.Errorf("tank %d: %v", tank, err) })
	return New(st, WithAdviser(answers), WithWatch(w)), w, answers
}

// With a watch /club slow asks the engine nothing: it shows what the watch found, says of
// when it is, and heeds at once what a member said of sharing.
func TestClubSlowWithWatch(t *testing.T) {
	b, w, answers := watching(t, newStore(t))
	slow := func(at string) ClubSlow {
		t.Helper()
		reply := moderate(t, b, at, "/club slow")
		checkReply(t, "slow", reply)
		return reply.Data.(ClubSlow)
	}
	sweep := func(at string) {
		t.Helper()
		if err := w.Sweep(t.Context(), clock(at)); err != nil {
			t.Fatal(err)
		}
	}
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:nano volume:60L ph:6.2 share:yes")
	if r := slow("2026-03-09T09:00:00Z"); r.Pending != 1 || r.Open != 1 || len(r.Rows) != 0 {
		t.Errorf("before the first look: %+v", r)
	}
	sweep("2026-03-09T09:01:00Z")
	r := slow("2026-03-09T10:00:00Z")
	if len(r.Rows) != 1 || r.Rows[0].Verdict != "stalled" || r.Rows[0].Cause != "low-alkalinity" || r.Rows[0].AsOf != nil {
		t.Fatalf("after it: %+v", r)
	}
	must(t, b, "2026-03-09T11:00:00Z", "/reading ammonia:1 nitrite:0.5")
	if r := slow("2026-03-09T11:01:00Z"); len(r.Rows) != 1 || *r.Rows[0].AsOf != 8 || r.Rows[0].LastReading.Ammonia != "1" {
		t.Errorf("with a reading that was not looked at yet: %+v", r)
	}
	must(t, b, "2026-03-09T12:00:00Z", "/tank edit share:no")
	if r := slow("2026-03-09T12:00:01Z"); len(r.Rows) != 0 || r.Unseen != 1 {
		t.Errorf("a tank is shown whose member just said no: %+v", r)
	}
	must(t, b, "2026-03-09T12:01:00Z", "/tank edit share:yes")
	sweep("2026-03-09T12:02:00Z")
	if r := slow("2026-03-10T06:00:00Z"); len(r.Rows) != 1 || *r.Rows[0].AsOf != 8 || r.Rows[0].Day != 9 {
		t.Errorf("on the next morning: %+v", r)
	}
	if n := answers.asked.Load(); n != 0 {
		t.Errorf("the engine that answers was asked %d times", n)
	}
}

// The worker looks at a tank after each thing that is told of it, and only then.
func TestWatchRuns(t *testing.T) {
	st := newStore(t)
	synctest.Test(t, func(t *testing.T) {
		b, w, _ := watching(t, st)
		ctx, stop := context.WithCancel(t.Context())
		go w.Run(ctx, func() time.Time { return clock("2026-03-05T12:00:00Z") })
		for _, line := range []string{"/tank new name:nano volume:60L", "/reading ammonia:1", "/log what:dose amount:2ppm", "/undo", "/tank edit temp:27C"} {
			must(t, b, "2026-03-05T11:00:00Z", line)
			synctest.Wait()
			s, err := st.Standing(ctx, 1)
			if err != nil || s.Verdict.Revision != s.Revision {
				t.Errorf("after %s the verdict is of %s, the log of %s, %v", line, s.Verdict.Revision, s.Revision, err)
			}
		}
		must(t, b, "2026-03-05T11:30:00Z", "/tank close")
		stop()
		synctest.Wait()
	})
}

// What the queue has no room for is found by the next sweep.
func TestWatchQueueIsBounded(t *testing.T) {
	st := newStore(t)
	b, w, _ := watching(t, st)
	for i := range watchQueue + 10 {
		r, _ := said(clock("2026-03-05T09:00:00Z"), fmt.Sprint("m", i), "/tank new name:a volume:60L")
		if reply := b.Do(t.Context(), r); !reply.OK {
			t.Fatal(reply.Text)
		}
	}
	if err := w.Sweep(t.Context(), clock("2026-03-05T10:00:00Z")); err != nil {
		t.Fatal(err)
	}
	if left, err := st.Outdated(t.Context(), clock("2026-03-05T00:00:00Z")); err != nil || len(left) != 0 {
		t.Errorf("%d tanks are left, %v", len(left), err)
	}
}
