package weekly

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"ripen/commands"
	"ripen/store"
	"ripen/store/sqlite"
)

// platform takes posts as the real one does: a key that it saw within five minutes is not
// posted again.
type platform struct {
	mu    sync.Mutex
	now   func() time.Time
	keys  map[string]time.Time
	posts []string // keys of what stands in the channel
	fail  error    // what posting answers instead
}

func (p *platform) PostReply(_ context.Context, channel string, reply commands.Reply, key string) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.fail != nil {
		return p.fail
	}
	if channel != "300000000000000001" || reply.Text == "" {
		return fmt.Errorf("posted %q to %q", reply.Text, channel)
	}
	if at, ok := p.keys[key]; ok && p.now().Sub(at) < 5*time.Minute {
		return nil
	}
	p.keys[key] = p.now()
	p.posts = append(p.posts, key)
	return nil
}

// club is a store with a club that wants its summary on Mondays at 18:00 in Lisbon, and
// what belongs to it.
type club struct {
	t     *testing.T
	path  string
	at    time.Time
	posts *platform
}

var monday = time.Date(2026, 3, 2, 18, 0, 0, 0, time.UTC)

func newClub(t *testing.T, began time.Time) *club {
	c := &club{t: t, path: filepath.Join(t.TempDir(), "ripen.db"), at: began}
	c.posts = &platform{now: func() time.Time { return c.at }, keys: map[string]time.Time{}}
	c.moderate("/club settings digest:on channel:300000000000000001 day:monday time:18:00 zone:Europe/Lisbon")
	return c
}

// open opens the store as another process would.
func (c *club) open() *sqlite.DB {
	c.t.Helper()
	db, err := sqlite.Open(c.path)
	if err != nil {
		c.t.Fatal(err)
	}
	return db
}

// moderate sends a moderator's line and returns the answer.
func (c *club) moderate(line string) string {
	c.t.Helper()
	db := c.open()
	defer db.Close()
	r := commands.Request{At: c.at, Club: "reef", Member: "tern", Moderator: true}
	r.Command, r.Sub, r.Options, _ = commands.ParseLine(line)
	return commands.New(db).Do(c.t.Context(), r).Text
}

// look lets a bot on a store look at the clock once.
func (c *club) look(st store.Store, posts Poster) {
	w := Weekly{Store: st, Book: commands.New(st), Poster: posts, Now: func() time.Time { return c.at }, Log: slog.New(slog.DiscardHandler)}
	w.Look(c.t.Context())
}

// run lets a bot look every minute until a time.
func (c *club) run(until time.Time) {
	c.t.Helper()
	db := c.open()
	defer db.Close()
	for ; !c.at.After(until); c.at = c.at.Add(time.Minute) {
		c.look(db, c.posts)
	}
}

func (c *club) want(n int, why string) {
	c.t.Helper()
	if got := len(c.posts.posts); got != n {
		c.t.Errorf("%s: %d posts, want %d: %v", why, got, n, c.posts.posts)
	}
}

func TestOnceAWeek(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.run(monday.Add(-time.Minute))
	c.want(0, "before the time")
	c.run(monday)
	c.want(1, "at the time")
	c.run(monday.Add(3 * time.Hour))
	c.want(1, "later on the day")
	c.at = monday.AddDate(0, 0, 7).Add(-time.Minute)
	c.run(monday.AddDate(0, 0, 7).Add(time.Minute))
	c.want(2, "a week later")
	if text := c.moderate("/club settings"); !strings.Contains(text, "last summary posted on 9 March") {
		t.Errorf("moderators read %s", text)
	}
}

// Being away for a month is made up for with one summary.
func TestMissedWeeks(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.run(monday.Add(time.Minute))
	c.at = monday.AddDate(0, 0, 30)
	c.run(c.at.Add(2 * time.Hour))
	c.want(2, "after a month away")
	c.at = monday.AddDate(0, 0, 35).Add(-time.Minute)
	c.run(c.at.Add(2 * time.Minute))
	c.want(3, "on the next Monday")
}

// Nothing is posted for the time before the summary was wanted.
func TestNotForThePast(t *testing.T) {
	c := newClub(t, monday.AddDate(0, 0, 2))
	c.run(c.at.Add(time.Hour))
	c.want(0, "on the Wednesday on which it was turned on")
	c.moderate("/club settings day:tuesday")
	c.run(c.at.Add(time.Hour))
	c.want(0, "moved to yesterday")
	c.at = monday.AddDate(0, 0, 8)
	c.run(c.at.Add(time.Minute))
	c.want(1, "on the next Tuesday")
	c.moderate("/club settings day:wednesday")
	c.at = monday.AddDate(0, 0, 9)
	c.run(c.at.Add(time.Minute))
	c.want(1, "moved within a week that had its summary")
}

