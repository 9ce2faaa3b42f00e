package commands

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"ripen/engine/model"
	"ripen/engine/outlook"
	"ripen/engine/pool"
	"ripen/engine/unit"
)

// pupil is a fakeAdviser that can be taught: what was learnt moves the middle by a day for
// each tank that it was learnt from.
type pupil struct {
	fakeAdviser
	prior pool.Prior
	asked *int // how many tanks it was asked to fit
}

func (p pupil) Outlook(c model.Case, now unit.Days) (outlook.Outlook, error) {
	o, err := p.fakeAdviser.Outlook(c, now)
	if p.prior.Level != pool.None {
		o.Done = fakeSpread(24.3-float64(p.prior.Tanks), 2)
	}
	return o, err
}

func (p pupil) Says(c model.Case, now unit.Days) pool.Tank {
	*p.asked++
	return pool.Tank{Band: pool.BandOf(&c.Setup), Mean: [2]float64{1 + float64(len(c.Readings))/100, 1}, Var: [2]float64{0.1, 0.1}}
}

func (p pupil) Learned(prior pool.Prior) Adviser {
	p.prior = prior
	return p
}

// A club's tanks are learnt from, each log once; what was learnt is named in the
// outlooks that rest on it and goes with the members who erase their data.
func TestLearn(t *testing.T) {
	st := newStore(t)
	asked := 0
	b := New(st, WithAdviser(pupil{asked: &asked}))
	say := func(member, at, line string) Reply {
		t.Helper()
		r, _ := said(clock(at), member, line)
		reply := b.Do(t.Context(), r)
		if !reply.OK {
			t.Fatalf("%s: %s", line, reply.Text)
		}
		return reply
	}
	learn := func(tanks int, used bool, fits int) pool.Prior {
		t.Helper()
		asked = 0
		p, err := b.Learn(t.Context(), "club")
		if err != nil || p.Tanks != tanks || (p.Level != pool.None) != used || asked != fits {
			t.Fatalf("learnt %+v from %d fits, %v; want %d tanks, %d fits", p, asked, err, tanks, fits)
		}
		return p
	}
	learn(0, false, 0)
	finished := func(member, more string) {
		say(member, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L "+more)
		for day := 2; day < 8; day += 2 {
			say(member, fmt.Sprintf("2026-03-%02dT09:00:00Z", day), "/reading ammonia:1 nitrite:0")
		}
		say(member, "2026-03-20T09:00:00Z", "/tank close reason:done")
	}
	for i := range 9 {
		finished(fmt.Sprint("m", i), "")
	}
	finished("shy", "share:no")
	say("few", "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	say("few", "2026-03-20T09:00:00Z", "/tank close reason:done") // without a test
	say("new", "2026-03-25T09:00:00Z", "/tank new name:a volume:60L")
	before := say("new", "2026-03-25T09:00:00Z", "/outlook").Data.(Outlook)
	p := learn(9, true, 9)
	learn(9, true, 0) // nothing changed
	after := say("new", "2026-03-25T10:00:00Z", "/outlook").Data.(Outlook)
	if *before.DoneDay.P50 != 24.3 || *after.DoneDay.P50 != 15.3 {
		t.Errorf("the middle is %g before and %g after", *before.DoneDay.P50, *after.DoneDay.P50)
	}
	if before.Prior != "" || after.Prior != p.Version || !strings.Contains(after.Text(), "what the logs of 9 tanks of this club show") {
		t.Errorf("it does not say what it rests on: %s", after.Text())
	}
	kept, err := st.ClubOutlooks(t.Context(), "club", time.Time{})
	if err != nil || len(kept) != 2 || kept[0].Prior != generalPrior || kept[1].Prior != p.Version {
		t.Errorf("kept %+v, %v", kept, err)
	}
	if reply := moderate(t, b, "2026-03-26T09:00:00Z", "/club record"); reply.Data.(ClubRecord).Learned != (Learned{9, 9, pool.Least, true, p.Version}) {
		t.Errorf("the record says %+v", reply.Data)
	}
	say("m3", "2026-03-26T09:00:00Z", "/data erase confirm:yes")
	q := learn(8, true, 0)
	if q.Version == p.Version {
		t.Error("without an erased member it is the same version")
	}
	say("m4", "2026-03-26T09:00:00Z", "/data erase confirm:yes")
	learn(7, false, 0)
	if back := say("new", "2026-03-26T10:00:00Z", "/outlook").Data.(Outlook); *back.DoneDay.P50 != 24.3 {
		t.Errorf("with too few the middle is %g", *back.DoneDay.P50)
	}
	if other, _, err := b.advisers.of(t.Context(), st, "pond"); err != nil || other.(pupil).prior.Level != pool.None {
		t.Errorf("another club learnt it as well: %v", err)
	}
}

// Of outlooks from both beliefs the record tells apart how they did.
func TestRecordByPrior(t *testing.T) {
	r := ClubRecord{Enough: true, All: tally(RecordStage{Name: "in all"}, nil), Priors: []RecordPrior{
		{clubPrior, RecordStage{Outlooks: 4, Held: [3]int{2, 3, 4}}}, {generalPrior, RecordStage{Outlooks: 8, Held: [3]int{1, 5, 8}}}}}
	for _, want := range []string{"Outlooks that rest on the club's own tanks as well: held 3 of 4", "Outlooks from what is known of tanks in general: held 5 of 8"} {
		if !strings.Contains(r.Text(), want) {
			t.Errorf("it says %s", r.Text())
		}
	}
}

// Tanks on their way are learnt from as well, and fitted again when their tests have grown
// by half, when the set-up is corrected and when they are done; which of them count as done
// follows the log.
func TestLearnFromOpenTanks(t *testing.T) {
	asked := 0
	b := New(newStore(t), WithAdviser(pupil{asked: &asked}))
	must(t, b, "2026-03-01T09:00:00Z", "/tank new name:a volume:60L")
	day := 1
	for _, tt := range []struct {
		lines             string // some in the order of days
		tanks, done, fits int
	}{
		{"/reading ammonia:1;/reading ammonia:1", 0, 0, 0},
		{"/reading ammonia:1", 1, 0, 1},
		{"/log what:note detail:x;/reading ammonia:1", 1, 0, 0},
		{"/reading ammonia:1", 1, 0, 1}, // five of them
		{"/reading ammonia:1;/reading ammonia:1", 1, 0, 0},
		{"/tank edit target:1ppm", 1, 0, 1},
		{"/reading ammonia:1", 1, 0, 1}, // eight
		{"/undo", 1, 0, 1},              // the first five again
		{"/tank close reason:done", 1, 1, 1},
		{"/undo;/tank close reason:given-up", 1, 0, 1},
		{"/undo;/tank edit share:no", 0, 0, 0},
	} {
		for _, line := range strings.Split(tt.lines, ";") {
			day++
			must(t, b, fmt.Sprintf("2026-03-%02dT09:00:00Z", day), line)
		}
		asked = 0
		p, err := b.Learn(t.Context(), "club")
		if err != nil || p.Tanks != tt.tanks || p.Done != tt.done || asked != tt.fits {
			t.Errorf("after %s it learnt from %d tanks, %d done, in %d fits, %v; want %+v", tt.lines, p.Tanks, p.Done, asked, err, tt)
		}
	}
}