func TestClockJumps(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.run(monday.Add(time.Minute))
	c.at = monday.Add(-2 * time.Hour) // set back over the hour
	c.run(monday.Add(2 * time.Minute))
	c.want(1, "set back")
	c.at = monday.AddDate(2, 0, 0) // ahead by two years, and back again
	c.run(c.at.Add(2 * time.Minute))
	c.want(2, "ahead")
	c.at = monday.Add(time.Hour)
	c.run(c.at.Add(time.Minute))
	c.want(2, "back again")
	c.at = monday.AddDate(0, 0, 7)
	c.run(c.at.Add(time.Minute))
	c.want(3, "a week later all the same")
}

// Two processes on one database post once between them.
func TestTwoProcesses(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.at = monday.Add(time.Minute)
	var wg sync.WaitGroup
	for range 4 {
		db := c.open()
		wg.Go(func() {
			defer db.Close()
			for range 5 {
				c.look(db, c.posts)
			}
		})
	}
	wg.Wait()
	c.want(1, "four at once")
}

// dying is a store and a platform of a program that ends after so many of its steps: of
// the last one, with its effect or without.
type dying struct {
	store.Store
	Poster
	left   int
	effect bool
}

var errDied = errors.New("the program is no more")

func (d *dying) step(do func() error) error {
	if d.left--; d.left > 0 {
		return do()
	}
	if d.left == 0 && d.effect {
		if err := do(); err != nil {
			return err
		}
	}
	return errDied
}

func (d *dying) SetWeek(ctx context.Context, w store.Week) (won bool, err error) {
	err = d.step(func() error { won, err = d.Store.SetWeek(ctx, w); return err })
	return won && err == nil, err
}

func (d *dying) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	return d.step(func() error { return d.Poster.PostReply(ctx, channel, reply, key) })
}

// Whatever step the program ends at, and however long it is away, a week is posted once;
// only where it ended between the mark and the post, and was away longer than the platform
// knows keys, it is left out, and moderators are told.
func TestCrashes(t *testing.T) {
	const marked, posting = 2, 3 // the steps: claim, mark, post, close
	for steps := 1; steps <= 4; steps++ {
		for _, effect := range []bool{false, true} {
			for _, away := range []time.Duration{0, 20 * time.Second, 2 * time.Minute, 4 * time.Minute, 2 * time.Hour, 3 * 24 * time.Hour} {
				name := fmt.Sprintf("step %d, effect %v, away %v", steps, effect, away)
				c := newClub(t, monday.Add(-time.Hour))
				c.at = monday.Add(time.Minute)
				db := c.open()
				d := &dying{Store: db, Poster: c.posts, left: steps, effect: effect}
				c.look(d, d)
				db.Close()
				c.at = c.at.Add(away)
				c.run(c.at.Add(20 * time.Minute))
				uncertain := steps == marked && effect || steps == posting && !effect
				told := strings.Contains(c.moderate("/club settings"), "not known whether it arrived")
				if lost := uncertain && away > keyLasts; lost {
					c.want(0, name)
					if !told {
						t.Errorf("%s: moderators are not told", name)
					}
				} else {
					c.want(1, name)
				}
			}
		}
	}
}

// What the club has to mend is told to moderators, tried once, and again once it says so.
func TestMend(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.posts.fail = fmt.Errorf("posting: %w", ErrMend{"the channel is gone"})
	c.at = monday
	counted := &counting{Poster: c.posts}
	db := c.open()
	for range 100 {
		c.look(db, counted)
		c.at = c.at.Add(time.Minute)
	}
	db.Close()
	if counted.n != 1 {
		t.Errorf("tried %d times", counted.n)
	}
	if text := c.moderate("/club settings"); !strings.Contains(text, "weekly summary of 2 March was not posted: the channel is gone") {
		t.Errorf("moderators read %s", text)
	}
	c.posts.fail = nil
	c.run(c.at.Add(10 * time.Minute))
	c.want(0, "nothing was mended")
	c.moderate("/club settings words:off share:on time:17:30")
	c.run(c.at.Add(time.Minute))
	c.want(0, "other things were set")
	c.moderate("/club settings channel:300000000000000001")
	c.run(c.at.Add(time.Minute))
	c.want(1, "mended")
	if text := c.moderate("/club settings"); strings.Contains(text, "was not posted") {
		t.Errorf("afterwards they read %s", text)
	}
}

// What may stand in the channel is not posted again, whatever is set.
func TestUnknownIsLetBe(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.at = monday
	db := c.open()
	defer db.Close()
	c.look(db, lossy{c.posts})
	c.at = monday.Add(5 * time.Minute)
	c.look(db, c.posts)
	if text := c.moderate("/club settings"); !strings.Contains(text, "not known whether it arrived") {
		t.Errorf("moderators read %s", text)
	}
	for _, line := range []string{"words:off", "channel:300000000000000001", "digest:off", "digest:on"} {
		c.moderate("/club settings " + line)
		c.run(c.at.Add(2 * time.Minute))
	}
	c.want(1, "set anew")
	c.at = monday.AddDate(0, 0, 7)
	c.run(c.at.Add(time.Minute))
	c.want(2, "a week later")
}

// lossy is a platform whose answers are lost.
type lossy struct{ Poster }

func (l lossy) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	return errors.Join(errors.New("connection reset"), l.Poster.PostReply(ctx, channel, reply, key))
}

// What failed in a week long past is not made up for when it is turned on again.
func TestOldTroubleIsOver(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.posts.fail = ErrMend{"the channel is gone"}
	c.run(monday)
	c.posts.fail = nil
	c.moderate("/club settings digest:off")
	c.at = monday.AddDate(0, 0, 7*20+2)
	c.moderate("/club settings digest:on")
	c.run(c.at.Add(time.Hour))
	c.want(0, "on the Wednesday on which it was turned on again")
	c.at = monday.AddDate(0, 0, 7*21)
	c.run(c.at.Add(time.Minute))
	c.want(1, "on the next Monday")
}

// A line that is down for an hour delays the summary; surely nothing was sent.
func TestNotSent(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.posts.fail = fmt.Errorf("no line: %w", ErrNotSent)
	c.run(monday.Add(time.Hour))
	c.posts.fail = nil
	c.run(monday.Add(time.Hour + 20*time.Minute))
	c.want(1, "after the line was back")
}

// A line that breaks in the middle is tried with the same key, and only while that counts.
func TestLineBreaks(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	c.posts.fail = errors.New("connection reset")
	c.run(monday)
	c.posts.fail = nil
	c.run(monday.Add(2 * time.Minute))
	c.want(1, "back within the time of the key")
}

// Each summary goes on from where the last one that was posted ended: after a late one, a
// missed one, one that failed, a change of the day and being turned off.
func TestEachGoesOnFromTheLast(t *testing.T) {
	c := newClub(t, monday.Add(-time.Hour))
	at := func(days, hours int) time.Time {
		return monday.AddDate(0, 0, days).Add(time.Duration(hours) * time.Hour)
	}
	db := c.open()
	defer db.Close()
	asked := &asking{Book: commands.New(db)}
	look := func(when time.Time) {
		c.at = when
		w := Weekly{Store: db, Book: asked, Poster: c.posts, Now: func() time.Time { return c.at }, Log: slog.New(slog.DiscardHandler)}
		w.Look(t.Context())
	}
	set := func(when time.Time, line string) {
		c.at = when
		c.moderate("/club settings " + line)
	}
	want := func(why string, since time.Time) {
		t.Helper()
		if last := asked.all[len(asked.all)-1]; !last.Since.Equal(since) || !last.At.Equal(c.at) {
			t.Errorf("%s: it is from %v to %v, want from %v to %v", why, last.Since, last.At, since, c.at)
		}
	}
	look(at(0, 3))
	want("the first", time.Time{})
	look(at(7, 0))
	want("after a late one", at(0, 3))
	look(at(21, 0))
	want("after a missed one", at(7, 0))
	c.posts.fail = ErrMend{"gone"}
	look(at(28, 0))
	c.posts.fail = nil
	look(at(35, 0))
	want("after one that failed", at(21, 0))
	set(at(37, 0), "day:tuesday")
	look(at(43, 0))
	want("after the day was moved", at(35, 0))
	set(at(44, 0), "digest:off")
	set(at(60, 0), "digest:on")
	look(at(64, 0))
	want("after it was off", at(43, 0))
	look(at(127, 0))
	want("after a very long time", time.Time{})
}

// asking keeps what is asked.
type asking struct {
	*commands.Book
	all []commands.Request
}

func (a *asking) Do(ctx context.Context, r commands.Request) commands.Reply {
	a.all = append(a.all, r)
	return a.Book.Do(ctx, r)
}

// counting counts what is tried.
type counting struct {
	Poster
	n int
}

func (c *counting) PostReply(ctx context.Context, channel string, reply commands.Reply, key string) error {
	c.n++
	return c.Poster.PostReply(ctx, channel, reply, key)
}
